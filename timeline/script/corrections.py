"""What counts of each event after voids and amendments.

A correction counts unless it is voided, and with the amendments of it applied: a `void` can be voided, and an `amend`
given another target or other changes. A correction is written after what it corrects, so everything is settled in one
pass from the last correction to the first; a new one starts that pass at its own target and goes on only as far as
something changes.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterable, Sequence
from heapq import heapify, heappop, heappush

from attrs import frozen

from ..events import Amend, Event, Void
from ..problems import ProblemsFound
from ..record.codec import amended

__all__ = ["Corrections", "Standing", "effective"]

_CORRECTING = frozenset({"void", "amend"})


@frozen
class Standing:
    """What one event comes to.

    Attributes:
        event: the event with its amendments applied; ``None`` where it is voided.
        line: where it counts as written: its own line, or that of the amendment which last moved it to another reading
            or period.
    """

    event: Event | None
    line: int


class Corrections:
    """The corrections of one log.

    Attributes:
        written: every event as written; ``written[n]`` has the seq ``n + 1``.
    """

    def __init__(self, events: Iterable[Event] = ()) -> None:
        self.written: list[Event] = list(events)
        self._standing: dict[int, Standing] = {}  # of corrected events alone
        self._in_force: dict[int, Void | Amend] = {}  # the corrections that count, as they count
        self._voids: dict[int, set[int]] = {}  # target: the voids of it that count
        self._amendments: dict[int, list[int]] = {}  # target: the amendments of it that count, in the order written
        self._settle([event.seq for event in self.written if event.kind in _CORRECTING])

    @property
    def corrected(self) -> Iterable[int]:
        """The events that some correction has reached, in no order."""
        return self._standing.keys()

    def standing(self, seq: int) -> Standing:
        """What the event `seq` comes to."""
        return self._standing.get(seq) or Standing(self.written[seq - 1], seq)

    def append(self, event: Event) -> set[int]:
        """Take one more event in; the earlier events that now come to something else, corrections among them."""
        self.written.append(event)
        if event.kind not in _CORRECTING:
            return set()
        changed = self._settle([event.seq])
        changed.discard(event.seq)
        return changed

    def _settle(self, seqs: list[int]) -> set[int]:
        """Settle `seqs` and what depends on them, the last one first; those that come to something else."""
        agenda = [-seq for seq in seqs]
        heapify(agenda)
        changed: set[int] = set()
        done = 0
        while agenda:
            seq = -heappop(agenda)
            if seq == done:
                continue
            done = seq
            for target in self._settle_one(seq, changed):
                heappush(agenda, -target)
        return changed

    def _settle_one(self, seq: int, changed: set[int]) -> list[int]:
        """Settle one event; the targets of a correction whose effect is another one now."""
        before, after = self.standing(seq), self._judge(seq)
        if before != after:
            changed.add(seq)
        self._standing[seq] = after
        had = self._in_force.pop(seq, None)
        has = after.event if isinstance(after.event, Void | Amend) else None
        if has is not None:
            self._in_force[seq] = has
        if had == has:
            return []
        if had is not None:
            self._withdraw(seq, had)
        if has is not None:
            self._enter(seq, has)
        return [each.target for each in (had, has) if each is not None]

    def _judge(self, seq: int) -> Standing:
        event = self.written[seq - 1]
        if self._voids.get(seq):
            return Standing(None, seq)
        line = seq
        for amendment in self._amendments.get(seq, ()):
            changed = _apply(self._in_force[amendment], event)
            if _when(changed) != _when(event):
                line = amendment
            event = changed
        stays = event.clock is None or _when(event) == _when(self.written[seq - 1])
        return Standing(event, seq if stays else line)

    def _enter(self, seq: int, correction: Void | Amend) -> None:
        if isinstance(correction, Void):
            self._voids.setdefault(correction.target, set()).add(seq)
        else:
            insort(self._amendments.setdefault(correction.target, []), seq)

    def _withdraw(self, seq: int, correction: Void | Amend) -> None:
        (self._voids if isinstance(correction, Void) else self._amendments)[correction.target].remove(seq)


def _apply(amendment: Void | Amend, event: Event) -> Event:
    """`event` amended; as it was where the changes do not fit it, which the log's door has told already."""
    assert isinstance(amendment, Amend)
    try:
        return amended(event, amendment.changes)
    except ProblemsFound:
        return event


def _when(event: Event) -> tuple[int | None, str | None]:
    return event.period, event.clock


def effective(events: Sequence[Event], seq: int) -> Event | None:
    """The event `seq` of a log as it counts, with its amendments applied; ``None`` where it is voided."""
    return Corrections(events).standing(seq).event
