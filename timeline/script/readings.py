"""What stands at which reading, and in which order there.

**The sort key.** The events stand in one flat list, sorted by their instants; these are packed into integers
(`instants`) and stand in a list beside it, so that a place is found by bisecting plain numbers. The key says nothing
about the order at one reading: that depends on kinds and on what was written when, and a key for it would change with
every faceoff that is put in. A reading has a handful of events, so they are told their places one by one (`places`),
in the order in which they came there.

The lists are flat: an event on time is appended, to make room for a late one in lists of 5,000 takes about two
microseconds, and whoever reads the script reads a plain list. A sorted container would save one of the two, at the cost
of every other.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

from ..events import Event
from .instants import BEFORE, CLOSED, NOWHERE, Instants, period_of, played_of
from .placed import Placed
from .places import after_place, late_place, on_time_place

__all__ = ["Readings", "common"]


class Readings:
    """The events that have found their place.

    Attributes:
        lines: what counts on each line of the log, or ``None``. Line 0 stays empty, so that a line is its own index.
        home: the line of each event that does not count on its own.
        placed: the events in game order.
        keys: the key of each of them.
        at: for each line, the key at which its event stands.
        fronts: for each line, how far the game had come before it.
        behind: events that stand directly behind another one.
        moved: events that a `clock_set` moved, and its line.
        waited: events that had to wait for the one they go behind, and the line at which they found their place.
    """

    def __init__(self, instants: Instants, lines: list[Event | None], home: dict[int, int]) -> None:
        self.instants = instants
        self.lines = lines
        self.home = home
        self.placed: list[Placed] = []
        self.keys: list[int] = []
        self.at: list[int] = [NOWHERE]
        self.fronts: list[int] = [BEFORE]
        self.behind: dict[int, int] = {}
        self.moved: dict[int, int] = {}
        self.waited: dict[int, int] = {}

    def line_of(self, event: Event) -> int:
        """The line on which `event` counts as written."""
        return self.home.get(event.seq, event.seq)

    def there(self, key: int) -> list[Placed]:
        """What stands at `key`."""
        return self.placed[bisect_left(self.keys, key) : bisect_right(self.keys, key)]

    def written_at(self, key: int) -> list[Event]:
        """What stands at `key`, in the order in which it came there."""
        return sorted((one.event for one in self.there(key)), key=self._came)

    def insert(self, line: int, event: Event, key: int) -> int:
        """Let the event of `line` stand at `key`, as the last that comes there; its index in `placed`."""
        low = bisect_left(self.keys, key)
        high = bisect_right(self.keys, key, low)
        self.at[line] = key
        index = low + self._find(self.placed[low:high], line, event)
        self.placed.insert(index, _placed(event, key))
        self.keys.insert(index, key)
        return index

    def replace(self, line: int, event: Event) -> int:
        """Put `event` where the one of `line` stands, which belongs there as well; its index in `placed`."""
        self.lines[line] = event
        index = bisect_left(self.keys, self.at[line])
        while self.placed[index].event.seq != event.seq:
            index += 1
        old = self.placed[index]
        self.placed[index] = Placed(event, old.period, old.played)
        return index

    def arrange(self, key: int, coming: Iterable[int] = ()) -> int:
        """Order anew what stands at `key`, with the lines that come there; the index before which nothing changed.

        What `at` says of each line counts: what was there and is elsewhere by it goes.
        """
        low = bisect_left(self.keys, key)
        high = bisect_right(self.keys, key, low)
        before = self.placed[low:high]
        lines = {self.line_of(one.event) for one in before}
        lines.update(coming)
        events = [event for line in lines if self.at[line] == key and (event := self.lines[line]) is not None]
        after: list[Placed] = []
        for event in sorted(events, key=self._came):
            after.insert(self._find(after, self.line_of(event), event), _placed(event, key))
        self.placed[low:high] = after
        self.keys[low:high] = [key] * len(after)
        same = common(before, after)
        return len(self.placed) if same == len(before) == len(after) else low + same

    def seal(self) -> int:
        """Give the closing of the record its instant; the index of `placed` before which nothing changed.

        It is the closing's own reading, if the game had not gone on since; else it has none.
        """
        if not self.keys or self.keys[-1] != CLOSED:
            return len(self.placed)
        low = bisect_left(self.keys, CLOSED)
        last = self.keys[low - 1] if low else BEFORE
        before = self.placed[low:]
        for index, one in enumerate(before, low):
            event = one.event
            if event.kind == "game_closed" and event.clock is not None and event.period is not None:
                own, _ = self.instants.instant(event.period, event.clock)
                self.placed[index] = _placed(event, own) if own >= last else _without_instant(event, last)
                last = max(own, last)
            else:
                self.placed[index] = _without_instant(event, last)
        return low + common(before, self.placed[low:])

    def _find(self, there: Sequence[Placed], line: int, event: Event) -> int:
        """The place of an event among those that are at its reading already."""
        target = self.behind.get(event.seq)
        if target is not None:
            return after_place(there, target, self.behind)
        late = self.at[line] < self.fronts[line] and event.seq not in self.moved
        return (late_place if late else on_time_place)(there, event, self.behind)

    def _came(self, event: Event) -> tuple[int, int, int, int]:
        """Sorts events at one reading as they came there.

        By the line: their own, or that of the `clock_set` that moved them, or that of the event they waited for, which
        comes before them.
        """
        line = self.line_of(event)
        found = self.waited.get(event.seq, line)
        steps, seq = 0, event.seq
        while seq in self.waited:
            steps += 1
            seq = self.behind.get(seq, 0)
        return self.moved.get(event.seq, found), found, steps, line

    def check(self) -> None:
        """Raise an AssertionError where something does not fit together; for tests."""
        assert self.keys == sorted(self.keys)
        assert len(self.keys) == len(self.placed)
        assert len(self.at) == len(self.fronts) == len(self.lines)
        standing = [event for event in self.lines if event is not None and event.kind != "clock_set"]
        assert sorted(one.event.seq for one in self.placed) == sorted(event.seq for event in standing)
        for key, one in zip(self.keys, self.placed, strict=True):
            line = self.line_of(one.event)
            assert self.lines[line] is one.event
            assert self.at[line] == key
        instants = [(one.period, one.played) for one in self.placed if one.played is not None]
        assert instants == sorted(instants)
        periods = [one.period for one in self.placed]
        assert periods == sorted(periods)


def _placed(event: Event, key: int) -> Placed:
    return Placed(event, period_of(key), None if event.clock is None else played_of(key))


def _without_instant(event: Event, key: int) -> Placed:
    return Placed(event, period_of(key), None)


def common(before: Sequence[Placed], after: Sequence[Placed]) -> int:
    """How many places at the start are the same."""
    length = min(len(before), len(after))
    return next((i for i in range(length) if _differ(before[i], after[i])), length)


def _differ(before: Placed, after: Placed) -> bool:
    if before.played != after.played or before.period != after.period:
        return True
    return before.event is not after.event and before.event != after.event
