"""An event of a record in a few words."""

from __future__ import annotations

from ..timeline.events import Event, GameOpened
from ..timeline.game import Game
from .names import said
from .standing import context_of

__all__ = ["event_said"]


def event_said(game: Game, event: Event, *, names: bool = False) -> str:
    """`event` as a short entry; without names of people and free text unless `names` are wanted."""
    if isinstance(event, GameOpened):
        return "the line that opens the game"
    return said(event, context_of(game), names=names)
