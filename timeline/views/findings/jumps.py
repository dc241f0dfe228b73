"""A stoppage and the faceoff after it at another reading, under a clock that stands in stoppages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

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
    """The last stoppage written before a faceoff, and the faceoff, at another reading; never in a later period."""

    stoppage: Step
    faceoff: Step

    @property
    def is_pair(self) -> bool:
        """Whether they surely belong together: the stoppage was written as one, and they are not far from each other.

        Else there may be a faceoff and a stoppage between them that nobody wrote.
        """
        played = (self.stoppage.played or 0) - (self.faceoff.played or 0)
        near = self.stoppage.period == self.faceoff.period and abs(played) <= FAR
        return near and isinstance(self.stoppage.event, Stoppage)


def jumps(written: Iterable[Event], step_of: Mapping[int, Step]) -> Iterator[Jump]:
    """Every faceoff at another reading than all stoppages written since the faceoff before it, in the order written.

    A faceoff written late stands between a stoppage and its own faceoff, and is none of them.
    """
    stopped: list[Step] = []
    jump: Jump | None = None
    for step in _whistles(written, step_of):
        is_faceoff = isinstance(step.event, Faceoff)
        if jump is not None:
            if not (is_faceoff and _fits(stopped, step)):
                yield jump
            stopped, jump = [], None
            if is_faceoff:
                continue
        if not is_faceoff:
            stopped.append(step)
        elif stopped and not _fits(stopped, step) and _jumped(stopped[-1], step):
            jump = Jump(stopped[-1], step)
        else:
            stopped = []
    if jump is not None:
        yield jump


def _whistles(written: Iterable[Event], step_of: Mapping[int, Step]) -> Iterator[Step]:
    for event in written:
        if event.kind in _WHISTLES and event.after is None:
            step = step_of.get(event.seq)
            if step is not None and step.played is not None:
                yield step


def _fits(stopped: Sequence[Step], faceoff: Step) -> bool:
    return any((each.period, each.played) == (faceoff.period, faceoff.played) for each in stopped)


def _jumped(stoppage: Step, faceoff: Step) -> bool:
    if stoppage.period < faceoff.period or stoppage.event.kind == "period_end":
        return False
    return not stoppage.after.ice.running
