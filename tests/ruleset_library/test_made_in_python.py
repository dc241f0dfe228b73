"""A ruleset made in Python is checked by the bounds and choices of files, before a game is played by it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

from rinkfold import rulesets
from rinkfold.timeline import (
    Ejection,
    GameOpened,
    GameRules,
    Lengths,
    LiveGame,
    Overtime,
    Problem,
    ProblemsFound,
    Ruleset,
    TeamSheet,
    replay,
)
from rinkfold.timeline.knobs.checking import check_rules
from rinkfold.timeline.record import create, read_log

ADULT = rulesets.load("adult")
LOG = read_log(Path(__file__).resolve().parents[2] / "examples" / "game.jsonl")
WRONG: list[tuple[dict[str, Any], list[tuple[str, str]]]] = [
    ({"overtime": Overtime(skaters=9)}, [("impossible_combination", "overtime.skaters")]),
    ({"overtime": Overtime(skaters=10)}, [("out_of_range", "overtime.skaters")]),
    ({"game": GameRules(periods=0)}, [("out_of_range", "game.periods")]),
    ({"game": GameRules(periods=True)}, [("wrong_type", "game.periods")]),
    ({"ejection": Ejection(major="fourth")}, [("unknown_value", "ejection.major")]),  # type: ignore[arg-type]
    ({"lengths": Lengths(minor=10**9)}, [("out_of_range", "lengths.minor")]),
    ({"lengths": Lengths(minor=0, major=-5)}, [("out_of_range", "lengths.minor"), ("out_of_range", "lengths.major")]),
    ({"lengths": Lengths(minor="1:30")}, [("wrong_type", "lengths.minor")]),  # type: ignore[arg-type]
    ({"overtime": None}, [("wrong_type", f"overtime.{name}") for name in ("skaters", "length", "periods")]),
    ({"name": None, "infractions": "tripping"}, [("wrong_type", "name"), ("wrong_type", "infractions")]),
]
DOORS: list[Callable[[Ruleset], object]] = [
    lambda rules: LiveGame.open(rules, home="Larks", away="Herons"),
    lambda rules: LiveGame.of(LOG, rules),
    lambda rules: replay(LOG, rules),
    rulesets.pin,
]


def found(ask: Callable[[], object]) -> tuple[Problem, ...]:
    with pytest.raises(ProblemsFound) as caught:
        ask()
    return caught.value.problems


@pytest.mark.parametrize("door", DOORS, ids=["open", "of", "replay", "pin"])
@pytest.mark.parametrize(("groups", "expected"), WRONG, ids=str)
def test_each_door_refuses_what_no_file_could_say(
    door: Callable[[Ruleset], object], groups: dict[str, Any], expected: list[tuple[str, str]]
) -> None:
    """Every wrong value at once, by its knob; twice, since nothing wrong is remembered as right."""
    rules = evolve(ADULT, **groups)
    for _ in range(2):
        told = [(problem.code, problem.field) for problem in found(lambda: door(rules))]
        assert told[: len(expected)] == expected


def test_a_length_is_told_in_tenths() -> None:
    """The unit of the engine, with what to write for a reading."""
    (problem,) = check_rules(evolve(ADULT, lengths=Lengths(minor="1:30")))  # type: ignore[arg-type]
    assert problem.message == 'Expected tenths of a second as a whole number, found "1:30".'
    assert problem.fix == "Write 900."
    (problem,) = check_rules(evolve(ADULT, lengths=Lengths(minor=0)))
    assert problem.message == "Expected tenths of a second from 1 (0:00.1) to 599999 (999:59.9), found 0."


def test_what_is_right_can_be_pinned_and_read_again() -> None:
    """Every shipped ruleset, the engine's own values, and the longest length that a reading can say."""
    longest = evolve(ADULT, lengths=Lengths(minor=599_999))
    for rules in (*map(rulesets.load, rulesets.names()), Ruleset(), longest):
        assert check_rules(rules) == []
        assert rulesets.unpin(rulesets.pin(rules)) == rules


def test_what_is_no_ruleset_is_an_error_of_the_call() -> None:
    """A name in its place is a slip in the program, and says what gives one."""
    for door in DOORS:
        with pytest.raises(TypeError, match=r'Expected a Ruleset, found "adult"; rulesets\.load\(name\) gives one'):
            door("adult")  # type: ignore[arg-type]


def test_a_new_log_does_not_keep_wrong_rules(tmp_path: Path) -> None:
    """What could not be read again is not written."""
    pinned = rulesets.pin(ADULT)
    pinned["knobs"] = {**pinned["knobs"], "lengths.minor": "0:00"}
    team = TeamSheet(name="Larks")
    header = GameOpened(seq=1, format=1, game="g", ruleset="adult", pinned=pinned, home=team, away=team)
    assert [problem.code for problem in found(lambda: create(tmp_path / "g.jsonl", header))] == ["out_of_range"]
    assert list(tmp_path.iterdir()) == []


def test_a_name_that_is_no_knob_is_told() -> None:
    """`written` says it as the door of files does."""
    (problem,) = found(lambda: rulesets.written(1, "lengths.minr"))
    assert (problem.code, problem.fix) == ("unknown_knob", 'Did you mean "lengths.minor"?')
