"""The events that count, in game order.

The order is a fold over the *lines* of the log: what counts on each line, one after another, finds its place among
what counts on the lines before. Its reading says where; how far the game had come (the *front*) says whether it is
late. So a further line never moves what stands there already, but for a `clock_set`; and a correction is a change of
some lines, after which the lines from there on are gone through again as far as the front is another one than before,
and the readings that this touches are arranged anew.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping

from ..events import ClockSet, Event, GameClosed
from ..rules import Ruleset
from .instants import BEFORE, CLOSED, NOWHERE, Instants, in_period, period_of
from .placed import Placed
from .places import after_place
from .readings import Readings, common
from .stoppages import has_stoppage, stoppage_before, written_since

__all__ = ["Order"]

_APART = frozenset({"clock_set", "game_closed"})  # kinds whose reading does not say where they stand
_NOT_LAST = frozenset({"shot", "goal"})  # kinds that do not always go to the end of their reading


class Order:
    """The order of one game.

    Attributes:
        lines: what counts on each line of the log, a `clock_set` too, or ``None``. Line 0 stays empty.
        home: the line of each event that does not count on its own.
    """

    def __init__(self, rules: Ruleset, lines: Iterable[Event | None] = ()) -> None:
        self.lines: list[Event | None] = [None, *lines]
        self.home: dict[int, int] = {}
        self._instants = Instants(rules)
        self._clear()

    def _clear(self) -> None:
        """Forget every place."""
        self._readings = Readings(self._instants, self.lines, self.home)
        self._front = BEFORE
        self._waiting: dict[int, list[int]] = {}  # lines that go behind an event which counts on a later line only
        self._tied = 0  # the last line whose place depends on more than its reading and the front
        self._targets: set[int] = set()  # the events that others were put after

    @property
    def placed(self) -> list[Placed]:
        """The events that count, in game order."""
        return self._readings.placed

    def rebuild(self) -> None:
        """Go through all lines; linear in their number.

        What goes to the very end, as all of an ordinary log does, takes a short way.
        """
        self._clear()
        placed, keys, at, fronts = self.placed, self._readings.keys, self._readings.at, self._readings.fronts
        instant = self._instants.instant
        front = last = BEFORE
        for line in range(1, len(self.lines)):
            event = self.lines[line]
            if event is not None and event.kind not in _APART and event.after is None and not self._waiting:
                period, clock = event.period, event.clock
                if period is not None and clock is not None:
                    key, played = instant(period, clock)
                    if key >= front and (key > last or (key == last and event.kind not in _NOT_LAST)):
                        at.append(key)
                        fronts.append(front)
                        placed.append(Placed(event, period, played))
                        keys.append(key)
                        front = last = key
                        continue
            self._front = front
            self._enter(line)
            front = self._front
            last = keys[-1] if keys else BEFORE
        self._front = front
        self._readings.seal()

    def append(self, event: Event | None) -> int:
        """Take in what counts on one more line; the index of `placed` before which nothing changed."""
        self.lines.append(event)
        first = self._enter(len(self.lines) - 1)
        return min(first, self._readings.seal())

    def replace(self, line: int, event: Event) -> int:
        """Put `event` in the place of the one on `line`; it must belong there as well. Its index in `placed`."""
        return self._readings.replace(line, event)

    def change(self, lines: Mapping[int, Event | None]) -> int:
        """Let other events count on some `lines`; the index of `placed` before which nothing changed.

        Costs the lines from the first of these to the next that takes the game as far as it had come there, and the
        readings touched. With a `clock_set` or an event with `after` on or behind one of the lines it costs a rebuild,
        and so does what another event was put after, wherever it counts.
        """
        if min(lines) <= self._tied or any(self._ties(event) for event in lines.values() if event is not None):
            before = self.placed
            for line, event in lines.items():
                self.lines[line] = event
            self.rebuild()
            return common(before, self.placed)
        first = self._arrange(self._walk(lines))
        return min(first, self._readings.seal())

    # -- one line after another

    def _enter(self, line: int) -> int:
        """Take in the next line; the index of `placed` before which nothing changed."""
        self._readings.at.append(NOWHERE)
        self._readings.fronts.append(self._front)
        event = self.lines[line]
        if event is None:
            return len(self.placed)
        if isinstance(event, ClockSet):
            return self._set_clock(line, event)
        first = self._place(line, event, line)
        return min(first, self._place_waiting(event.seq, line)) if self._waiting else first

    def _place(self, line: int, event: Event, now: int) -> int:
        """Find the place of the event of `line`, when `now` is the last line gone through; it may have to wait."""
        key = self._key(event, self._readings.fronts[line])
        if event.after is not None and key != CLOSED:
            self._tied = now
            self._targets.add(event.after)
            target = self._stands_at(event.after)
            if target is None:
                self._waiting.setdefault(event.after, []).append(line)
                return len(self.placed)
            if target != NOWHERE:
                self._readings.behind[event.seq] = event.after
                key = key if self._agree(event, event.after, target, key) else target
        self._front = max(self._front, key)
        return self._readings.insert(line, event, key)

    def _key(self, event: Event, front: int) -> int:
        """Where `event` stands by what it says itself, written when the game had come to `front`."""
        if isinstance(event, GameClosed):
            return CLOSED
        if event.period is None:
            return front
        if event.clock is None:
            return in_period(event.period, front)
        return self._instants.instant(event.period, event.clock)[0]

    # -- what was put after another event

    def _stands_at(self, target: int) -> int | None:
        """The key of the event that another was put after; ``NOWHERE`` if it does not count, ``None`` if not yet."""
        if target == 1:
            return BEFORE
        line = self.home.get(target, target)
        event = self.lines[line]
        if event is None or event.seq != target or isinstance(event, ClockSet):
            return NOWHERE
        at = self._readings.at
        return at[line] if line < len(at) and at[line] != NOWHERE else None

    def _agree(self, event: Event, target: int, at: int, key: int) -> bool:
        """Whether an event can stand at its own `key` and directly behind the `target`, which is `at` an earlier one.

        If it cannot, because something lies between, it stands behind the target at the target's instant: `after` wins.
        """
        if event.clock is None or key <= at:
            return False
        there, keys = self._readings.there(at), self._readings.keys
        end = bisect_right(keys, at)
        is_last = after_place(there, target, self._readings.behind) == len(there)
        return is_last and (end == len(keys) or keys[end] >= key)

    def _place_waiting(self, seq: int, now: int) -> int:
        """Place what waited for the event `seq`, and what waited for that; the index before which nothing changed."""
        first = len(self.placed)
        found = [seq]
        for each in found:
            for line in self._waiting.pop(each, ()):
                event = self.lines[line]
                assert event is not None
                self._readings.waited[event.seq] = now
                first = min(first, self._place(line, event, now))
                found.append(event.seq)
        return first

    # -- the clock is corrected

    def _set_clock(self, line: int, event: ClockSet) -> int:
        """Move the stoppage just before, and what was written at its reading since, to the reading `to`.

        A `clock_set` that was written when the game had gone on corrects the stoppage at its own reading.
        """
        self._tied = line
        assert event.period is not None
        assert event.clock is not None
        readings = self._readings
        written, to = (self._instants.instant(event.period, clock)[0] for clock in (event.clock, event.to))
        is_late = written < self._front and has_stoppage(readings.there(written))
        reached = written if is_late else self._front
        stoppage = stoppage_before(readings.placed, readings.keys, reached, written, to)
        goes_on_there = not is_late and period_of(self._front) == event.period
        self._front = to if goes_on_there else max(self._front, to)
        if stoppage is None or stoppage == to:
            return len(self.placed)
        moving = written_since(readings.written_at(stoppage), readings.behind)
        for moved in moving:
            self._move(moved, line, to)
        return self._arrange({stoppage: [], to: [readings.line_of(moved) for moved in moving]})

    def _move(self, event: Event, clock_set: int, to: int) -> None:
        readings = self._readings
        readings.moved[event.seq] = clock_set
        readings.at[readings.line_of(event)] = to
        if readings.behind.get(event.seq) not in readings.moved:
            readings.behind.pop(event.seq, None)

    # -- corrections

    def _walk(self, lines: Mapping[int, Event | None]) -> dict[int, list[int]]:
        """Go through the lines from each of `lines` on, until the front is what it was.

        Returns:
            The keys at which something is other than before, each with the lines that come there.
        """
        touched: dict[int, list[int]] = {}
        for line, event in lines.items():
            self._leave(line, touched)
            self.lines[line] = event
        fronts, end = self._readings.fronts, len(self.lines)
        line = 0
        for start in sorted(lines):
            if start < line:
                continue
            front = self._pass(start, fronts[start], touched)
            line = start + 1
            while line < end and front != fronts[line]:
                front = self._pass(line, front, touched)
                line += 1
            if line == end:
                self._front = front
        return touched

    def _pass(self, line: int, front: int, touched: dict[int, list[int]]) -> int:
        """Let the event of `line` stand where it belongs when the game has come to `front`; the front behind it."""
        at, fronts = self._readings.at, self._readings.fronts
        was_late = at[line] < fronts[line]
        fronts[line] = front
        event = self.lines[line]
        if event is None:
            return front
        key = self._key(event, front)
        if key != at[line] or (key < front) != was_late:
            self._leave(line, touched)
            at[line] = key
            touched.setdefault(key, []).append(line)
        return max(front, key)

    def _leave(self, line: int, touched: dict[int, list[int]]) -> None:
        at = self._readings.at
        if at[line] != NOWHERE:
            touched.setdefault(at[line], [])
            at[line] = NOWHERE

    def _arrange(self, touched: Mapping[int, Iterable[int]]) -> int:
        """Arrange what was touched, from the end of the game, so that each index holds for what is before it."""
        firsts = [self._readings.arrange(key, touched[key]) for key in sorted(touched, reverse=True)]
        return min(firsts, default=len(self.placed))

    def _ties(self, event: Event) -> bool:
        """Whether the place of `event`, or of others, depends on more than its reading and the front."""
        return isinstance(event, ClockSet) or event.after is not None or event.seq in self._targets

    def _check(self) -> None:
        """Raise an AssertionError if something does not fit together; for tests."""
        assert not self._waiting
        self._readings.check()
