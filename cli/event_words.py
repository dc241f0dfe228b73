"""An event of a record in a few words."""

from __future__ import annotations

from attrs import evolve

from ..timeline.events import Event, GameClosed, GameOpened, PenaltyAssessed, RosterChange
from ..timeline.game import Game
from .entries import print_entry
from .standing import context_of

__all__ = ["event_said", "without_names"]


def event_said(game: Game, event: Event, *, names: bool = False) -> str:
    """`event` as a short entry; without names of people unless `names` are wanted."""
    if isinstance(event, GameOpened):
        return "the line that opens the game"
    plain = evolve(event, recorded_at=None, by=None, note=None, prev=None)
    if not names:
        plain = without_names(plain)
    return print_entry(plain, context_of(game)).removeprefix("late ")


def without_names(event: Event) -> Event:
    """`event` without names of people that are no numbers."""
    if isinstance(event, PenaltyAssessed) and event.staff is not None:
        return evolve(event, staff="staff")
    if isinstance(event, RosterChange):
        return evolve(event, name=None)
    return evolve(event, signed=None) if isinstance(event, GameClosed) else event
