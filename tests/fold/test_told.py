"""What the fold tells besides who sits and how many skate: who waits, who is held, power plays, the net, whistles."""

from __future__ import annotations

from typing import Any

import pytest

from rinkfold.timeline.fold.changes import (
    GoalieChanged,
    GoalJudged,
    Held,
    PartEnded,
    PartSetAside,
    PartStarted,
    PenaltyCalled,
    PlayResumed,
    PlayStopped,
    PowerPlayCounted,
    StrengthChanged,
    Waits,
)

from .short_games import game_of, told

THREE = (
    "1 18:00 penalty home 4 minor",
    "1 17:00 penalty home 5 minor",
    "1 16:40 penalty home 6 minor",
    "1 16:40 faceoff",
    "1 15:00 stoppage",
)


def test_who_waits() -> None:
    """The third of a side waits, and is told when play resumes: side, whose chain, which penalty."""
    assert told(Waits, game_of(*THREE)) == [("1 16:40", "home", "6", 4)]


def test_who_is_held() -> None:
    """At 16:00 the first one's time is up and the third starts; at 15:00 the second's is up and the first goes on."""
    assert told(Held, game_of(*THREE)) == [
        ("1 16:00", "home", "4", "player", "4", (2,)),
        ("1 15:00", "home", "5", "player", "5", (3,)),
    ]


def test_whose_misconduct_is_up_waits_for_a_whistle() -> None:
    """A misconduct that ends in play is told like any time that is up."""
    game = game_of("1 18:00 penalty away 9 misconduct", "1 18:00 faceoff", "1 5:00 stoppage")
    assert told(Held, game) == [("1 8:00", "away", "9", "player", "9", (2,))]


def test_stand_ins_are_told_as_such() -> None:
    """A goalkeeper's stand-ins on and off the clock, and that of a player with a misconduct.

    At 16:00 the third penalty takes the place of the first, and 60 goes on in the place of the second; at 14:00 61 goes
    on in the place of the third.
    """
    game = game_of(
        "1 18:00 penalty home 1 minor+misconduct served_by=60",
        "1 18:00 penalty home 5 minor+misconduct served_by=61",
        "1 18:00 penalty home 6 minor",
        "1 18:00 faceoff",
        "1 3:00 stoppage",
        keepers={"home": ["1"]},
    )
    assert told(Held, game) == [
        ("1 16:00", "home", "60", "stand-in", 2, (2,)),
        ("1 16:00", "home", "61", "stand-in", "5", (3,)),
        ("1 14:00", "home", "6", "player", "6", (4,)),
        ("1 6:00", "home", None, "second stand-in", 2, (2,)),
        ("1 6:00", "home", "5", "player", "5", (3,)),
    ]


POWER_PLAYS = {
    "one penalty": (["home 4 minor"], [("away", 1)]),
    "a double minor is one": (["home 4 minor+minor"], [("away", 1)]),
    "a misconduct is none": (["home 4 misconduct"], []),
    "two against one": (["home 4 minor+minor", "home 5 minor", "away 8 major"], [("away", 1)]),
    "equal numbers of another kind": (["home 4 minor", "away 8 major"], []),
    "what is offset does not count": (["home 4 minor", "home 5 minor", "away 8 minor"], [("away", 1)]),
    "a lone pair counts none": (["home 4 minor", "away 8 minor"], []),
    "half of a double minor is offset": (["home 4 minor+minor", "away 8 minor"], [("away", 1)]),
    "for the home side": (["away 8 minor"], [("home", 1)]),
    "for the home side, a misconduct beside it": (["away 8 minor+misconduct"], [("home", 1)]),
    "the third that waits counts": (["away 7 minor", "away 8 minor", "away 9 minor"], [("home", 3)]),
}


@pytest.mark.parametrize(("calls", "expected"), POWER_PLAYS.values(), ids=POWER_PLAYS.keys())
def test_power_plays(calls: list[str], expected: list[tuple[str, int]]) -> None:
    """One for each penalty on the clock or waiting, less those of the other side."""
    events = [f"1 17:00 penalty {call}" for call in calls]
    assert told(PowerPlayCounted, game_of(*events, "1 17:00 faceoff")) == [("1 17:00", *one) for one in expected]


def test_the_net() -> None:
    """Who goes in, who goes out, and the skaters with an extra attacker."""
    events = ("1 20:00 goalie home 30", "1 20:00 faceoff", "1 1:00 goalie home out", "1 0:30 goalie home 30")
    assert told(GoalieChanged, game_of(*events)) == [
        ("1 20:00", "home", "30"),
        ("1 1:00", "home", None),
        ("1 0:30", "home", "30"),
    ]
    assert told(StrengthChanged, game_of(*events)) == [
        ("1 20:00", 5, 5, "30", None, False, False),
        ("1 1:00", 6, 5, None, None, False, False),
        ("1 0:30", 5, 5, "30", None, False, False),
    ]


def test_short_handed_with_an_extra_attacker() -> None:
    """Five with an empty net against five are short-handed all the same."""
    events = ("1 17:00 penalty away 9 minor", "1 17:00 goalie away out", "1 17:00 faceoff")
    assert told(StrengthChanged, game_of(*events))[-1] == ("1 17:00", 5, 5, None, None, False, True)


