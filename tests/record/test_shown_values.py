"""Values of a log as messages show them."""

from __future__ import annotations

import pytest

from rinkfold.timeline.wording import show, show_name


@pytest.mark.parametrize("text", ["\x1b[2J", "\x9b2J", "\x7f", "a\u202eb", "\u2066x", "x\ny", "\u2028"])
def test_nothing_that_is_shown_steers_a_terminal(text: str) -> None:
    """What cannot be printed in one line is spelled out, in values, in lists and in the names of fields."""
    for shown in (show(text), show([text]), show({text: 1}), show_name(text)):
        assert shown.isprintable()
        assert shown.isascii()


def test_what_can_be_printed_stays_as_it_is() -> None:
    """Names are shown as they are spelled, and what is long is cut."""
    assert show("Jörg 雪") == '"Jörg 雪"'
    assert show_name("größe") == "größe"
    assert len(show("x" * 5000)) == 60
