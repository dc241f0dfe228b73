"""One tenth more or less, one part more or less, and what happens twice at one tenth."""

from __future__ import annotations

from typing import Any

from rinkfold.timeline.fold.changes import StrengthChanged

from .short_games import game_of, parts_of, returns_of, told

LATE: dict[str, Any] = {"coincident.late_netting": True}


def offset_parts(*calls: str, at: str, **settings: Any) -> list[str]:
    """The parts off the clock when play has resumed after `calls` at a reading of the third period."""
    game = game_of(*(f"3 {at} penalty {call}" for call in calls), f"3 {at} faceoff", **{**LATE, **settings})
    return [name for name, (_, _, fate) in parts_of(game).items() if fate == "offset"]


def test_late_is_five_minutes_and_not_a_tenth_more() -> None:
    """At 5:00 a minor and a major are netted, at 5:00.1 both go on the clock (R10)."""
    calls = ("home 12 major", "away 9 minor")
    assert offset_parts(*calls, at="5:00") == ["3.0"]
    assert offset_parts(*calls, at="5:00.1") == []


def test_three_minors_of_one_player_are_not_netted() -> None:
    """Only a minor or a double minor stands against a major, however short the minors are (R10)."""
    short = {"lengths.minor": "1:00"}
    assert offset_parts("home 12 major", "away 9 minor+minor", at="4:00", **short) == ["3.0"]
    assert offset_parts("home 12 major", "away 9 minor+minor+minor", at="4:00", **short) == []


def test_a_tenth_is_a_difference() -> None:
    """A major a tenth longer than the minor leaves that tenth on the clock; one as long leaves nothing to net (R10)."""
    calls = ("home 12 major", "away 9 minor")
    assert offset_parts(*calls, at="4:00", **{"lengths.minor": "4:59.9"}) == ["3.0"]
    assert offset_parts(*calls, at="4:00", **{"lengths.minor": "5:00"}) == []


def test_what_runs_out_at_one_tenth_is_told_once() -> None:
    """Two minors run out together: from three skaters to five, never four."""
    calls = ("1 18:00 penalty home 4 minor", "1 18:00 penalty home 5 minor", "1 18:00 faceoff")
    game = game_of(*calls, "1 15:00 stoppage")
    assert [(row[0], row[1], row[2]) for row in told(StrengthChanged, game)] == [
        ("1 20:00", 5, 5),
        ("1 18:00", 3, 5),
        ("1 16:00", 5, 5),
    ]


def test_a_ruling_does_not_change_who_sits() -> None:
    """60 sits for 4's two minors; the one that named him is ruled away, and he sits on for the other (R14 b)."""
    lines = (
        "1 18:00 penalty home 4 minor served_by=60",
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 17:00 stoppage",
        "1 17:00 ruling 2",
        "1 17:00 faceoff",
        "1 12:00 stoppage",
    )
    assert returns_of(game_of(*lines)) == [("1 15:00", "60", "on expiry")]
