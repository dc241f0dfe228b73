"""A stoppage and the faceoff after it at another reading, under a clock that stands in stoppages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from attrs import frozen

from ...events import Event, Faceoff, Stoppage
from ...script.places import STOPPING
from .step import Step

__all__ = ["Jump", "jumps"]


FAR = 600
"""Tenths within which nobody leaves out two whistles."""

_WHISTLES = STOPPING | {"faceoff"}


@frozen
class Jump:
    """The last stoppage written before a faceoff, and the faceoff, at another reading of the same period."""

    stoppage: Step
    faceoff: Step

    @property
    def is_pair(self) -> bool:
        """Whether they surely belong together: the stoppage was written as one, and they are not far from each other.

        Else there may be a faceoff and a stoppage between them that nobody wrote.
        """
        played = (self.stoppage.played or 0) - (self.faceoff.played or 0)
        return isinstance(self.stoppage.event, Stoppage) and abs(played) <= FAR


def jumps(written: Iterable[Event], step_of: Mapping[int, Step]) -> Iterator[Jump]:
    """Every faceoff whose reading is not that of the stoppage written before it, in the order written."""
    last: Step | None = None
    for event in written:
        if event.kind not in _WHISTLES or event.after is not None:
            continue
        step = step_of.get(event.seq)
        if step is None or step.played is None:
            continue
        if isinstance(step.event, Faceoff):
            if last is not None and _jumped(last, step):
                yield Jump(last, step)
            last = None
        else:
            last = step


def _jumped(stoppage: Step, faceoff: Step) -> bool:
    if stoppage.period != faceoff.period or stoppage.event.kind == "period_end":
        return False
    return stoppage.played != faceoff.played and not stoppage.after.ice.running
