"""The least and the greatest of every number, as the page about the log has them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from schema.reading import fits, is_read

from rinkfold.timeline.rules import KNOBS, Knob

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "log-format.md").read_text(encoding="utf-8")
AT = {"seq": 2, "period": 1, "clock": "9:15"}
FIGURES = {**AT, "kind": "figures", "team": "home", "source": "board"}
SEEN = {**AT, "kind": "observed_strength", "home": 5, "away": 5}
PENALTY = {**AT, "kind": "penalty_assessed", "team": "home", "parts": ["minor"]}
LINES: dict[str, dict[str, Any]] = {
    "period": {**AT, "kind": "faceoff"},
    "seq": {**AT, "kind": "faceoff"},
    "after": {**AT, "kind": "faceoff"},
    "target": {"seq": 2, "kind": "void", "reason": "x"},
    "penalty": {**AT, "kind": "penalty_ended", "team": "home", "cause": "released"},
    "ends": {**AT, "kind": "goal", "team": "home"},
    "count": {**AT, "kind": "shot", "team": "home"},
    **dict.fromkeys(("goals", "shots", "saves"), FIGURES),
    **dict.fromkeys(("home", "away"), SEEN),
    "minutes": PENALTY,
}


def documented() -> dict[str, tuple[int, int]]:
    """Each field of the page's table that has numbers, with its bounds."""
    table = PAGE.partition("## The greatest numbers")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| (`.*?) \| ([0-9]+) \| ([0-9,]+) \|", table, re.MULTILINE)
    names = {name: (int(least), int(most.replace(",", ""))) for row, least, most in rows for name in _names(row)}
    return {name: names[name] for name in names if name != "format"}


def _names(row: str) -> list[str]:
    return re.findall(r"`(\w+)`", row.partition(" of ")[0])


def test_every_number_has_bounds() -> None:
    """The page tells them of each field that is a number."""
    assert set(documented()) == set(LINES)


@pytest.mark.parametrize("name", LINES)
def test_the_reader_and_the_schema_have_the_bounds_of_the_page(name: str) -> None:
    """The least and the greatest are taken, what lies beyond is refused by both."""
    least, most = documented()[name]
    for value in (least, most):
        line = {**LINES[name], name: value}
        assert (is_read(line), fits(line)) == (True, True), value
    for value in (least - 1, most + 1, 10**400, -(10**400)):
        line = {**LINES[name], name: value}
        assert (is_read(line), fits(line)) == (False, False), value
    for decimal in (1e308, -1e308, most + 0.5):
        line = {**LINES[name], name: decimal}
        assert (is_read(line), fits(line)) == (False, False), decimal


@pytest.mark.parametrize("knob", [knob for knob in KNOBS.values() if type(knob.default) is int], ids=lambda k: k.name)
def test_every_number_of_a_ruleset_has_a_greatest(knob: Knob) -> None:
    """A length by how a reading is written, any other by its knob."""
    assert (knob.most is None) is (knob.unit == "length")
    if knob.most is not None:
        header = {"seq": 1, "kind": "game_opened", "format": 1, "game": "g", "ruleset": "adult"}
        header |= {"home": {"name": "Elm"}, "away": {"name": "Oak"}}
        for value, right in ((knob.most, True), (knob.most + 1, False), (10**400, False)):
            line = {**header, "settings": {knob.name: value}}
            assert (is_read(line), fits(line)) == (right, right), value
