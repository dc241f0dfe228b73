"""The door: a file's bytes become a `Log`, or every problem in them is told at once.

Only shape is checked here. Whether the game makes sense is for the findings.
"""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path

from attrs import Factory, define, evolve

from ..events import Event, GameOpened
from ..problems import Problem, ProblemsFound
from .chain import line_hash
from .checks import check_events
from .codec import event_from_line, read_event
from .files import file_problem
from .json_line import load_line
from .lines import Lines, split_lines
from .log import Log
from .named_rules import check_named_rules
from .sequence import check_chain, check_sequence
from .upgrades import FORMATS, Formats, Step

__all__ = ["parse_log", "read_log"]


def read_log(path: str | os.PathLike[str]) -> Log:
    """Read the log at `path`.

    Raises:
        ProblemsFound: the file cannot be read, or is no log of this format; every problem of the file, in its order.
    """
    try:
        data = Path(path).read_bytes()
    except OSError as error:
        raise file_problem(error, os.fspath(path), "read") from None
    return parse_log(data, os.fspath(path))


def parse_log(data: bytes, name: str = "", *, formats: Formats = FORMATS) -> Log:
    """The log that the bytes of a file are.

    Args:
        data: the whole file.
        name: what messages call it.
        formats: the formats that can be read.

    Raises:
        ProblemsFound: every problem of the file, in its order.
    """
    try:
        reading = _Reading(split_lines(data))
        reading.read(formats)
    except ProblemsFound as refused:
        raise ProblemsFound(evolve(problem, file=name) for problem in refused.problems) from None
    if reading.problems:
        raise ProblemsFound(evolve(p, file=name) for p in sorted(reading.problems, key=lambda p: p.line or 0))
    return reading.log(name)


@define
class _Reading:
    """One pass through a file.

    Attributes:
        lines: the file in lines.
        events: the event of each line, None for one that cannot be read.
        problems: what was found so far, with lines and without the file.
    """

    lines: Lines
    events: list[Event | None] = Factory(list)
    problems: list[Problem] = Factory(list)

    def read(self, formats: Formats) -> None:
        """Read every line, then check the log as a whole."""
        self.problems.extend(self.lines.problems)
        upgrade = formats.upgrade_from(self._format(formats.newest))
        event_of = event_from_line if upgrade is None else partial(_upgraded, upgrade)
        events = self.events
        for number, line in self.lines.numbered:
            try:
                events.append(event_of(_text(line)))
            except ProblemsFound as found:
                events.append(None)
                self.problems.extend(evolve(problem, line=number) for problem in found.problems)
        self._check()

    def _format(self, newest: int) -> int:
        """The format that line 1 names, or the newest where that cannot be known."""
        try:
            header = load_line(_text(self.lines.numbered[0][1]))
        except (ProblemsFound, IndexError):
            return newest
        found = header.get("format")
        return found if header.get("kind") == GameOpened.kind and type(found) is int else newest

    def _check(self) -> None:
        numbers = [number for number, _ in self.lines.numbered]
        known = check_sequence(self.events, numbers, self.problems)
        self.problems.extend(check_chain(self.events, self.lines.numbered))
        read = [event for event in self.events if event is not None]
        line_of = {event.seq: number for event, number in zip(self.events, numbers, strict=True) if event is not None}
        if self.events and isinstance(header := self.events[0], GameOpened):
            self.problems.extend(evolve(p, line=numbers[0]) for p in check_named_rules(header))
        seqs = known if self.problems else None
        self.problems.extend(evolve(p, line=line_of.get(p.seq or 0)) for p in check_events(read, seqs))

    def log(self, name: str) -> Log:
        """The log, after a reading that found no problem."""
        events = tuple(event for event in self.events if event is not None)
        header = events[0]
        assert isinstance(header, GameOpened)
        chained = header.prev is not None
        notes = self.lines.notes if chained else (*self.lines.notes, _UNCHAINED)
        return Log(
            name=name,
            header=header,
            events=events,
            notes=tuple(evolve(note, file=name) for note in notes),
            chained=chained,
            head=line_hash(self.lines.numbered[-1][1]),
        )


def _upgraded(upgrade: Step, text: str) -> Event:
    return read_event(upgrade(load_line(text)))


def _text(line: bytes) -> str:
    try:
        return line.decode()
    except UnicodeDecodeError as error:
        message = f"The line is not UTF-8: byte {error.start + 1} of it is 0x{line[error.start]:02x}."
        raise ProblemsFound([Problem(code="not_utf8", message=message, fix="Save the file as UTF-8.")]) from None


_UNCHAINED = Problem(
    code="unchained",
    severity="note",
    message="The log carries no chain: whether it was changed after it was written cannot be seen.",
)
