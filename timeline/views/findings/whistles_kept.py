"""Whether a game's faceoffs and stoppages are written, which few tables do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from ...events import Faceoff, PeriodEnd
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


def count_whistles(steps: Sequence[Step]) -> WhistleCount:
    """Count them in the steps of a whole game."""
    written = sum(
        isinstance(change, PlayResumed) and change.rule is RECORDED for step in steps for change in step.changes
    )
    return WhistleCount(written, tuple(one for step in steps for one in _missing(step)))


def _missing(step: Step) -> Iterator[Missing]:
    told = step.before.ice.over or (step.before.ice.ended and step.before.period == step.period)
    for change in step.changes if not told else ():  # play does not go on behind the horn: another check tells it
        if isinstance(change, PlayResumed):
            missing = change.rule is not RECORDED and not _ran_out(step, change)
        elif isinstance(change, PlayStopped):
            missing = change.implied and isinstance(step.event, Faceoff) and bool(step.played)
        else:
            continue
        if missing:
            yield Missing(change, step.event.seq)


def _ran_out(step: Step, resumption: PlayResumed) -> bool:
    """Whether the clock just ran on from a whistle to the horn, with no faceoff between, as a running clock may."""
    ice = step.after.ice
    if not step.before.ice.running:
        return False
    if isinstance(step.event, PeriodEnd):
        return step.after.now - resumption.at <= LAST_SECONDS
    return resumption.period < step.period and ice.period_start - resumption.at <= LAST_SECONDS
