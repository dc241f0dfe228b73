"""One event that counts, with the game before and after it."""

from __future__ import annotations

from functools import cached_property

from attrs import frozen

from ...clock import parse_reading, played_in_period
from ...events import Event
from ...fold.changes import Change
from ...fold.state import GameState
from ...fold.step import advance, begin_next_period
from ...moment import Moment, moment_at
from ...rules import Ruleset

__all__ = ["Step", "moment_of"]


@frozen(slots=False, eq=False)
class Step:
    """One event that counts.

    Attributes:
        index: its place in game order.
        period, played: where it stands; `played` tenths of the period, ``None`` for one without a reading.
        before, after: the game after the event before it, and after it.
        changes: what it changed, and the time that passed before it.
    """

    index: int
    event: Event
    period: int
    played: int | None
    before: GameState
    after: GameState
    changes: tuple[Change, ...]
    rules: Ruleset

    @cached_property
    def at(self) -> Moment | None:
        """When it happened, as it was written; as it counts where a correction of the clock moved it."""
        return moment_of(self.event, self.period, self.played, self.rules)

    @cached_property
    def arrived(self) -> GameState:
        """The game at the tenth of this event and before it; what runs out there has run out."""
        state = self.before
        if self.period > state.period:
            state = begin_next_period(state, self.period, self.rules, played_out=False)
        if self.played is None:
            return state
        return advance(state, state.ice.period_start + self.played, self.rules)[0]


def moment_of(event: Event, period: int, played: int | None, rules: Ruleset) -> Moment | None:
    """The moment of an event that stands at `played` tenths of `period`."""
    if event.clock is None or played is None:
        return None
    written = played_in_period(parse_reading(event.clock), rules.period_length(period), rules.game.reading)
    return Moment(period, event.clock) if written == played else moment_at(rules, period, played)
