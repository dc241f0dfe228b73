"""What is wrong with data is told as problems, what is wrong with a call as a TypeError that says what was expected."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import (
    Event,
    Goal,
    GoalieChange,
    LiveGame,
    PenaltyAssessed,
    ProblemsFound,
    Remark,
    append,
    create,
    event_from_dict,
    event_to_dict,
)
from rinkfold.timeline.record import event_from_line, event_to_line, read_log

TIMEOUT: dict[str, Any] = {"kind": "timeout", "period": 1, "clock": "8:50", "team": "home"}
PENALTY: dict[str, Any] = TIMEOUT | {"kind": "penalty_assessed", "parts": ["minor"]}


def live() -> LiveGame:
    return LiveGame.open(rulesets.load("adult"), home="Larks", away="Herons")


def goal(assists: Any) -> Goal:
    return Goal(seq=0, period=1, clock="9:00", team="home", scorer="5", assists=assists)


def told(ask: Callable[[], object]) -> list[tuple[str, str | None]]:
    with pytest.raises(ProblemsFound) as caught:
        ask()
    return [(problem.code, problem.field) for problem in caught.value.problems]


def doors(path: Path) -> list[Callable[[Event], object]]:
    """Everything that takes an event."""
    create(path, live().events[0])
    return [live().record, lambda event: append(path, [event]), event_to_dict]


def test_a_string_is_no_list_of_letters(tmp_path: Path) -> None:
    """Assists "67" are not the players 6 and 7: no door takes it, and nothing is written."""
    path = tmp_path / "g.jsonl"
    for door in doors(path):
        assert told(lambda door=door: door(goal("67"))) == [("wrong_type", "assists")]  # type: ignore[misc]
        parts: Any = "minor"
        penalty = PenaltyAssessed(seq=0, period=1, clock="9:00", team="home", parts=parts)
        assert told(lambda door=door, it=penalty: door(it)) == [("wrong_type", "parts")]  # type: ignore[misc]
    with pytest.raises(ProblemsFound, match=r'Expected a list of strings, found "67"\. Write \["67"\]\.'):
        live().record(goal("67"))
    assert len(read_log(path).events) == 1


def test_a_list_is_taken_for_a_tuple() -> None:
    """What is kept is a tuple, as reading the line gives it; its items are looked at."""
    game = live()
    game.record(goal(["6", "7"]))
    assert game.events[-1] == event_from_line(event_to_line(game.events[-1]).decode())
    assert game.events[-1].assists == ("6", "7")  # type: ignore[attr-defined]
    assert told(lambda: live().record(goal(["6", 7]))) == [("wrong_type", "assists[1]")]
    assert event_to_dict(goal(("6",)))["assists"] == ["6"]


class Header(Goal):
    """A class that the log does not have."""


@pytest.mark.parametrize("wrong", [{"kind": "goal"}, None, "x", Header(seq=0, period=1, clock="9:00", team="home")])
def test_what_is_no_event_is_an_error_of_the_call(tmp_path: Path, wrong: Any) -> None:
    """An object, nothing, a string, an event of a class of one's own: each door says what it takes."""
    for door in doors(tmp_path / "g.jsonl"):
        with pytest.raises(TypeError, match=r"^Expected an event such as Goal\(…\), found "):
            door(wrong)
    with pytest.raises(TypeError, match=r"^Expected an event"):
        LiveGame([live().events[0], wrong])


def test_events_that_are_no_log() -> None:
    """None, without the opening, or in another order than written."""
    game = live()
    game.record(Remark(seq=0, text="a"))
    game.record(GoalieChange(seq=0, period=1, clock="15:00", team="home", goalie="31"))
    first, second, third = game.events
    assert told(lambda: LiveGame([])) == [("not_opened", None)]
    assert ("not_opened", "kind") in told(lambda: LiveGame([second, third]))
    assert ("not_opened", "kind") in told(lambda: LiveGame([third, second, first]))
    assert told(lambda: LiveGame([first, third, second])) == [("out_of_sequence", "seq")] * 2
    assert LiveGame([first, second, third]).events == game.events


@pytest.mark.parametrize("data", [[], None, "x", 7, [TIMEOUT]])
def test_what_is_no_object_is_told_as_data(data: Any) -> None:
    """What came as JSON and is none of an event."""
    assert told(lambda: event_from_dict(data)) == [("not_an_object", None)]


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({"minutes": math.inf}, [("not_json", "minutes")]),
        ({"minutes": math.nan, "note": "\ud800"}, [("not_json", "minutes"), ("not_json", "note")]),
        ({"infraction": b"x"}, [("not_json", "infraction")]),
        ({7: "x"}, [("wrong_type", None)]),
    ],
)
def test_an_object_that_no_line_could_hold(more: dict[Any, Any], expected: list[tuple[str, str | None]]) -> None:
    """No infinity, no half a character, nothing of Python's own: the file would refuse it later."""
    assert told(lambda: event_from_dict(PENALTY | more)) == expected


def test_an_object_may_leave_its_number_out() -> None:
    """The event then has the `seq` 0, which is the next one's; a line of a file must have its own."""
    assert event_from_dict(TIMEOUT).seq == event_from_dict(TIMEOUT | {"seq": 0}).seq == 0
    assert told(lambda: event_from_line(json.dumps(TIMEOUT))) == [("missing_field", "seq")]
    assert told(lambda: event_from_line(json.dumps(TIMEOUT | {"seq": 0}))) == [("too_small", "seq")]
    assert told(lambda: event_from_dict(TIMEOUT | {"seq": False})) == [("wrong_type", "seq")]
    assert told(lambda: event_from_dict(TIMEOUT | {"seq": -1})) == [("too_small", "seq")]
    game = live()
    game.record(event_from_dict(TIMEOUT))
    assert game.events[-1].seq == 2
    with pytest.raises(ProblemsFound) as caught:
        event_from_dict({"kind": "timeout", "period": 1, "clock": "8.50", "team": "home"})
    assert [problem.seq for problem in caught.value.problems] == [None]
