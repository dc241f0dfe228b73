"""What is said of the event, or of the time, that stands behind a change."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from ...events import (
    Event,
    Faceoff,
    GameClosed,
    Goal,
    GoalieChange,
    PenaltyAssessed,
    PenaltyEnded,
    PenaltyShot,
    PeriodEnd,
    ShootoutAttempt,
    Stoppage,
    Timeout,
)
from ...folded import FoldedGame
from ...wording import listed
from .causes import Block, CauseKind
from .naming import Words

__all__ = ["cause_text", "event_of", "event_text"]

_UNWRITTEN: Mapping[CauseKind, str] = {
    "clock": "time runs out",
    "play went on": "play goes on, not written",
    "period ended": "the period is over, not written",
    "supposed": "if play goes on and nothing else happens",
}


def event_of(game: FoldedGame, seq: int | None) -> Event | None:
    """The event with this `seq` as it counts."""
    return next((placed.event for placed in game.placed if placed.event.seq == seq), None)


def cause_text(block: Block, event: Event | None, words: Words) -> str:
    """What stands behind the changes of `block`, of which `event` is the event at work."""
    if block.kind == "event" and event is not None:
        return event_text(event, words)
    return _UNWRITTEN.get(block.kind, "")


def event_text(event: Event, words: Words) -> str:
    """An event in a few words: ``"goal, away 17 from 16"``, ``"faceoff"``, ``"whistle (offside)"``."""
    say = _SAYINGS.get(type(event))
    return event.kind.replace("_", " ") if say is None else say(event, words)


def _goal(event: Goal, words: Words) -> str:
    assists = [words.naming.called(event.team, number) for number in event.assists or ()]
    return f"goal, {words.person(event.team, event.scorer)}" + (f" from {listed(assists)}" if assists else "")


def _penalty_ended(event: PenaltyEnded, words: Words) -> str:
    penalty = words.penalties.get(event.penalty)
    who = event.team if penalty is None else words.offender(penalty)
    return f"door opened, {who}" if event.cause == "released" else f"penalty ended by an official, {who}"


def _goalie(event: GoalieChange, words: Words) -> str:
    if event.goalie is None:
        return f"{event.team} goalkeeper out"
    return f"goalkeeper, {words.person(event.team, event.goalie)}"


def _whistle(event: Stoppage, words: Words) -> str:
    return f"whistle ({event.reason})" if event.reason and words.naming.names else "whistle"


_SAYINGS: Mapping[type[Any], Callable[[Any, Words], str]] = {
    Faceoff: lambda event, words: "faceoff",
    Stoppage: _whistle,
    Timeout: lambda event, words: f"timeout, {event.team}",
    PeriodEnd: lambda event, words: "end of the period",
    GameClosed: lambda event, words: "record closed",
    PenaltyAssessed: lambda event, words: f"penalty, {words.offender(event)}",
    PenaltyShot: lambda event, words: f"penalty shot, {words.person(event.team, event.player)} {event.result}",
    ShootoutAttempt: lambda event, words: f"shootout, {words.person(event.team, event.player)} {event.result}",
    Goal: _goal,
    PenaltyEnded: _penalty_ended,
    GoalieChange: _goalie,
}
