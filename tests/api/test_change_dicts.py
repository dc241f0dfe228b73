"""Changes as plain objects: every kind, nothing left out, and called as in the stream."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, get_args

import pytest

from rinkfold import rulesets
from rinkfold.timeline import Change, change_to_dict, read_log, replay
from rinkfold.timeline.views.change_dicts import KINDS_OF_CHANGE

LOG = read_log(Path(__file__).resolve().parents[2] / "examples" / "game.jsonl")


def test_every_change_of_a_game_is_written_whole() -> None:
    """Each is JSON and has the fields of the change, the rule that says so among them."""
    changes = [change for some in replay(LOG, rulesets.of(LOG)).changes for change in some]
    assert len({type(change) for change in changes}) > 10
    for change in changes:
        made = json.loads(json.dumps(change_to_dict(change)))
        assert list(made) == ["change", *change._fields]
        rule = {"name": change.rule.name, "source": change.rule.source, "section": change.rule.section}
        assert made["rule"] == rule
        held = {name: list(value) if isinstance(value, tuple) else value for name, value in change._asdict().items()}
        assert {**made, "rule": change.rule} == {"change": KINDS_OF_CHANGE[type(change)], **held}


def test_every_kind_has_a_word_of_its_own() -> None:
    """A program tells them apart by it; the stream takes its words from here."""
    assert set(KINDS_OF_CHANGE) == set(get_args(Change))
    assert len(set(KINDS_OF_CHANGE.values())) == len(KINDS_OF_CHANGE)


@pytest.mark.parametrize("wrong", [None, (1, 2), {"at": 0}])
def test_what_is_no_change_is_an_error_of_the_call(wrong: Any) -> None:
    """It says what was expected."""
    with pytest.raises(TypeError, match=r"Expected a change as LiveGame\.record gives them"):
        change_to_dict(wrong)
