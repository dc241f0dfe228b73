"""Whether a game's faceoffs and stoppages are written, which few tables do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from ...events import Faceoff
from ...fold.changes import Change, PlayResumed, PlayStopped
from ...fold.rulebook import RECORDED
from ...script.placed import Placed

__all__ = ["Missing", "WhistleCount", "count_whistles"]

ENOUGH = 5
"""Faceoffs that a record must have before it is taken for one that keeps them."""
MOST_MISSING = 5
"""A record keeps whistles if for one that is missing there are at least so many."""


@frozen
class Missing:
    """A faceoff or stoppage that nobody wrote.

    Attributes:
        change: the resumption or whistle that was taken to be there.
        seq: the event that showed it.
    """

    change: PlayResumed | PlayStopped
    seq: int

    @property
    def is_faceoff(self) -> bool:
        """Whether it is a faceoff that is missing, and not a stoppage."""
        return isinstance(self.change, PlayResumed)


@frozen
class WhistleCount:
    """Faceoffs that are written, and the faceoffs and stoppages that are not."""

    written: int
    missing: tuple[Missing, ...]

    @property
    def kept(self) -> bool:
        """Whether this record keeps whistles, so that a missing one is an oversight."""
        return self.written >= ENOUGH and self.written >= MOST_MISSING * len(self.missing)


def count_whistles(changes: Sequence[Sequence[Change]], placed: Sequence[Placed]) -> WhistleCount:
    """Count them in the changes of a whole game."""
    written = sum(isinstance(change, PlayResumed) and change.rule is RECORDED for some in changes for change in some)
    missing = tuple(one for event, some in zip(placed, changes, strict=True) for one in _missing(event, some))
    return WhistleCount(written, missing)


def _missing(placed: Placed, changes: Sequence[Change]) -> Iterator[Missing]:
    for change in changes:
        if (isinstance(change, PlayResumed) and change.rule is not RECORDED) or (
            isinstance(change, PlayStopped) and change.implied and isinstance(placed.event, Faceoff) and placed.played
        ):
            yield Missing(change, placed.event.seq)
