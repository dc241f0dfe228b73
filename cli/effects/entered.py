"""An entry with the game before and after it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import TypeVar

from attrs import frozen

from ...timeline.events import Event
from ...timeline.fold.changes import Change
from ...timeline.game import Game, Instant
from ...timeline.rules import Ruleset
from ..people import People, people_of

__all__ = ["Entered"]

Kind = TypeVar("Kind", bound=Change)


@frozen(slots=False, eq=False)
class Entered:
    """An event that was entered, as it counts, and the game that it made.

    Attributes:
        event: the event with amendments applied.
        before, game: the game without it and with it.
    """

    event: Event
    before: Game
    game: Game
    names: bool = False

    @property
    def rules(self) -> Ruleset:
        """The rules of the game."""
        return self.game.rules

    @cached_property
    def people(self) -> People:
        """The rosters after it."""
        return people_of(self.game.header, (one.event for one in self.game.folded.placed), names=self.names)

    @cached_property
    def index(self) -> int | None:
        """Its place among the events that count in the game; None for one that has none."""
        placed = self.game.folded.placed
        return next((index for index, one in enumerate(placed) if one.event.seq == self.event.seq), None)

    @cached_property
    def instant(self) -> Instant:
        """The game after it; at its own reading where it was written late."""
        folded, index = self.game.folded, self.index
        if index is None:
            return self.game.now
        state = folded.states[index]
        if state.now >= folded.last.now:
            return self.game.now
        return self.game.at(folded.moment(state.period, state.now))

    def changes(self, kind: type[Kind]) -> Iterator[Kind]:
        """The changes of this kind that it made, or the time up to it did; those of the next settlement included."""
        folded, index = self.game.folded, self.index
        if index is None:
            return
        for change in folded.changes[index]:
            if isinstance(change, kind):
                yield change
        if index == len(folded.placed) - 1:
            yield from (change for change in folded.pending_changes if isinstance(change, kind))
