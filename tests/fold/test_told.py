"""What the fold tells besides who sits and how many skate: who waits, who is held, power plays, the net, whistles."""

from __future__ import annotations

from typing import Any

import pytest
from cases.load import case_of
from cases.test_own import replayed

from rinkfold.timeline.fold.changes import (
    Change,
    GoalieChanged,
    Held,
    PlayResumed,
    PlayStopped,
    PowerPlayCounted,
    StrengthChanged,
    Waits,
)


def told(kind: type[Any], *events: str, **settings: object) -> list[tuple[Any, ...]]:
    """The changes of one kind in a game of these events: the reading, and what is its own in the change."""
    raw = {"id": "told", "settles": "", "why": "", "ruleset": "international", "expect": []}
    game = replayed(case_of({**raw, "events": list(events), "settings": settings}))
    changes: list[Change] = [change for change in game.folded.all_changes() if isinstance(change, kind)]
    return [(str(game.folded.moment_of(change)), *tuple(change)[4:]) for change in changes]


THREE = (
    "1 18:00 penalty home 4 minor",
    "1 17:00 penalty home 5 minor",
    "1 16:40 penalty home 6 minor",
    "1 16:40 faceoff",
    "1 15:00 stoppage",
)


def test_who_waits() -> None:
    """The third of a side waits, and is told when play resumes: side, whose chain, which penalty."""
    assert told(Waits, *THREE) == [("1 16:40", "home", "6", 4)]


def test_who_is_held() -> None:
    """At 16:00 the first one's time is up and the third starts; at 15:00 the second's is up and the first goes on."""
    assert told(Held, *THREE) == [
        ("1 16:00", "home", "4", "player", "4", (2,)),
        ("1 15:00", "home", "5", "player", "5", (3,)),
    ]


def test_whose_misconduct_is_up_waits_for_a_whistle() -> None:
    """A misconduct that ends in play is told like any time that is up."""
    assert told(Held, "1 18:00 penalty away 9 misconduct", "1 18:00 faceoff", "1 5:00 stoppage") == [
        ("1 8:00", "away", "9", "player", "9", (2,))
    ]


POWER_PLAYS = {
    "one penalty": (["home 4 minor"], [("away", 1)]),
    "a double minor is one": (["home 4 minor+minor"], [("away", 1)]),
    "a misconduct is none": (["home 4 misconduct"], []),
    "two against one": (["home 4 minor+minor", "home 5 minor", "away 8 major"], [("away", 1)]),
    "equal numbers of another kind": (["home 4 minor", "away 8 major"], []),
    "what is offset does not count": (["home 4 minor", "home 5 minor", "away 8 minor"], [("away", 1)]),
    "a lone pair counts none": (["home 4 minor", "away 8 minor"], []),
    "the third that waits counts": (["away 7 minor", "away 8 minor", "away 9 minor"], [("home", 3)]),
}


@pytest.mark.parametrize(("calls", "expected"), POWER_PLAYS.values(), ids=POWER_PLAYS.keys())
def test_power_plays(calls: list[str], expected: list[tuple[str, int]]) -> None:
    """One for each penalty on the clock or waiting, less those of the other side."""
    events = [f"1 17:00 penalty {call}" for call in calls]
    assert told(PowerPlayCounted, *events, "1 17:00 faceoff") == [("1 17:00", *one) for one in expected]


def test_the_net() -> None:
    """Who goes in, who goes out, and the skaters with an extra attacker."""
    events = ("1 20:00 goalie home 30", "1 20:00 faceoff", "1 1:00 goalie home out", "1 0:30 goalie home 30")
    assert told(GoalieChanged, *events) == [
        ("1 20:00", "home", "30"),
        ("1 1:00", "home", None),
        ("1 0:30", "home", "30"),
    ]
    assert told(StrengthChanged, *events) == [
        ("1 20:00", 5, 5, "30", None, False, False),
        ("1 1:00", 6, 5, None, None, False, False),
        ("1 0:30", 5, 5, "30", None, False, False),
    ]


def test_short_handed_with_an_extra_attacker() -> None:
    """Five with an empty net against five are short-handed all the same."""
    events = ("1 17:00 penalty away 9 minor", "1 17:00 goalie away out", "1 17:00 faceoff")
    assert told(StrengthChanged, *events)[-1] == ("1 17:00", 5, 5, None, None, False, True)


def test_whistles_and_resumptions() -> None:
    """A whistle is implied by what only a stoppage allows; nobody wrote when play resumed, so it did at once."""
    events = ("1 20:00 faceoff", "1 18:00 stoppage", "1 16:00 goal home", "1 16:00 faceoff", "1 15:00 timeout away")
    assert told(PlayStopped, *events) == [("1 18:00", False), ("1 16:00", True), ("1 15:00", True)]
    assert told(PlayResumed, *events) == [("1 20:00", False), ("1 18:00", False), ("1 16:00", False)]


def test_resumption_under_a_running_clock_is_assumed() -> None:
    """Where the clock runs on and no faceoff is written, nobody knows when play resumed."""
    events = ("1 20:00 faceoff", "1 18:00 stoppage", "1 16:00 goal home")
    assert told(PlayResumed, *events, **{"game.clock": "running"}) == [("1 20:00", False), ("1 18:00", True)]


def test_first_whistle_of_a_period_is_implied_by_the_horn_nobody_wrote() -> None:
    """A period that nobody ended is taken as played out."""
    assert told(PlayStopped, "1 20:00 faceoff", "2 20:00 faceoff", "2 1:00 stoppage") == [
        ("1 0:00", True),
        ("2 1:00", False),
    ]
