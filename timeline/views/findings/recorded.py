"""When events were recorded, against when they happened."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import compress

from attrs import frozen

from ...events import Event
from .misplaced import in_order
from .step import Step

__all__ = ["RecordedLate", "recorded_late"]

LONG = 600
"""Seconds after which somebody may not remember an event well."""


@frozen
class RecordedLate:
    """An event recorded so many seconds after one that happened later."""

    step: Step
    seconds: int


@frozen
class _Stamped:
    step: Step
    recorded: int

    @property
    def place(self) -> tuple[int, int]:
        return (self.step.period, self.step.played or 0)


def recorded_late(steps: Sequence[Step], written: Sequence[Event]) -> Iterator[RecordedLate]:
    """The events recorded long after the game had gone past them, in game order; `written` are all as written.

    One that an amendment moved was recorded in its time, with a wrong reading. As few as possible are taken to be
    recorded late, so that a single wrong stamp says nothing of the events around it.
    """
    stamps = [step.event.recorded_at for step in steps if step.event.recorded_at and step.played is not None]
    if stamps == sorted(stamps):  # recorded in the order of the game
        return
    stamped = [*_stamped(steps, written)]
    kept = in_order([(one.recorded,) for one in stamped])
    ordered = [*compress(stamped, kept)]
    for one, is_kept in zip(stamped, kept, strict=True):
        passed = bisect_right(ordered, one.place, key=lambda each: each.place)
        if not is_kept and passed < len(ordered) and one.recorded - ordered[passed].recorded > LONG:
            yield RecordedLate(one.step, one.recorded - ordered[passed].recorded)


def _stamped(steps: Sequence[Step], written: Sequence[Event]) -> Iterator[_Stamped]:
    for step in steps:
        event = step.event
        if event.recorded_at and step.played is not None and _when(event) == _when(written[event.seq - 1]):
            yield _Stamped(step, int(datetime.fromisoformat(event.recorded_at).timestamp()))


def _when(event: Event) -> tuple[int | None, str | None]:
    return event.period, event.clock
