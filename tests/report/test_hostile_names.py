"""Whatever a log says is text on the page and nothing else."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from report.conftest import Write
from report.pages import parsed

HOSTILE = {
    "html": "<b>bold</b><img src=x onerror=alert(1)>",
    "script": "</script><script>alert(1)</script>",
    "style": "</style><style>*{display:none}</style>",
    "attribute": "\" onfocus=alert(1) x='",
    "title": "</title></g></svg><script>alert(1)</script>",
    "template": "{{ 7 * 7 }}{% raw %}",
    "entity": "&lt;b&gt; &amp; &#x3c;script",
    "long": "W" * 3000,
    "emoji": "👩‍👩‍👧🏒🇸🇪",
    "hebrew": "דוד בן־גל",
}


def game_named(write: Write, name: str) -> Path:
    """A game in which every text that a log can hold is `name`."""
    when: dict[str, Any] = {"period": 1, "clock": "10:00"}
    side = {
        "name": name,
        "short": name,
        "roster": [{"number": "7", "name": name}],
        "staff": [{"name": name, "role": name}],
    }
    penalty = {
        "kind": "penalty_assessed",
        "team": "home",
        "player": "7",
        "parts": ["minor"],
        "infraction": name,
        **when,
    }
    goal = {"kind": "goal", "team": "away", "scorer": name, "assists": [name], "period": 1, "clock": "9:00"}
    closed = {"kind": "game_closed", "outcome": "played", "signed": [name], "reason": name}
    officials = {"referees": [name], "linespersons": [name], "scorekeeper": name, "timekeeper": name}
    texts = {"date": "2026-01-10", "rink": name, "competition": name}
    return write(penalty, goal, closed, home=side, away=side, officials=officials, **texts)


@pytest.mark.parametrize("kind", HOSTILE)
@pytest.mark.parametrize("options", [(), ("--names",)], ids=["numbers", "names"])
def test_a_name_is_text(made: Callable[..., str], write: Write, kind: str, options: tuple[str, ...]) -> None:
    """Nothing in a name makes an element or an attribute, and it is read as it was written."""
    page, plain = (
        parsed(made(game_named(write, HOSTILE[kind]), *options)),
        parsed(made(game_named(write, "Ann"), *options)),
    )
    assert HOSTILE[kind] in page.text
    assert [(node.tag, sorted(node.attributes)) for node in page.walk()] == [
        (node.tag, sorted(node.attributes)) for node in plain.walk()
    ]
    assert [node.text for node in page.all("script")] == [node.text for node in plain.all("script")]


@pytest.mark.parametrize("code", [0x202E, 0x202A, 0x2066, 0x2069, 0x01, 0x7F])
def test_a_character_that_turns_the_text_is_shown(made: Callable[..., str], write: Write, code: int) -> None:
    """A name cannot make the rest of the page read backwards."""
    html = made(game_named(write, f"Bo{chr(code)}0-9"), "--names")
    assert chr(code) not in html
    assert "Bo�0-9" in html


def test_every_name_is_isolated_from_the_text_around_it(made: Callable[..., str], write: Write) -> None:
    """In the page's own text each stands in an element of its own direction."""
    page = parsed(made(game_named(write, HOSTILE["hebrew"]), "--names"))
    within = sum(node.text.count(HOSTILE["hebrew"]) for node in page.all("bdi"))
    outside = sum(node.text.count(HOSTILE["hebrew"]) for tag in ("title", "text") for node in page.all(tag))
    assert within + outside == page.text.count(HOSTILE["hebrew"])
    assert within > 10
