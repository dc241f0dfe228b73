"""What the page of a box may write: that its door opened, and that this was wrong. The server decides, not the page.

A door changes nobody's time, but its reading moves the game on for everybody. So it stands near what the record knows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...timeline.clock import parse_reading, played_in_period
from ...timeline.events import Event, PenaltyEnded, Void
from ...timeline.game import Game
from ...timeline.moment import moment_at
from ...timeline.views.findings import Finding
from ...timeline.views.forecast import another_period_follows
from ..standing import as_of_latest
from ..times import ordinal
from .answers import Refusal
from .keys import ROLES, Role

__all__ = ["check_may_override", "check_may_write", "signature"]

AHEAD = 600
"""Tenths by which a door's reading may be ahead: somebody sees it late, or is slow to leave."""

_SEEN_AT_THE_DOOR = frozenset({"door_early", "door_late"})
"""What whoever opens it knows best: that it was early or late. Nobody's time changes by that."""

_TELL = "Tell the person at the clock."


def signature(role: Role) -> str | None:
    """What stands in `by` of everything that `role` writes; None where its writer may sign."""
    return None if role.side is None else f"{role.side} door"


_SIGNED = frozenset(filter(None, map(signature, ROLES)))


def check_may_write(role: Role, event: Event, game: Game) -> None:
    """Check that `role` may write `event`: a door writes when it opened, and takes back what it wrote.

    Raises:
        Refusal: it may not.
    """
    if role.name == "write":
        return
    if role.name != "door" or not _is_its_entry(role, event, game):
        message = f"From here only the opening of the {role.side or 'penalty box'} door can be written."
        raise Refusal(403, "not_allowed", message, _TELL)
    if game.folded.last.ice.closed:
        raise Refusal(403, "not_allowed", "The record is closed.", _TELL)
    if (event.after, event.by, event.recorded_at, event.prev) != (None, None, None, None):
        message = "An entry from a door is signed, timed and placed by itself."
        raise Refusal(403, "not_allowed", message, "Leave out by, recorded, after and prev.")
    if isinstance(event, PenaltyEnded):
        _check_reading(event, game)


def check_may_override(role: Role, warnings: Iterable[Finding]) -> None:
    """Check that `role` may write an entry of which `warnings` are told, once it has seen them.

    Raises:
        Refusal: one of them is for the person at the clock to judge.
    """
    if role.name == "write":
        return
    for one in warnings:
        if one.code not in _SEEN_AT_THE_DOOR:
            raise Refusal(403, "not_allowed", one.message, f"{_TELL} It can be written there.")


def _is_its_entry(role: Role, event: Event, game: Game) -> bool:
    if isinstance(event, Void):
        if not 1 <= event.target <= len(game.events):
            return True  # there is nothing to take back, which the log's own check says
        target = game.events[event.target - 1]
        return target.by == signature(role) and isinstance(target, PenaltyEnded)
    return isinstance(event, PenaltyEnded) and event.cause == "released" and event.team == role.side


def _check_reading(event: PenaltyEnded, game: Game) -> None:
    """Check that a door is of the period that is on, and not far ahead in it.

    Raises:
        Refusal: it is not.
    """
    period, clock = event.period, event.clock
    if period is None or clock is None or period not in _periods_on(game):
        on = " or ".join(f"the {ordinal(one, game.rules)}" for one in _periods_on(game))
        raise Refusal(403, "not_allowed", f"From a door only what happens in {on} can be written.", _TELL)
    played = played_in_period(parse_reading(clock), game.rules.period_length(period), game.rules.game.reading)
    known = max(_known(event, period, game), default=0)
    if played > known + AHEAD:
        reading = moment_at(game.rules, period, known).clock
        message = f"By what is written this door opens by {reading}; {clock} is far beyond that."
        raise Refusal(403, "not_allowed", message, f"Look at the board again. If it is right: {_TELL.lower()}")


def _periods_on(game: Game) -> list[int]:
    """The period that is on; where its horn was written the next one too."""
    last = game.folded.last
    goes_on = last.ice.ended and not game.over and another_period_follows(last, game.rules)
    return [last.period, *([last.period + 1] if goes_on else [])]


def _known(event: PenaltyEnded, period: int, game: Game) -> Iterator[int]:
    """Tenths of `period` that are over by what others than doors wrote, and when this door should open."""
    for placed in game.folded.placed:
        if placed.period == period and placed.played is not None and placed.event.by not in _SIGNED:
            yield placed.played
    for one in as_of_latest(game).box:
        for moment in (one.out.at, one.out.time_up):
            if (one.team, one.penalty) == (event.team, event.penalty) and moment and moment.period == period:
                length = game.rules.period_length(period)
                yield played_in_period(parse_reading(moment.clock), length, game.rules.game.reading)
