"""Events that were written behind later ones."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime

from attrs import frozen

from ...events import Event
from .step import Step

__all__ = ["Late", "late_events"]


@frozen
class Late:
    """An event that was written behind later ones.

    Attributes:
        first: the first written of those that are later than it and recorded with their time; ``None`` without one.
        furthest: the latest of those written before it.
    """

    step: Step
    first: Step | None
    furthest: Step

    @property
    def seconds(self) -> int:
        """How long after `first` it was recorded; 0 where that is not known."""
        then, now = _recorded(self.first), _recorded(self.step)
        return 0 if then is None or now is None else int((now - then).total_seconds())


def late_events(written: Iterable[Event], step_of: Mapping[int, Step], *, clock_was_set: bool) -> Iterator[Late]:
    """The late ones among the events as they were written, in that order.

    One that a correction moved to another reading counts as written where it stands. `clock_was_set` says whether the
    clock was corrected, which moves what is written as it was.
    """
    passed: list[Step] = []  # each further on than all before it
    furthest = (0, -1)
    for event in written:
        step = step_of.get(event.seq)
        if step is None or step.played is None:
            continue
        if (clock_was_set or step.event is not event) and _was_moved(event, step):
            continue
        place = _place(step)
        if place > furthest:
            furthest = place
            passed.append(step)
        elif place < furthest:
            later = passed[bisect_right(passed, place, key=_place) :]
            yield Late(step, next((one for one in later if one.event.recorded_at), None), passed[-1])


def _place(step: Step) -> tuple[int, int]:
    return (step.period, step.played or 0)


def _was_moved(written: Event, step: Step) -> bool:
    """Whether a correction put the event at another reading than it was written at."""
    moved = step.at is not None and step.at.clock != written.clock
    return moved or written.period != step.event.period


def _recorded(step: Step | None) -> datetime | None:
    stamp = step.event.recorded_at if step is not None else None
    try:
        return None if stamp is None else datetime.fromisoformat(stamp)
    except ValueError:
        return None
