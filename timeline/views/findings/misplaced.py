"""Events that do not stand where they were written: behind later ones, or ahead of earlier ones."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from itertools import compress, pairwise

from attrs import frozen

from ...events import Event
from .step import Step

__all__ = ["Misplaced", "misplaced"]

Place = tuple[int, int]
"""A period, and the tenths played in it."""


@frozen
class Misplaced:
    """An event out of the order in which the others were written.

    As few as possible are taken to be it: so one wrong reading is one of these, and not all that is written after it.

    Attributes:
        behind: it happened before `other`, which is written before it; else after `other`, which is written after it.
        other: of the events in order written before it the one that is furthest on; else the next written after it.
        passed: the first event in order that was written before it, happened later, and is recorded with its time.
    """

    step: Step
    behind: bool
    other: Step
    passed: Step | None

    @property
    def seconds(self) -> int:
        """How long after `passed` it was recorded; 0 where that is not known."""
        then, now = _recorded(self.passed), _recorded(self.step)
        return 0 if then is None or now is None else int((now - then).total_seconds())


def misplaced(written: Iterable[Event], step_of: Mapping[int, Step], *, clock_was_set: bool) -> Iterator[Misplaced]:
    """The events out of order, in the order written.

    One that a correction moved to another reading counts as written where it stands. `clock_was_set` says whether the
    clock was corrected, which moves what is written as it was.
    """
    steps = [*_with_a_place(written, step_of, clock_was_set)]
    kept = in_order([_place(step) for step in steps])
    ordered = [*compress(steps, kept)]
    before = 0
    for step, is_kept in zip(steps, kept, strict=True):
        if is_kept:
            before += 1
        elif before and _place(step) < _place(ordered[before - 1]):
            later = ordered[bisect_right(ordered, _place(step), key=_place) : before]
            yield Misplaced(step, True, later[-1], next((one for one in later if one.event.recorded_at), None))
        else:
            yield Misplaced(step, False, ordered[before], None)


def _with_a_place(written: Iterable[Event], step_of: Mapping[int, Step], clock_was_set: bool) -> Iterator[Step]:
    for event in written:
        step = step_of.get(event.seq)
        if step is None or step.played is None:
            continue
        if not ((clock_was_set or step.event is not event) and _was_moved(event, step)):
            yield step


def _place(step: Step) -> Place:
    return (step.period, step.played or 0)


def in_order(places: Sequence[Place]) -> list[bool]:
    """Which of `places` to keep so that what is kept never runs backwards and is as much as it can be.

    Where that can be had in several ways, what was written first is kept.

    >>> in_order([(1, 10), (1, 30), (1, 20), (1, 40)])
    [True, True, False, True]
    >>> in_order([(1, 10), (1, 90), (1, 20), (1, 30), (1, 40)])
    [True, False, True, True, True]
    """
    if all(one <= following for one, following in pairwise(places)):
        return [True] * len(places)
    up_to = _longest(places)
    onwards = _longest([(-period, -played) for period, played in reversed(places)])[::-1]
    most = max(up_to)
    kept, length, last = [], 0, (0, 0)
    for place, above, below in zip(places, up_to, onwards, strict=True):
        keeps = above == length + 1 and above + below - 1 == most and place >= last
        kept.append(keeps)
        if keeps:
            length, last = above, place
    return kept


def _longest(places: Sequence[Place]) -> list[int]:
    """How many at most can be kept up to each place, and that one."""
    lowest: list[Place] = []  # the lowest last place of all that keep one, two, three …
    found = []
    for place in places:
        length = bisect_right(lowest, place)
        lowest[length : length + 1] = [place]
        found.append(length + 1)
    return found


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
