"""One tenth more or less, one part more or less, and what happens twice at one tenth."""

from __future__ import annotations

from typing import Any

from rinkfold.timeline.fold.changes import PlayResumed, StrengthChanged

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


def test_a_ruling_on_the_part_that_names_the_one_who_sits() -> None:
    """It has not begun: 60 sits on for what runs (R14 b)."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 penalty home 4 minor served_by=60",
        "1 18:00 faceoff",
        "1 17:00 stoppage",
        "1 17:00 ruling 3",
        "1 17:00 faceoff",
        "1 12:00 stoppage",
    )
    assert returns_of(game_of(*lines)) == [("1 16:00", "60", "on expiry")]


def test_who_sits_for_a_later_part_is_penalized() -> None:
    """60 was named for the first minor and sits on for the second; called himself, he gives his place to another."""
    lines = (
        "1 18:00 penalty home 4 minor served_by=60",
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 15:00 penalty home 60 minor",
        "1 15:00 faceoff",
        "1 12:00 stoppage",
    )
    assert returns_of(game_of(*lines)) == [("1 14:00", None, "on expiry"), ("1 13:00", "60", "on expiry")]


def test_time_off_the_clock_that_a_ruling_starts_for_one_who_waited() -> None:
    """In a stoppage it has begun at once, and an offset major called there comes after it."""
    lines = (
        "1 19:00 penalty home 4 minor",
        "1 19:00 penalty home 5 minor",
        "1 19:00 faceoff",
        "1 18:30 penalty home 6 minor",
        "1 18:30 penalty home 6 minor",
        "1 18:30 penalty away 8 minor",
        "1 18:30 faceoff",
        "1 18:00 stoppage",
        "1 18:00 ruling 6",
        "1 18:00 penalty home 6 major",
        "1 18:00 penalty away 9 major",
        "1 18:00 faceoff",
    )
    parts = parts_of(game_of(*lines))
    assert parts["5.0"] == ("1 18:00", None, "offset")
    assert parts["11.0"] == (None, None, "waiting")


def test_play_after_the_end_of_a_period_takes_the_end_back() -> None:
    """The horn was written a minute early: the period was played to its end."""
    game = game_of("1 1:00 period_end", "1 1:00 faceoff", "2 20:00 faceoff")
    assert game.folded.last.now == 12000


def test_play_after_the_end_of_the_game_takes_the_end_back() -> None:
    """Home leads at the last horn, and an overtime is played all the same."""
    game = game_of("1 10:00 goal home", "3 0:00 period_end", "4 5:00 faceoff")
    assert not game.over


def test_play_that_goes_on_unseen_names_its_rule() -> None:
    """Nobody wrote the faceoff after the call."""
    game = game_of("1 18:00 penalty home 4 minor", "1 17:00 stoppage")
    resumed = [one for one in game.folded.all_changes() if isinstance(one, PlayResumed)]
    assert [(one.at, one.rule.name) for one in resumed] == [
        (0, "a whistle that nobody wrote"),
        (1200, "a whistle that nobody wrote"),
    ]
