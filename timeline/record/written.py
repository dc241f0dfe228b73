"""Events as lines that follow each other: numbered, chained, and read back before they are written."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import evolve, frozen

from ..events import Event
from ..problems import ProblemsFound
from .chain import line_hash
from .codec import event_from_line, event_to_line, no_event

__all__ = ["Written", "link", "log_bytes"]


@frozen
class Written:
    """An event with the line that it is in the file, without a newline. The event is what reading the line gives."""

    event: Event
    line: bytes


def link(events: Iterable[Event], seq: int, prev: str | None) -> list[Written]:
    """`events` with the numbers from `seq` up and, unless `prev` is None, the chain that goes on from the hash `prev`.

    Each line is read back, so that nothing is written which the door would refuse.

    Raises:
        ProblemsFound: every problem of every event by itself.
        TypeError: one of them is no event.
    """
    made: list[Written] = []
    problems = []
    for number, event in enumerate(events, seq):
        try:
            line = event_to_line(_numbered(event, number, prev))
            made.append(Written(event_from_line(line.decode()), line))
            prev = None if prev is None else line_hash(line)
        except ProblemsFound as found:
            problems += [evolve(problem, seq=number) for problem in found.problems]
    if problems:
        raise ProblemsFound(problems)
    return made


def _numbered(event: Event, seq: int, prev: str | None) -> Event:
    if not isinstance(event, Event):
        raise TypeError(no_event(event))
    return evolve(event, seq=seq, prev=prev)


def log_bytes(events: Iterable[Event], *, chained: bool = True) -> bytes:
    """A whole log as the bytes of its file: `events` numbered from 1, with a new chain or with none.

    Raises:
        ProblemsFound: every problem of every event by itself.
    """
    return b"".join(written.line + b"\n" for written in link(events, 1, "" if chained else None))
