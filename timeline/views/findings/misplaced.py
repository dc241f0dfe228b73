"""Events that do not stand where they were written: behind later ones, or ahead of earlier ones."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import compress, pairwise

from attrs import frozen

from ...events import Event
from .step import Step

__all__ = ["Misplaced", "in_order", "misplaced"]


@frozen
class Misplaced:
    """An event out of the order in which the others were written.

    As few as possible are taken to be it: so one wrong reading is one of these, and not all that is written after it.

    Attributes:
        behind: it happened before `other`, which is written before it; else after `other`, which is written after it.
        other: of the events in order written before it the one that is furthest on; else the next written after it.
    """

    step: Step
    behind: bool
    other: Step


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
            yield Misplaced(step, True, ordered[before - 1])
        else:
            yield Misplaced(step, False, ordered[before])


def _with_a_place(written: Iterable[Event], step_of: Mapping[int, Step], clock_was_set: bool) -> Iterator[Step]:
    for event in written:
        step = step_of.get(event.seq)
        if step is None or step.played is None:
            continue
        if not ((clock_was_set or step.event is not event) and _was_moved(event, step)):
            yield step


def _place(step: Step) -> tuple[int, int]:
    return (step.period, step.played or 0)


def in_order(places: Sequence[tuple[int, ...]]) -> list[bool]:
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
    onwards = _longest([tuple(-number for number in place) for place in reversed(places)])[::-1]
    most = max(up_to)
    kept, length, last = [], 0, places[0]
    for place, above, below in zip(places, up_to, onwards, strict=True):
        keeps = above == length + 1 and above + below - 1 == most and (not length or place >= last)
        kept.append(keeps)
        if keeps:
            length, last = above, place
    return kept


def _longest(places: Sequence[tuple[int, ...]]) -> list[int]:
    """How many at most can be kept up to each place, and that one."""
    lowest: list[tuple[int, ...]] = []  # the lowest last place of all that keep one, two, three …
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
