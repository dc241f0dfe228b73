"""The script: what counts of a log, in game order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..events import Amend, Event, GameOpened, Void
from ..rules import Ruleset
from .corrections import Corrections, Standing
from .order import Order
from .placed import Placed

__all__ = ["Script"]

_NOT_IN_IT = (GameOpened, Void, Amend)


class Script:
    """The script of one log, which can grow by one event after another.

    >>> from ..events import Faceoff, Goal, Stoppage
    >>> script = Script.build([Stoppage(seq=1, period=1, clock="7:42"), Goal(seq=2, period=1, clock="9:15", team="home")], Ruleset())
    >>> [(one.event.kind, one.played) for one in script.placed]
    [('goal', 3450), ('stoppage', 4380)]
    """

    def __init__(self, rules: Ruleset, events: Iterable[Event] = ()) -> None:
        self._corrections = Corrections(events)
        written = self._corrections.written
        self._order = Order(rules, [None if isinstance(event, _NOT_IN_IT) else event for event in written])
        lines = self._changed_lines(self._corrections.corrected)
        for line, event in lines.items():
            self._order.lines[line] = event
        self._order.rebuild()

    @classmethod
    def build(cls, events: Iterable[Event], rules: Ruleset) -> Script:
        """The script of all `events` of a log, in the order written, by the lengths and the way of counting of `rules`."""
        return cls(rules, events)

    @property
    def placed(self) -> Sequence[Placed]:
        """What counts, in game order. It changes with the next `append`."""
        return self._order.placed

    def append(self, event: Event) -> int:
        """Take in one more event as it is written; the first index of `placed` at which something is other than before.

        That is ``len(placed)`` where nothing is. A further event costs microseconds, on time or late; for a correction see `Order.change`.
        """
        corrected = self._corrections.append(event)
        first = self._order.append(None if isinstance(event, _NOT_IN_IT) else event)
        changed = self._changed_lines(corrected)
        if changed:
            first = min(first, self._order.change(changed))
        return first

    def _changed_lines(self, seqs: Iterable[int]) -> dict[int, Event | None]:
        """The lines on which something else counts now that `seqs` come to something else."""
        order, written = self._order, self._corrections.written
        moved = [(seq, self._corrections.standing(seq)) for seq in seqs if not isinstance(written[seq - 1], _NOT_IN_IT)]
        lines: dict[int, Event | None] = {order.home.pop(seq, seq): None for seq, _ in moved}
        for seq, standing in moved:
            lines[standing.line] = standing.event
            if standing.line != seq:
                order.home[seq] = standing.line
        return lines
