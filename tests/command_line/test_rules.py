"""`rinkfold rules`: the rulesets."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from rinkfold import rulesets
from rinkfold.timeline.rules import KNOBS

DECIDES = "The league's own rules and the officials on the ice decide."


def test_the_list(rinkfold: Any) -> None:
    """Every name once, with what it applies, and who decides."""
    lines = rinkfold("rules", "list").out.splitlines()
    assert [line.split()[0] for line in lines[:-2]] == list(rulesets.names())
    assert (
        "youth-8u       minor 1:30 · period 12:00 · board counts down · no side plays short · overtime 5:00, 5 on 5"
        in lines
    )
    assert lines[-1].endswith(DECIDES)
    answer = rinkfold("rules", "list", "--json").answer
    assert [one["name"] for one in answer["rulesets"]] == list(rulesets.names())
    assert set(answer["rulesets"][0]) == {"name", "title", "applied"}
    assert (answer["rinkfold"], answer["note"]) == (1, DECIDES)


def test_one_ruleset_whole(rinkfold: Any) -> None:
    """Every knob with its value, meaning and source."""
    lines = rinkfold("rules", "show", "youth-10u").out.splitlines()
    assert any(line.split()[:2] == ["lengths.minor", "1:30"] for line in lines)
    assert lines[-1] == DECIDES
    answer = rinkfold("rules", "show", "youth-10u", "--json").answer
    assert set(answer) == {"rinkfold", "name", "title", "applied", "knobs", "infractions", "note"}
    assert list(answer["knobs"]) == list(KNOBS)
    assert set(answer["knobs"]["lengths.minor"]) == {"value", "unit", "meaning", "source"}
    assert answer["knobs"]["lengths.minor"]["value"] == "1:30"
    assert all(knob["source"] for knob in answer["knobs"].values())


def test_a_league_of_ones_own(rinkfold: Any, tmp_path: Path) -> None:
    """A file is shown like a name, and a fault in it is told with file and key."""
    league = tmp_path / "our-league.toml"
    league.write_text('extends = "youth-12u"\n[lengths]\nminor = "1:30"\n', encoding="utf-8")
    assert rinkfold("rules", "show", league, "--json").answer["knobs"]["lengths.minor"]["value"] == "1:30"
    league.write_text('extends = "youth-12u"\n[lengths]\nminr = "1:30"\n', encoding="utf-8")
    ran = rinkfold("rules", "show", league)
    assert (ran.code, ran.out) == (2, "")
    assert str(league) in ran.err
    assert "lengths.minr" in ran.err


def test_a_name_that_nobody_knows(rinkfold: Any) -> None:
    """Exit code 2, and what was perhaps meant."""
    ran = rinkfold("rules", "show", "youth-11u")
    assert (ran.code, ran.out) == (2, "")
    assert "Did you mean" in ran.err
