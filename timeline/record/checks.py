"""Checks of a log as a whole: what points at what, and what may stand after the closing.

Each takes the events in the order written and yields problems with the `seq` of the event that is at fault.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence

from ..events import Amend, Event, Figures, GameClosed, Goal, PenaltyEnded, Remark, Void
from ..problems import Problem
from .amendments import check_amendments, voided_by
from .named_rules import check_effective_rules

__all__ = ["AFTER_CLOSING", "check_events", "check_targets_of"]

AFTER_CLOSING: tuple[type[Event], ...] = (Void, Amend, Remark, Figures)
"""What may follow the closing of the record."""

_CORRECTIONS = (Void, Amend)
_TARGETS: Mapping[type[Event], str] = {Void: "target", Amend: "target", PenaltyEnded: "penalty", Goal: "ends"}


def check_events(
    events: Sequence[Event], known: Container[int] | None = None, *, before: int | None = None
) -> list[Problem]:
    """Every problem that `events` have with each other.

    Args:
        events: all events of a log, in the order written.
        known: the seqs that exist, where some lines could not be read; else those of `events`.
        before: how many of them are in the log, where the others are to be entered in it.
    """
    exists = range(1, len(events) + 1) if known is None else known
    pointing = (event for event in events if type(event) in _TARGETS or event.after is not None)
    problems = [problem for event in pointing for problem in check_targets_of(event, exists)]
    problems += check_amendments(events, lambda event: check_targets_of(event, exists))
    problems += _check_closing(events)
    if known is None and not problems:
        problems += check_effective_rules(events, before=before)
    return problems


def check_targets_of(event: Event, exists: Container[int]) -> list[Problem]:
    """Check that what `event` points at exists, and was written before it where it has to be."""
    name = _TARGETS.get(type(event))
    if name is None and event.after is None:
        return []
    problems = [] if event.after is None else _target("after", event.after, event, exists)
    if name is not None and (target := getattr(event, name)) is not None:
        problems += _target(name, target, event, exists)
        if target == 1 and isinstance(event, Void):
            problems.append(_header_void(event))
    return problems


def _target(name: str, target: int, event: Event, exists: Container[int]) -> list[Problem]:
    if target not in exists:
        code, message = "no_target", f"There is no event {target} in this log."
    elif target == event.seq:
        code, message = "later_target", f"Event {target} points at itself."
    elif target > event.seq and name != "ends":
        code, message = "later_target", f"Event {target} is written later; expected one that is written before."
    else:
        return []
    return [Problem(code=code, message=message, fix="Write the seq of the event meant.", seq=event.seq, field=name)]


def _header_void(event: Event) -> Problem:
    return Problem(
        code="header_void",
        message="Event 1 opens the game and cannot be voided.",
        fix="Amend it.",
        seq=event.seq,
        field="target",
    )


def _check_closing(events: Sequence[Event]) -> Iterator[Problem]:
    """Check that only corrections, remarks and figures follow a closing that counts when they are written."""
    closings: set[int] = set()
    voided: set[int] | None = set()
    for index, event in enumerate(events):
        if isinstance(event, _CORRECTIONS):
            voided = None
        elif closings and not isinstance(event, AFTER_CLOSING):
            voided = voided_by(events[:index]) if voided is None else voided
            in_force = closings - voided
            if in_force:
                yield _closed(event, max(in_force))
        if isinstance(event, GameClosed):
            closings.add(event.seq)


def _closed(event: Event, closing: int) -> Problem:
    allowed = ", ".join(cls.kind for cls in AFTER_CLOSING)
    return Problem(
        code="after_closing",
        message=f"The record was closed by event {closing}; expected only {allowed} after it, found {event.kind}.",
        fix=f"Void event {closing} first, which opens the record again.",
        seq=event.seq,
        field="kind",
    )
