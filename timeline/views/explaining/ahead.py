"""What would follow if nothing else happened, told by the fold itself, run on without events."""

from __future__ import annotations

from collections.abc import Iterator

from ...fold.changes import Change
from ...fold.state import GameState
from ...fold.step import advance, play_resumed, sound_horn
from ...folded import FoldedGame
from .causes import Block, supposed_blocks

__all__ = ["supposed"]


def supposed(game: FoldedGame, period: int, played: int) -> Iterator[Block]:
    """What comes between the end of the record and `played` tenths of `period`, if nothing else happens.

    In a stoppage play is supposed to resume, as it is for the state that is asked for there.
    """
    state = game.last
    if state.ice.over or (period, played) < (state.period, state.played):
        return
    while state.period < period:
        state, blocks = _to_the_next_period(game, state)
        yield from blocks
    tenth = state.ice.period_start + played
    if state.ice.ended and not state.in_play:
        tenth = min(tenth, state.now)
    changes: tuple[Change, ...] = ()
    if tenth > state.now:
        state, changes = advance(state, tenth, game.rules)
    elif not state.in_play:
        state, changes = play_resumed(state, game.rules)
    yield from supposed_blocks(changes, state)


def _to_the_next_period(game: FoldedGame, state: GameState) -> tuple[GameState, list[Block]]:
    horn = state.now if state.ice.ended else state.ice.period_start + game.rules.period_length(state.period)
    played, until = advance(state, horn, game.rules)
    following, after = sound_horn(played, horn, game.rules)
    return following, [*supposed_blocks(until, played), *supposed_blocks(after, following)]
