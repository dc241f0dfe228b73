"""An equal pair leaves the clock at the first faceoff of a smaller overtime (R8)."""

from __future__ import annotations

from typing import Any

from rinkfold.timeline.fold.changes import PartStarted, PartSuspended, Returned

from .short_games import game_of, parts_of, returns_of, told

SMALLER: dict[str, Any] = {"overtime.skaters": 3, "overtime.equal_pair": "off_the_clock"}
AWAY = ("3 3:00 penalty away 9 minor+minor", "3 3:00 faceoff")
OVERTIME = ("3 0:00 period_end", "4 5:00 faceoff")


def test_one_call_before_the_opening_faceoff() -> None:
    """4's minor and what 9 has left are equal: both leave the clock before 4's has started on it."""
    calls = ("3 2:00 penalty away 9 minor+minor", "3 2:00 faceoff", "3 0:00 period_end", "4 5:00 penalty home 4 minor")
    game = game_of(*calls, "4 5:00 faceoff", "4 3:00 stoppage", ruleset="adult", **SMALLER)
    assert [row[:5] for row in told(PartStarted, game)] == [
        ("3 2:00", "away", 2, 0, True),
        ("3 0:00", "away", 2, 1, True),
        ("4 5:00", "home", 5, 0, False),
        ("4 5:00", "away", 2, 1, False),
    ]
    assert told(PartSuspended, game) == []


def test_which_penalties_somebody_sat_for() -> None:
    """9 has sat for both of his; where 60 sat for him, 9 sits for the rest of the second alone."""
    first, second = "3 2:00 penalty away 9 minor", "3 2:00 penalty away 9 minor"
    rest = ("3 2:00 faceoff", "3 0:00 period_end", "4 5:00 penalty home 4 minor", "4 5:00 faceoff", "4 2:00 stoppage")
    alone = game_of(first, second, *rest, ruleset="adult", **SMALLER)
    helped = game_of(f"{first} served_by=60", second, *rest, ruleset="adult", **SMALLER)
    assert [row[2:6] for row in told(Returned, alone) if row[1] == "away"] == [("9", "player", "9", (2, 3))]
    assert [row[2:6] for row in told(Returned, helped) if row[1] == "away"] == [
        ("60", "stand-in", "9", (2, 3)),
        ("9", "player", "9", (3,)),
    ]


def test_one_chain_pairs_with_one_only() -> None:
    """4 and 5 have as much left as 9; 4, assessed first, goes with him, 5 stays on the clock."""
    calls = ("3 1:00 penalty home 4 minor", "3 1:00 penalty home 5 minor", "3 1:00 faceoff")
    game = game_of(*AWAY, *calls, *OVERTIME, ruleset="adult", **SMALLER)
    assert {name: fate for name, (_, _, fate) in parts_of(game).items()} == {
        "2.0": "served",
        "2.1": "offset",
        "4.0": "offset",
        "5.0": "running",
    }
    assert game.at("4 5:00").strength.label == "3 on 4"


def test_offset_time_begun_before_goes_first() -> None:
    """4 owes the rest of an offset minor: it goes on, and what is left of the minor on the clock stands still."""
    calls = (
        "3 1:30 penalty home 4 minor",
        "3 1:30 penalty away 8 minor",
        "3 1:30 faceoff",
        "3 1:00 penalty home 4 minor",
        "3 1:00 faceoff",
    )
    game = game_of(*AWAY, *calls, *OVERTIME, "4 3:00 stoppage", ruleset="adult", **SMALLER)
    assert told(PartSuspended, game) == [("3 1:00", "home", 4, 0, 900, True), ("4 5:00", "home", 7, 0, 600, True)]
    assert parts_of(game)["4.0"] == ("3 1:30", "4 3:30", "offset")
    assert parts_of(game)["7.0"] == ("3 1:00", None, "offset")


def test_the_stand_in_leaves() -> None:
    """60 sat for what was on the clock; off it 4 sits himself and leaves at the whistle."""
    calls = ("3 1:00 penalty home 4 minor served_by=60", "3 1:00 faceoff")
    game = game_of(*AWAY, *calls, *OVERTIME, "4 3:00 stoppage", ruleset="adult", **SMALLER)
    assert returns_of(game) == [
        ("4 5:00", "60", "at stoppage"),
        ("4 3:00", "4", "at stoppage"),
        ("4 3:00", "9", "at stoppage"),
    ]


def test_a_bench_minor_and_a_goalkeeper_go_on_as_they_sat() -> None:
    """Somebody else would only take the place of the one who sits."""
    for who in ("bench bench_minor served_by=60", "1 minor served_by=60"):
        calls = (f"3 1:00 penalty home {who}", "3 1:00 faceoff")
        game = game_of(*AWAY, *calls, *OVERTIME, "4 3:00 stoppage", ruleset="adult", keepers={"home": ["1"]}, **SMALLER)
        assert [row[:4] for row in told(Returned, game)] == [
            ("4 3:00", "home", "60", "stand-in" if "bench" in who else "second stand-in"),
            ("4 3:00", "away", "9", "player"),
        ]


def test_nobody_serves_it_for_an_ejected_player() -> None:
    """It ends there, and his stand-in leaves."""
    calls = ("3 1:00 penalty home 4 minor+game_misconduct served_by=60", "3 1:00 faceoff")
    game = game_of(*AWAY, *calls, *OVERTIME, "4 3:00 stoppage", ruleset="adult", **SMALLER)
    assert parts_of(game)["4.0"] == ("3 1:00", "4 5:00", "ended by ejection")
    assert returns_of(game) == [("4 5:00", "60", "at stoppage"), ("4 3:00", "9", "at stoppage")]
