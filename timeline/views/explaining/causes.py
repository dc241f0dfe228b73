"""What stands behind each change: an event, time that ran out, or play that went on although nobody wrote it.

The fold tells the changes of one event together, and among them those of the time before it. Here they are taken apart
again, by what they are and when they happened.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from attrs import frozen

from ...fold.changes import (
    Change,
    Ejected,
    GameEnded,
    GoalieChanged,
    GoalJudged,
    PartEnded,
    PartSetAside,
    PartStarted,
    PartSuspended,
    PenaltyCalled,
    PlayResumed,
    PlayStopped,
    PowerPlayCounted,
    ReturnWithdrawn,
    StrengthChanged,
    Waits,
)
from ...fold.rulebook import TIME_RUNS_OUT, WHISTLE_IMPLIED
from ...fold.state import GameState
from ...folded import FoldedGame

__all__ = ["Block", "CauseKind", "blocks_of", "supposed_blocks"]

CauseKind = Literal["event", "clock", "play went on", "period ended", "supposed"]

_NEVER_BY_THE_CLOCK = (
    PlayStopped,
    PlayResumed,
    PowerPlayCounted,
    PartSetAside,
    PartSuspended,
    Waits,
    PenaltyCalled,
    GoalieChanged,
    GoalJudged,
    Ejected,
    ReturnWithdrawn,
    GameEnded,
)


@frozen
class Block:
    """Changes of one cause at one tenth.

    Attributes:
        kind: an ``"event"``; the ``"clock"``, when time ran out; ``"play went on"`` and ``"period ended"`` where nobody
            wrote it; ``"supposed"`` for what comes if nothing else happens.
        seq: the event behind it; the one that shows it, where nobody wrote it; ``None`` where none does.
        at: played tenths; `period`.
        after: the state when all changes of that event were made.
    """

    kind: CauseKind
    seq: int | None
    period: int
    at: int
    changes: tuple[Change, ...]
    after: GameState


def blocks_of(game: FoldedGame) -> Iterator[Block]:
    """All changes of the game by their causes, in game order."""
    called: set[int] = set()
    for placed, state, changes in zip(game.placed, game.states, game.changes, strict=True):
        for kind, some in _taken_apart(changes, called):
            yield Block(kind, placed.event.seq, some[0].period, some[0].at, tuple(some), state)


def supposed_blocks(changes: Sequence[Change], after: GameState) -> Iterator[Block]:
    """What comes if nothing else happens, by its causes."""
    for kind, some in _taken_apart(changes, set()):
        cause: CauseKind = kind if kind == "clock" else "supposed"
        yield Block(cause, None, some[0].period, some[0].at, tuple(some), after)


def _taken_apart(changes: Sequence[Change], called: set[int]) -> Iterator[tuple[CauseKind, list[Change]]]:
    """The changes of one event in stretches of one cause and one tenth; `called` are the calls of this stoppage."""
    stretch: list[Change] = []
    kind: CauseKind = "event"
    for index, change in enumerate(changes):
        together = bool(stretch) and (stretch[0].at, stretch[0].period) == (change.at, change.period)
        following = _kind_of(changes, index, kind if together else None, called)
        if stretch and not (together and following == kind):
            yield kind, stretch
            stretch = []
        kind = following
        stretch.append(change)
        if isinstance(change, PenaltyCalled):
            called.add(change.penalty)
        elif isinstance(change, PlayResumed):
            called.clear()
    if stretch:
        yield kind, stretch


def _kind_of(changes: Sequence[Change], index: int, before: CauseKind | None, called: set[int]) -> CauseKind:
    """The cause of one change; `before` is that of the change before it, if that was at the same tenth."""
    change = changes[index]
    if isinstance(change, PartEnded) and change.rule is TIME_RUNS_OUT:
        return "clock"
    if isinstance(change, PlayStopped) and change.implied and _goes_on_elsewhere(changes, index):
        return "period ended"
    if before == "clock" and not _is_of_a_stoppage(change, called):
        return "clock"
    if _play_goes_on_unwritten(changes, index):
        return "play went on"
    if before in ("play went on", "period ended") and (before == "period ended" or isinstance(change, StrengthChanged)):
        return before
    return "event"


def _is_of_a_stoppage(change: Change, called: set[int]) -> bool:
    """Whether the clock alone never brings this about."""
    if isinstance(change, PartEnded):
        return True  # one that did not run out
    return isinstance(change, _NEVER_BY_THE_CLOCK) or (isinstance(change, PartStarted) and change.penalty in called)


def _goes_on_elsewhere(changes: Sequence[Change], index: int) -> bool:
    """Whether this whistle is the end of a period that nobody wrote: later changes of the event are of the next."""
    return any(change.period > changes[index].period for change in changes[index + 1 :])


def _play_goes_on_unwritten(changes: Sequence[Change], index: int) -> bool:
    """Whether play went on at this tenth although nobody wrote it, and this change was a part of it."""
    first = changes[index]
    for change in changes[index:]:
        if change.at != first.at or change.period != first.period or isinstance(change, PlayStopped):
            return False
        if isinstance(change, PlayResumed):
            return change.rule is WHISTLE_IMPLIED
    return False