def test_whistles_and_resumptions() -> None:
    """A whistle is implied by what only a stoppage allows; nobody wrote when play resumed, so it did at once."""
    events = ("1 20:00 faceoff", "1 18:00 stoppage", "1 16:00 goal home", "1 16:00 faceoff", "1 15:00 timeout away")
    assert told(PlayStopped, game_of(*events)) == [("1 18:00", False), ("1 16:00", True), ("1 15:00", True)]
    assert told(PlayResumed, game_of(*events)) == [("1 20:00", False), ("1 18:00", False), ("1 16:00", False)]


def test_resumption_under_a_running_clock_is_assumed() -> None:
    """Where the clock runs on and no faceoff is written, nobody knows when play resumed."""
    events = ("1 20:00 faceoff", "1 18:00 stoppage", "1 16:00 goal home")
    running: dict[str, Any] = {"game.clock": "running"}
    assert told(PlayResumed, game_of(*events, **running)) == [("1 20:00", False), ("1 18:00", True)]


def test_first_whistle_of_a_period_is_implied_by_the_horn_nobody_wrote() -> None:
    """A period that nobody ended is taken as played out."""
    game = game_of("1 20:00 faceoff", "2 20:00 faceoff", "2 1:00 stoppage")
    assert told(PlayStopped, game) == [("1 0:00", True), ("2 1:00", False)]


@pytest.mark.parametrize(
    ("line", "implied"),
    [
        ("1 15:00 penalty home 4 minor", True),
        ("1 15:00 penalty_shot home 4 missed", True),
        ("1 15:00 timeout home", True),
        ("1 15:00 goal home", True),
        ("1 15:00 stoppage", False),
        ("1 15:00 period_end", False),
    ],
)
def test_what_stops_play(line: str, implied: bool) -> None:
    """Each is a stoppage; the whistle is implied but for those that are one themselves."""
    assert told(PlayStopped, game_of("1 20:00 faceoff", line)) == [("1 15:00", implied)]


def test_a_whistle_in_a_stoppage_changes_nothing() -> None:
    """A second stoppage at the same reading is told no second time, in a quiet game and beside a call."""
    assert len(told(PlayStopped, game_of("1 20:00 faceoff", "1 15:00 stoppage", "1 15:00 stoppage"))) == 1
    game = game_of("1 20:00 faceoff", "1 15:00 penalty home 4 minor", "1 15:00 stoppage", "1 15:00 faceoff")
    assert len(told(PlayStopped, game)) == 1
    assert game.folded.last.in_play


def test_calls_and_running_time() -> None:
    """A call is told when it is made, its time when play resumes, with the tenth at which it runs out."""
    game = game_of("1 18:00 penalty home 4 minor+misconduct", "1 18:00 faceoff", "1 15:00 stoppage")
    assert told(PenaltyCalled, game) == [("1 18:00", "home", 2)]
    assert told(PartStarted, game) == [
        ("1 18:00", "home", 2, 0, True, 2400),
        ("1 16:00", "home", 2, 1, False, 8400),
    ]


def test_offset_parts() -> None:
    """What leaves the clock is told when play resumes, with the reason."""
    calls = ("1 17:00 penalty home 4 major", "1 17:00 penalty away 8 major", "1 17:00 faceoff")
    assert told(PartSetAside, game_of(*calls)) == [("1 17:00", "home", 2, 0), ("1 17:00", "away", 3, 0)]
    assert rules_of(PartSetAside, *calls) == ["equal penalties of both sides offset one for one"] * 2
    assert rules_of(PartSetAside, *calls, **{"ice.plays_short": False}) == ["in this class no side plays short"] * 2


def rules_of(kind: type, *lines: str, **settings: Any) -> list[str]:
    """The names of the rules that changes of a kind cite."""
    return [change.rule.name for change in game_of(*lines, **settings).folded.all_changes() if type(change) is kind]


SHORT = ("1 18:00 penalty home 4 minor", "1 17:30 penalty home 5 minor", "1 17:30 faceoff")
GOAL_RULES = {
    "least_time_left": "a goal ends the minor with the least time left",
    "first_assessed": "a goal ends the minor assessed first",
}


@pytest.mark.parametrize("how", GOAL_RULES)
def test_why_a_goal_ends_a_minor(how: str) -> None:
    """The goal and the end of the minor cite the rule of the book."""
    settings: dict[str, Any] = {"goals.ends_minor": how}
    assert rules_of(GoalJudged, *SHORT, "1 17:00 goal away", **settings) == [GOAL_RULES[how]]
    assert rules_of(PartEnded, *SHORT, "1 17:00 goal away", **settings) == [GOAL_RULES[how]]


def test_why_a_goal_ends_nothing_or_an_own_minor() -> None:
    """Among equals the captain chooses; a short-handed goal ends nothing, or one of the side that scored."""
    nothing = ["the goal ends nothing"]
    assert rules_of(GoalJudged, *SHORT, "1 17:00 goal home") == nothing
    assert rules_of(PartEnded, *SHORT, "1 17:00 goal home", **{"goals.shorthanded_ends_own_minor": True}) == [
        "a short-handed goal ends a minor of the side that scored"
    ]
    equals = ("1 18:00 penalty home 4 minor", "1 18:00 penalty home 5 minor", "1 18:00 faceoff", "1 17:00 goal away")
    assert rules_of(PartEnded, *equals) == ["equal time left: the captain chooses"]
