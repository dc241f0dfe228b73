"""What a correction or a late entry makes different in the rest of the game."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..timeline.events import Amend, ClockSet, Event, Void

if TYPE_CHECKING:
    from ..timeline.game import Game
    from .two_games import TwoGames

__all__ = ["corrected", "is_correction"]

_CORRECTING = (Void, Amend, ClockSet)


def is_correction(event: Event, game: Game) -> bool:
    """Whether `event` corrects the record, or was written when `game` had gone on."""
    if isinstance(event, _CORRECTING):
        return True
    folded = game.folded
    at = next((index for index, one in enumerate(folded.placed) if one.event.seq == event.seq), None)
    return at is not None and folded.states[at].now < folded.last.now


def corrected(event: Event, before: Game, game: Game) -> TwoGames | None:
    """The game without and with `event`, and what they differ in; ``None`` for what only adds to the end."""
    if not is_correction(event, game):
        return None
    from ..timeline.views.difference import differences
    from .two_games import TwoGames

    seqs = {one.seq: one.seq for one in before.events}
    return TwoGames(before, game, differences(before, game, seqs), ("before", "now"), seqs)
