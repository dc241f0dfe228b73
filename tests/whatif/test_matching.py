"""Which events of two records are the same one."""

from __future__ import annotations

import sys
from types import FrameType
from typing import Any

from rinkfold import rulesets
from rinkfold.cli.matching import match_events
from rinkfold.timeline import Event, Game, Goal, Log, Shot, replay
from rinkfold.timeline.events import GameOpened, TeamSheet

HEADER = GameOpened(seq=1, format=1, game="g", ruleset="adult", home=TeamSheet(name="Elm"), away=TeamSheet(name="Oak"))


def game(*events: Event) -> Game:
    """The game of these events, behind a first line."""
    log = Log(name="g", header=HEADER, events=(HEADER, *events), chained=False, head="")
    return replay(log, rulesets.load("adult"))


def shots(count: int, start: int = 2) -> list[Event]:
    """That many shots, half of them at one reading."""
    clocks = [f"{10 - number % 2}:00" for number in range(count)]
    return [Shot(seq=start + n, period=1, clock=clock, team="home") for n, clock in enumerate(clocks)]


def goal(seq: int, clock: str) -> Goal:
    return Goal(seq=seq, period=1, clock=clock, team="away", scorer="9")


def test_of_several_alike_the_nearest_goes_with_it() -> None:
    """Each event is used once; what is too far away is in one record only."""
    one = game(goal(2, "9:00"), goal(3, "5:00"))
    other = game(goal(2, "8:50"), goal(3, "8:40"), goal(4, "1:00"))
    matching = match_events(one, other)
    assert matching.seqs == {2: 2}
    assert [[placed.event.seq for placed in only] for only in matching.only] == [[3], [3, 4]]


def test_of_two_that_are_one_and_the_same_each_is_used_once() -> None:
    """One was voided in the second record: the first of the first record goes with it, and the second is left."""
    both = [goal(2, "9:00"), goal(3, "9:00")]
    matching = match_events(game(*both), game(goal(3, "9:00")))
    assert matching.seqs == {3: 2}
    assert [placed.event.seq for placed in matching.only[0]] == [3]
    assert matching.only[1] == ()


def test_the_pairs_are_in_game_order() -> None:
    """Whether they were found by their reading or near by."""
    one = game(goal(2, "9:00"), *shots(2, start=3), goal(5, "3:00"))
    other = game(goal(2, "3:00"), *shots(2, start=3), goal(5, "8:50"))
    order = [pair.one.event.seq for pair in match_events(one, other).same]
    assert order == [placed.event.seq for placed in one.folded.placed]
    assert len(order) == 4


def test_twice_the_events_cost_twice_the_work() -> None:
    """Each step of the match looks an event up, and none goes through all of them."""

    def steps(count: int) -> int:
        one, other = game(*shots(count)), game(*shots(count))
        seen = 0

        def count_call(frame: FrameType, event: str, argument: Any) -> None:
            nonlocal seen
            seen += event in ("call", "c_call")

        sys.setprofile(count_call)
        try:
            assert len(match_events(one, other).same) == count
        finally:
            sys.setprofile(None)
        return seen

    assert steps(400) < 2.5 * steps(200)
