"""The events that count, in game order.

The order is a fold over the *lines* of the log: what counts on each line, one after another, finds its place among what counts on the
lines before. Its reading says where; how far the game had come (the *front*) says whether it is late. So a further line never moves what
stands there already, but for a `clock_set`; and a correction is a change of some lines, after which the lines from there on are gone
through again as far as the front is another one than before, and the readings that this touches are arranged anew.

**The key.** The events stand in one flat list that is sorted by their instants, packed into integers (`instants`), which stand in a list
beside it. The key says nothing about the order at one reading: that depends on kinds and on what was written when, and a key for it
would change with every faceoff that is put in. A reading has a handful of events, so they are told their places one by one (`places`).
Flat lists, since a game has some hundreds of events: to make room in a list of 5,000 takes two microseconds, less than a sorted tree
needs to find the place, and whoever reads the script reads a plain list.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence

from ..events import ClockSet, Event, GameClosed
from ..rules import Ruleset
from .instants import BEFORE, CLOSED, NOWHERE, Instants, in_period, period_of, played_of
from .placed import Placed
from .places import after_place, late_place, on_time_place
from .stoppages import has_stoppage, stoppage_before, written_since

__all__ = ["Order"]

_APART = frozenset({"clock_set", "game_closed"})  # kinds that do not stand at their reading because of it
_FIRST_THERE = frozenset({"shot", "goal"})  # kinds that do not always go to the end of their reading


class Order:
    """The order of one game.

    Attributes:
        placed: the events that count, in game order.
        keys: the key of each of them.
        lines: what counts on each line of the log, a `clock_set` too, or ``None``. Line 0 stays empty, so that a line is its index.
        home: the line of each event that does not count on its own.
    """

    def __init__(self, rules: Ruleset, lines: Iterable[Event | None] = ()) -> None:
        self.instants = Instants(rules)
        self.lines: list[Event | None] = [None, *lines]
        self.home: dict[int, int] = {}
        self._clear()

    def _clear(self) -> None:
        """Forget every place."""
        self.placed: list[Placed] = []
        self.keys: list[int] = []
        self._front = BEFORE
        self._fronts = [BEFORE]  # for each line, the front before it
        self._at = [NOWHERE]  # for each line, the key at which its event stands
        self._moved: dict[int, int] = {}  # events that a clock_set moved: its line
        self._behind: dict[int, int] = {}  # events that stand directly behind another one
        self._waiting: dict[int, list[int]] = {}  # lines that go behind an event which counts on a later line only
        self._waited: dict[int, int] = {}  # events that did: the line at which they found their place
        self._tied = 0  # the last line whose place depends on more than its reading and the front

    # -- going through the lines ------------------------------------------------------------------------------------------------------

    def rebuild(self) -> None:
        """Go through all lines; linear in their number.

        What goes to the very end, as all of an ordinary log does, takes a short way here.
        """
        self._clear()
        placed, keys, fronts, at = self.placed, self.keys, self._fronts, self._at
        key_of = self.instants.key
        front = last = BEFORE
        for line in range(1, len(self.lines)):
            event = self.lines[line]
            if event is not None and event.clock is not None and event.after is None and event.kind not in _APART:
                key = key_of(event.period, event.clock)  # type: ignore[arg-type]  # where a reading is, a period is
                if key >= front and (key > last or (key == last and event.kind not in _FIRST_THERE)):
                    fronts.append(front)
                    at.append(key)
                    placed.append(Placed(event, key >> 24, (key & 0xFFFFFF) - 1))
                    keys.append(key)
                    front = last = key
                    if self._waiting:
                        self._release(event.seq)
                        last = keys[-1]
                    continue
            self._front = front
            self._enter(line)
            front = self._front
            last = keys[-1] if keys else BEFORE
        self._front = front
        self._seal()

    def append(self, event: Event | None) -> int:
        """Take in what counts on one more line; the first index of `placed` at which something is new."""
        self.lines.append(event)
        first = self._enter(len(self.lines) - 1)
        return min(first, self._seal())

    def _enter(self, line: int) -> int:
        """Take in the next line."""
        self._fronts.append(self._front)
        self._at.append(NOWHERE)
        event = self.lines[line]
        if event is None:
            return len(self.placed)
        if isinstance(event, ClockSet):
            return self._set_clock(line, event)
        first = self._place(line, event)
        return min(first, self._release(event.seq))

    def _place(self, line: int, event: Event) -> int:
        """Find the place of the event on `line`, unless it has to wait for another one."""
        key = self._key(event, self._fronts[line])
        if event.after is not None and key != CLOSED:
            self._tied = len(self._at) - 1
            target = self._target_key(event.after)
            if target is None:
                self._waiting.setdefault(event.after, []).append(line)
                return len(self.placed)
            if target != NOWHERE:
                self._behind[event.seq] = event.after
                if not self._agree(event, target, key):
                    key = target
        return self._insert(line, event, key)

    def _insert(self, line: int, event: Event, key: int) -> int:
        low = bisect_left(self.keys, key)
        high = bisect_right(self.keys, key, low)
        self._at[line] = key
        index = low + self._find(self.placed[low:high], line, event)
        self.placed.insert(index, _placed(event, key))
        self.keys.insert(index, key)
        self._front = max(self._front, key)
        return index

    def _find(self, there: Sequence[Placed], line: int, event: Event) -> int:
        """The place of an event among those that are at its reading already."""
        target = self._behind.get(event.seq)
        if target is not None:
            return after_place(there, target, self._behind)
        late = self._at[line] < self._fronts[line] and event.seq not in self._moved
        return (late_place if late else on_time_place)(there, event, self._behind)

    def _key(self, event: Event, front: int) -> int:
        """Where `event` stands by what it says itself, written when the game had come to `front`."""
        if isinstance(event, GameClosed):
            return CLOSED
        if event.period is None:
            return front
        if event.clock is None:
            return in_period(event.period, front)
        return self.instants.key(event.period, event.clock)

    # -- what was put after another event ---------------------------------------------------------------------------------------------

    def _target_key(self, target: int) -> int | None:
        """Where the event that another was put after stands; ``NOWHERE`` if it does not count, ``None`` if it does not stand yet."""
        if target == 1:
            return BEFORE
        line = self.home.get(target, target)
        event = self.lines[line]
        if event is None or event.seq != target or isinstance(event, ClockSet):
            return NOWHERE
        at = self._at[line] if line < len(self._at) else NOWHERE
        return None if at == NOWHERE else at

    def _agree(self, event: Event, target: int, key: int) -> bool:
        """Whether an event can stand at its own `key` and directly behind one at `target`: nothing may lie between.

        If it cannot, it stands behind the other one at that one's instant: `after` wins.
        """
        if event.clock is None or key <= target:
            return False
        end = bisect_right(self.keys, target)
        there = self.placed[bisect_left(self.keys, target) : end]
        assert event.after is not None
        last = after_place(there, event.after, self._behind) == len(there)
        return last and (end == len(self.keys) or self.keys[end] >= key)

    def _release(self, seq: int) -> int:
        """Place what waited for the event `seq`, and what waited for that."""
        first = len(self.placed)
        pending = [seq] if self._waiting else []
        while pending:
            for line in self._waiting.pop(pending.pop(0), ()):
                event = self.lines[line]
                assert event is not None
                self._waited[event.seq] = len(self._at) - 1
                first = min(first, self._place(line, event))
                pending.append(event.seq)
        return first

    # -- the clock is corrected -------------------------------------------------------------------------------------------------------

    def _set_clock(self, line: int, event: ClockSet) -> int:
        """Move the stoppage just before, and what was written at its reading since, to the reading `to`."""
        self._tied = line
        assert event.period is not None
        assert event.clock is not None
        written, to = self.instants.key(event.period, event.clock), self.instants.key(event.period, event.to)
        late = written < self._front and has_stoppage(self.placed, self.keys, written)
        reached = written if late else self._front
        stoppage = stoppage_before(self.placed, self.keys, reached, written, to)
        goes_on_from_there = not late and period_of(self._front) == event.period
        self._front = to if goes_on_from_there else max(self._front, to)
        if stoppage is None or stoppage == to:
            return len(self.placed)
        moving = written_since(self._written_at(stoppage), self._behind)
        for moved in moving:
            self._move(moved, line, to)
        coming = {stoppage: [], to: [self.home.get(moved.seq, moved.seq) for moved in moving]}
        return min(self._arrange(key, coming[key]) for key in sorted(coming, reverse=True))

    def _move(self, event: Event, clock_set: int, to: int) -> None:
        self._moved[event.seq] = clock_set
        if self._behind.get(event.seq) not in self._moved:
            self._behind.pop(event.seq, None)
        self._at[self.home.get(event.seq, event.seq)] = to

    # -- one reading ------------------------------------------------------------------------------------------------------------------

    def _written_at(self, key: int) -> list[Event]:
        """What stands at `key`, in the order in which it came there."""
        there = self.placed[bisect_left(self.keys, key) : bisect_right(self.keys, key)]
        return sorted((one.event for one in there), key=self._came)

    def _came(self, event: Event) -> tuple[int, int, int, int]:
        """Sorts events at one reading as they came there: by the line, or the line of what they waited for, or of a `clock_set`."""
        seq = event.seq
        line = self.home.get(seq, seq)
        found = self._waited.get(seq, line)
        depth = 0
        if found != line:
            while (seq := self._behind.get(seq, 0)) in self._waited:
                depth += 1
            depth += 1
        return self._moved.get(event.seq, found), found, depth, line

    def _arrange(self, key: int, coming: Iterable[int] = ()) -> int:
        """Order anew what stands at `key`, with the lines that come there; the first index of `placed` that changed."""
        low = bisect_left(self.keys, key)
        high = bisect_right(self.keys, key, low)
        before = self.placed[low:high]
        lines = {self.home.get(one.event.seq, one.event.seq) for one in before}
        lines.update(coming)
        events = [event for line in lines if self._at[line] == key and (event := self.lines[line]) is not None]
        events.sort(key=self._came)
        after: list[Placed] = []
        for event in events:
            after.insert(self._find(after, self.home.get(event.seq, event.seq), event), _placed(event, key))
        self.placed[low:high] = after
        self.keys[low:high] = [key] * len(after)
        same = _common(before, after)
        return len(self.placed) if same == len(before) == len(after) else low + same

    def _seal(self) -> int:
        """Give the closing of the record its instant: what it says itself, if the game had not gone on since."""
        if not self.keys or self.keys[-1] != CLOSED:
            return len(self.placed)
        low = bisect_left(self.keys, CLOSED)
        last = self.keys[low - 1] if low else BEFORE
        before = self.placed[low:]
        for index in range(low, len(self.keys)):
            event = self.placed[index].event
            if event.clock is not None and event.period is not None:
                last = max(last, self.instants.key(event.period, event.clock))
            self.placed[index] = _placed(event, last)
        same = _common(before, self.placed[low:])
        return low + same

    # -- corrections ------------------------------------------------------------------------------------------------------------------

    def replace(self, line: int, event: Event) -> int:
        """Put `event` in the place of the one on `line`, which has the same place; the index of it in `placed`."""
        self.lines[line] = event
        if isinstance(event, ClockSet):
            return len(self.placed)
        index = bisect_left(self.keys, self._at[line])
        while self.placed[index].event.seq != event.seq:
            index += 1
        old = self.placed[index]
        self.placed[index] = Placed(event, old.period, old.played)
        return index

    def change(self, lines: Mapping[int, Event | None]) -> int:
        """Let other events count on some `lines`; the first index of `placed` that changed.

        Costs what is between the first of the lines and the next event that takes the game as far as it had come there; where a `clock_set` or
        an event with `after` is on or behind one of the lines, it costs a rebuild.
        """
        tied = min(lines) <= self._tied or any(_ties(event) for event in lines.values())
        if tied:
            before = self.placed
            for line, event in lines.items():
                self.lines[line] = event
            self.rebuild()
            return _common(before, self.placed)
        coming = self._walk(lines)
        first = min(self._arrange(key, coming[key]) for key in sorted(coming, reverse=True))
        return min(first, self._seal())

    def _walk(self, lines: Mapping[int, Event | None]) -> dict[int, list[int]]:
        """Go through the lines from the first of `lines` until the front is what it was; the keys touched, with the lines that come there."""
        touched: dict[int, list[int]] = {}
        for line, event in lines.items():
            self._leave(line, touched)
            self.lines[line] = event
        line, last = min(lines), max(lines)
        front = self._fronts[line]
        while line < len(self.lines) and (line <= last or front != self._fronts[line]):
            front = self._pass(line, front, touched)
            line += 1
        if line == len(self.lines):
            self._front = front
        return touched

    def _leave(self, line: int, touched: dict[int, list[int]]) -> None:
        if self._at[line] != NOWHERE:
            touched.setdefault(self._at[line], [])
            self._at[line] = NOWHERE

    def _pass(self, line: int, front: int, touched: dict[int, list[int]]) -> int:
        """Let the event on `line` stand where it belongs when the game has come to `front`; the front behind it."""
        was_front, self._fronts[line] = self._fronts[line], front
        event = self.lines[line]
        if event is None:
            return front
        key, was = self._key(event, front), self._at[line]
        if key != was or (key < front) != (was < was_front):
            self._leave(line, touched)
            self._at[line] = key
            touched.setdefault(key, []).append(line)
        return max(front, key)


def _placed(event: Event, key: int) -> Placed:
    return Placed(event, period_of(key), None if event.clock is None else played_of(key))


def _ties(event: Event | None) -> bool:
    """Whether the place of `event` depends on more than its reading and the front."""
    return event is not None and (isinstance(event, ClockSet) or event.after is not None)


def _common(before: Sequence[Placed], after: Sequence[Placed]) -> int:
    """How many places at the start are the same."""
    length = min(len(before), len(after))
    return next((i for i in range(length) if _differ(before[i], after[i])), length)


def _differ(before: Placed, after: Placed) -> bool:
    return before.event is not after.event or before.played != after.played or before.period != after.period
