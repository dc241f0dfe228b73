"""The stoppage whose reading a `clock_set` corrects, and what belongs to it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence

from ..events import Event
from .instants import period_of, played_of
from .placed import Placed
from .places import STOPPING

__all__ = ["has_stoppage", "stoppage_before", "written_since"]


def stoppage_before(placed: Sequence[Placed], keys: Sequence[int], reached: int, written: int, to: int) -> int | None:
    """The key of the last stoppage up to `reached` in the period of `to`: it did not happen at `written` but at `to`.

    There is none where both readings are later than that stoppage: play had gone on since, and nobody wrote the one
    that was corrected.
    """
    index = bisect_right(keys, reached) - 1
    while index >= 0 and period_of(keys[index]) == period_of(to):
        if placed[index].event.kind in STOPPING and played_of(keys[index]) is not None:
            return keys[index] if keys[index] >= min(written, to) else None
        index -= 1
    return None


def has_stoppage(there: Sequence[Placed]) -> bool:
    """Whether there is a stoppage among those at one reading."""
    return any(one.event.kind in STOPPING for one in there)


def written_since(events: Sequence[Event], behind: Mapping[int, int]) -> list[Event]:
    """Of the `events` at one reading, in the order written, the last stoppage and what was written there since.

    The stoppage begins behind the faceoff before it. What was put after another event goes where that one goes.
    """
    last = max(index for index, event in enumerate(events) if event.kind in STOPPING)
    start = next((i + 1 for i in range(last, -1, -1) if events[i].kind == "faceoff"), 0)
    start = next(i for i in range(start, last + 1) if events[i].kind in STOPPING)
    here = {event.seq for event in events}
    roots = {event.seq for event in events[start:] if behind.get(event.seq) not in here}
    return [event for event in events if _root(event.seq, behind, here) in roots]


def _root(seq: int, behind: Mapping[int, int], here: set[int]) -> int:
    while (target := behind.get(seq)) in here and target is not None:
        seq = target
    return seq
