"""A file's bytes in lines, with what is wrong about the lines themselves: ends, marks, gaps, a torn tail."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ..problems import Problem, ProblemsFound
from .json_line import is_whole_object

__all__ = ["Lines", "split_lines"]

_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_UTF16_MARKS = (b"\xff\xfe", b"\xfe\xff")


@frozen
class Lines:
    """The lines of a file.

    Attributes:
        numbered: each line that is not empty, with its number from 1 and without its newline.
        problems: what is wrong with the lines.
        notes: a torn tail.
    """

    numbered: tuple[tuple[int, bytes], ...]
    problems: tuple[Problem, ...]
    notes: tuple[Problem, ...]


def split_lines(data: bytes) -> Lines:
    """The lines of the file `data`."""
    problems = list(_marks(data))
    lines = data.removeprefix(_BYTE_ORDER_MARK).split(b"\n")
    torn = _torn_tail(lines)
    if any(line.endswith(b"\r") for line in lines):
        problems.append(_carriage_returns(lines))
        lines = [line.removesuffix(b"\r") for line in lines]
    if not lines:
        problems.append(_empty_file(torn))
    problems += [_empty_line(number) for number, line in enumerate(lines, 1) if not line.strip()]
    numbered = tuple((number, line) for number, line in enumerate(lines, 1) if line.strip())
    return Lines(numbered, tuple(problems), tuple(torn))


def _torn_tail(lines: list[bytes]) -> list[Problem]:
    """Take what follows the last newline off `lines`, unless it is a whole object; what is to be said about it."""
    tail = lines[-1]
    if tail and is_whole_object(tail):
        return []
    lines.pop()
    return [_torn(tail, len(lines) + 1)] if tail else []


def _torn(tail: bytes, number: int) -> Problem:
    return Problem(
        code="torn_tail",
        severity="note",
        message=f"The last {len(tail)} bytes are the beginning of a line that was never finished, and are left out.",
        fix="The next entry moves them to a file beside the log.",
        line=number,
    )


def _marks(data: bytes) -> Iterator[Problem]:
    if data.startswith(_UTF16_MARKS):
        message = "The file is UTF-16; expected UTF-8."
        raise ProblemsFound([Problem(code="not_utf8", message=message, fix="Save it as UTF-8.", line=1)])
    if data.startswith(_BYTE_ORDER_MARK):
        message = "The file begins with a byte order mark."
        yield Problem(code="byte_order_mark", message=message, fix='Save it as UTF-8 without "BOM".', line=1)


def _carriage_returns(lines: list[bytes]) -> Problem:
    first = next(number for number, line in enumerate(lines, 1) if line.endswith(b"\r"))
    count = sum(line.endswith(b"\r") for line in lines)
    return Problem(
        code="crlf",
        message=f"{count} of {len(lines)} lines end in CR LF, this one first; expected LF alone.",
        fix='Save the file with "Unix" line ends (LF).',
        line=first,
    )


def _empty_file(torn: list[Problem]) -> Problem:
    found = "only the beginning of a line" if torn else "nothing"
    message = f"The file holds {found}; expected a game_opened in line 1."
    return Problem(code="empty_file", message=message, fix="Open the game anew.", line=1)


def _empty_line(number: int) -> Problem:
    return Problem(code="empty_line", message="The line is empty.", fix="Take it out.", line=number)
