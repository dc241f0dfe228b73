"""Amendments and voids at the door: what fits, what counts in the end, and what a closing forbids."""

from __future__ import annotations

from typing import Any

import pytest
from strategies import header

from rinkfold.timeline.events import Amend, Event, Figures, GameClosed, Goal, Remark, Void
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import amended, check_events

GOAL = Goal(seq=2, period=1, clock="8:50", team="home", scorer="17", assists=("4",))
REMARK = Remark(seq=3, text="Fog")


def amend(seq: int, target: int, /, **changes: Any) -> Amend:
    return Amend(seq=seq, target=target, changes=changes, reason="read again")


def void(seq: int, target: int) -> Void:
    return Void(seq=seq, target=target, reason="wrong")


def faults(*later: Event) -> list[tuple[str, int | None, str | None]]:
    return [(p.code, p.seq, p.field) for p in check_events([header(), GOAL, REMARK, *later])]


def test_amending_changes_the_fields_named() -> None:
    """Everything else stays as it was written."""
    assert amended(GOAL, {"scorer": "7", "assists": ["9", "11"]}) == Goal(
        seq=2, period=1, clock="8:50", team="home", scorer="7", assists=("9", "11")
    )


def test_a_null_clears_an_optional_field() -> None:
    """An amendment can take back what was written."""
    assert amended(GOAL, {"assists": None, "scorer": None}) == Goal(seq=2, period=1, clock="8:50", team="home")


@pytest.mark.parametrize("name", ["seq", "kind", "prev", "format"])
def test_what_cannot_be_amended(name: str) -> None:
    """An event keeps its number, its kind and its place in the chain."""
    with pytest.raises(ProblemsFound) as caught:
        amended(GOAL, {name: 1})
    assert [(p.code, p.field) for p in caught.value.problems] == [("fixed_field", f"changes.{name}")]


def test_an_amendment_is_checked_like_a_line() -> None:
    """Types, fields, and the period with the reading."""
    with pytest.raises(ProblemsFound) as caught:
        amended(GOAL, {"scorer": 7, "scorrer": "7", "clock": None})
    assert [(p.code, p.field) for p in caught.value.problems] == [
        ("wrong_type", "changes.scorer"),
        ("unknown_field", "changes.scorrer"),
        ("missing_field", "changes.clock"),
    ]


def test_amendments_are_applied_in_order() -> None:
    """The second may build on what the first brought."""
    assert faults(amend(4, 3, period=1, clock="8:00"), amend(5, 3, clock="7:00")) == []
    assert faults(amend(4, 3, clock="7:00"), amend(5, 3, period=1, clock="8:00")) == [
        ("missing_field", 4, "changes.period")
    ]


def test_an_amendment_that_is_voided_does_not_count() -> None:
    """What built on it no longer fits."""
    first, second = amend(4, 3, period=1, clock="8:00"), amend(5, 3, clock="7:00")
    assert faults(first, second, void(6, 5)) == []
    assert faults(first, second, void(6, 4)) == [("missing_field", 5, "changes.period")]
    assert faults(first, second, void(6, 4), void(7, 6)) == []


def test_a_voided_amendment_still_has_known_fields() -> None:
    """Unknown fields are errors, never ignored, whether or not they count."""
    assert faults(amend(4, 2, scorrer="7"), void(5, 4)) == [("unknown_field", 4, "changes.scorrer")]


def test_a_correction_can_be_amended() -> None:
    """The changes of an amendment, and the target of a void."""
    assert faults(amend(4, 2, scorer="7"), amend(5, 4, changes={"scorer": "9"})) == []
    assert faults(amend(4, 2, scorer="7"), amend(5, 4, changes={"text": "9"})) == [("unknown_field", 4, "changes.text")]
    assert faults(void(4, 2), amend(5, 4, target=3)) == []
    assert faults(void(4, 2), amend(5, 4, target=1)) == [("header_void", 5, "changes.target")]
    assert faults(void(4, 2), amend(5, 4, target=5)) == [("later_target", 5, "changes.target")]


def test_pointers_that_are_amended_point_at_something() -> None:
    """An amended `ends` or `after` is checked like a written one."""
    assert faults(amend(4, 2, ends=3, after=1)) == []
    assert faults(amend(4, 2, ends=9)) == [("no_target", 4, "changes.ends")]
    assert faults(amend(4, 2, after=3)) == [("later_target", 4, "changes.after")]


CLOSED = GameClosed(seq=4, outcome="played")


def test_what_may_follow_the_closing() -> None:
    """Corrections, remarks and figures."""
    figures = Figures(seq=7, team="home", goals=1, source="board")
    assert faults(CLOSED, amend(5, 2, scorer="7"), Remark(seq=6, text="x"), figures, void(8, 3)) == []


def test_a_goal_after_the_closing() -> None:
    """The record is complete; a second closing is one too many as well."""
    late = Goal(seq=5, period=1, clock="8:00", team="home")
    assert faults(CLOSED, late, GameClosed(seq=6, outcome="played")) == [
        ("after_closing", 5, "kind"),
        ("after_closing", 6, "kind"),
    ]


def test_voiding_the_closing_opens_the_record_again() -> None:
    """What was entered while it was open stays right when it is closed again, by whatever closes it."""
    goal = Goal(seq=6, period=1, clock="8:00", team="home")
    assert faults(CLOSED, void(5, 4), goal) == []
    assert faults(CLOSED, void(5, 4), goal, GameClosed(seq=7, outcome="played")) == []
    assert faults(CLOSED, void(5, 4), goal, void(7, 5)) == []
    later = Goal(seq=8, period=1, clock="7:00", team="home")
    assert faults(CLOSED, void(5, 4), goal, void(7, 5), later) == [("after_closing", 8, "kind")]


def test_a_void_that_is_amended_away_from_the_closing() -> None:
    """The closing counts again from then on."""
    goal = Goal(seq=7, period=1, clock="8:00", team="home")
    assert faults(CLOSED, void(5, 4), amend(6, 5, target=3), goal) == [("after_closing", 7, "kind")]
