"""The script: what counts of a log, in game order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..events import ClockSet, Event
from ..rules import Ruleset
from .corrections import Corrections, Standing
from .order import Order
from .placed import Placed

__all__ = ["Script"]

_NOT_IN_IT = frozenset({"game_opened", "void", "amend"})


class Script:
    """The script of one log, which can grow by one event after another.

    >>> from ..events import Goal, Stoppage
    >>> script = Script.build([Stoppage(seq=1, period=1, clock="7:42")], Ruleset())
    >>> script.append(Goal(seq=2, period=1, clock="9:15", team="home"))
    0
    >>> [(one.event.kind, one.played) for one in script.placed]
    [('goal', 3450), ('stoppage', 4380)]
    """

    def __init__(self, rules: Ruleset, events: Iterable[Event] = ()) -> None:
        self._corrections = Corrections(events)
        written = self._corrections.written
        self._order = Order(rules, [None if event.kind in _NOT_IN_IT else event for event in written])
        for line, event in self._change_lines(self._corrected(self._corrections.corrected)).items():
            self._order.lines[line] = event
        self._order.rebuild()

    @classmethod
    def build(cls, events: Iterable[Event], rules: Ruleset) -> Script:
        """The script of all `events` of a log, in the order written, by the period lengths and readings of `rules`."""
        return cls(rules, events)

    @property
    def placed(self) -> Sequence[Placed]:
        """What counts, in game order. It changes with the next `append`."""
        return self._order.placed

    def append(self, event: Event) -> int:
        """Take in one more event as it is written; the index of `placed` before which everything is as it was.

        That is ``len(placed)`` where nothing changed at all. A further event costs microseconds, on time or late; a
        correction what it touches, see `Order.change`.
        """
        corrected = self._corrections.append(event)
        first = self._order.append(None if event.kind in _NOT_IN_IT else event)
        return min(first, self._correct(corrected)) if corrected else first

    def _correct(self, seqs: Iterable[int]) -> int:
        order = self._order
        first = len(order.placed)
        elsewhere: list[tuple[int, Standing]] = []
        for seq, standing in self._corrected(seqs):
            line = order.home.get(seq, seq)
            before = order.lines[line]
            if standing.line == line and before is not None and _same_place(before, standing.event):
                assert standing.event is not None
                first = min(first, order.replace(line, standing.event))
            else:
                elsewhere.append((seq, standing))
        lines = self._change_lines(elsewhere)
        return min(first, order.change(lines)) if lines else first

    def _corrected(self, seqs: Iterable[int]) -> list[tuple[int, Standing]]:
        """What those of `seqs` come to that can stand in the script."""
        written = self._corrections.written
        return [(seq, self._corrections.standing(seq)) for seq in seqs if written[seq - 1].kind not in _NOT_IN_IT]

    def _change_lines(self, corrected: Sequence[tuple[int, Standing]]) -> dict[int, Event | None]:
        """What counts on which lines now; an event leaves its line before another one comes there."""
        home = self._order.home
        lines: dict[int, Event | None] = {home.pop(seq, seq): None for seq, _ in corrected}
        for seq, standing in corrected:
            lines[standing.line] = standing.event
            if standing.line != seq:
                home[seq] = standing.line
        return {line: event for line, event in lines.items() if event is not self._order.lines[line]}

    def _check(self) -> None:
        """Raise an AssertionError if the script is not what it should be; for tests."""
        self._order._check()


def _same_place(before: Event, after: Event | None) -> bool:
    """Whether the one stands exactly where the other does."""
    if after is None or after.seq != before.seq or isinstance(before, ClockSet):
        return False
    return (before.period, before.clock, before.after) == (after.period, after.clock, after.after)
