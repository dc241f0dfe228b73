"""The end of a log's file, read without reading the rest: the last append costs what the first did."""

from __future__ import annotations

from typing import BinaryIO

from attrs import evolve, frozen

from ..events import Event, GameOpened
from ..problems import Problem, ProblemsFound
from .codec import event_from_line
from .json_line import is_whole_object, load_line
from .upgrades import FORMAT, FORMATS

__all__ = ["Tail", "read_tail"]

_BLOCK = 8192


@frozen(kw_only=True)
class Tail:
    """The end of a log.

    Attributes:
        event: the last event.
        line: its bytes, without the newline.
        end: where in the file its line ends, the newline counted where there is one.
        newline: whether its newline is there.
        torn: what a crash left after it.
    """

    event: Event
    line: bytes
    end: int
    newline: bool
    torn: bytes


def read_tail(file: BinaryIO) -> Tail:
    """The end of the log in `file`, after a look at its first line.

    Raises:
        ProblemsFound: it is no log of today's format, or its last whole line is no event. The problems name no file.
    """
    _check_header(file)
    size = file.seek(0, 2)
    *lines, rest = _last_block(file, size).split(b"\n")
    if rest and is_whole_object(rest):
        line, torn, newline = rest, b"", False
    else:
        line, torn, newline = lines[-1], rest, True
    return Tail(event=_last_event(line), line=line, end=size - len(torn), newline=newline, torn=torn)


def _last_block(file: BinaryIO, size: int) -> bytes:
    """The end of the file with at least two newlines in it, so that the last whole line is whole."""
    length = _BLOCK
    while True:
        start = max(size - length, 0)
        file.seek(start)
        block = file.read(size - start)
        if start == 0 or block.count(b"\n") >= 2:
            return block
        length *= 4


def _first_line(file: BinaryIO) -> bytes:
    file.seek(0)
    line = b""
    while b"\n" not in line and (block := file.read(_BLOCK)):
        line += block
    return line.partition(b"\n")[0]


def _check_header(file: BinaryIO) -> None:
    try:
        header = load_line(_first_line(file).decode())
    except (ProblemsFound, UnicodeDecodeError):
        header = {}
    found = header.get("format")
    if header.get("kind") != GameOpened.kind or type(found) is not int:
        message = 'The first line is no "game_opened": the file is no log, or is empty.'
        raise ProblemsFound([Problem(code="not_a_log", message=message, fix="Open the game in a new file.", line=1)])
    if FORMATS.upgrade_from(found) is not None:
        message = f"The log is in format {found}, and entries are written in format {FORMAT}."
        raise ProblemsFound([Problem(code="old_format", message=message, fix="Upgrade it first.", line=1)])


def _last_event(line: bytes) -> Event:
    if line.endswith(b"\r"):
        message = "The last line ends in CR LF; expected LF alone."
        raise ProblemsFound([Problem(code="crlf", message=message, fix='Save the file with "Unix" line ends (LF).')])
    try:
        return event_from_line(line.decode())
    except UnicodeDecodeError:
        message = "The last line is not UTF-8."
        raise ProblemsFound([Problem(code="not_utf8", message=message, fix="Save the file as UTF-8.")]) from None
    except ProblemsFound as found:
        last = [evolve(problem, message=f"In the last line: {problem.message}") for problem in found.problems]
        raise ProblemsFound(last) from None
