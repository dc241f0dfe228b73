"""Whether a game's faceoffs and stoppages are written, which few tables do."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from ...events import PeriodEnd
from ...fold.changes import PlayResumed, PlayStopped
from ...fold.rulebook import RECORDED
from .step import Step

__all__ = ["Missing", "WhistleCount", "count_whistles"]

ENOUGH = 5
"""Faceoffs that a record must have before it is taken for one that keeps them."""
MOST_MISSING = 5
"""A record keeps whistles if for one that is missing there are at least so many."""
LAST_SECONDS = 600
"""Tenths before the horn within which a running clock may run out without another faceoff."""


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


def count_whistles(resumptions: Sequence[tuple[Step, PlayResumed]], faceoffs: Sequence[Step]) -> WhistleCount:
    """Count them in all resumptions of play and all faceoffs of a game."""
    written = sum(change.rule is RECORDED for _, change in resumptions)
    no_faceoff = [Missing(change, step.event.seq) for step, change in resumptions if _lacks_faceoff(step, change)]
    no_stoppage = [
        Missing(change, step.event.seq)
        for step in faceoffs
        for change in step.changes
        if isinstance(change, PlayStopped) and change.implied and step.played and not _is_over(step)
    ]
    return WhistleCount(written, tuple(sorted(no_faceoff + no_stoppage, key=lambda one: (one.change.at, one.seq))))


def _lacks_faceoff(step: Step, resumption: PlayResumed) -> bool:
    return resumption.rule is not RECORDED and not _is_over(step) and not _ran_out(step, resumption)


def _is_over(step: Step) -> bool:
    """Whether the period or the game was over; that play goes on is then told by another check."""
    before = step.before
    return before.ice.over or (before.ice.ended and before.period == step.period)


def _ran_out(step: Step, resumption: PlayResumed) -> bool:
    """Whether the clock just ran on from a whistle to the horn, with no faceoff between, as a running clock may."""
    ice = step.after.ice
    if not step.before.ice.running:
        return False
    if isinstance(step.event, PeriodEnd):
        return step.after.now - resumption.at <= LAST_SECONDS
    return resumption.period < step.period and ice.period_start - resumption.at <= LAST_SECONDS
