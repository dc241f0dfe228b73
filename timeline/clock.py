"""Readings and played time.

A *reading* is what the scoreboard shows, as a string: ``"7:42"``, ``"12:00"``, ``"0:45.3"``. The engine counts in
integer
*tenths of a second of played time*. Nothing here knows which way a board counts; `Ruleset.game.reading` says so and
`played_in_period` and `reading_in_period` apply it.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any, Literal

from .bounds import MOST_PERIOD

__all__ = [
    "READING",
    "READING_MOST",
    "BadReading",
    "Counting",
    "format_reading",
    "parse_moment",
    "parse_reading",
    "played_in_period",
    "reading_in_period",
]

Counting = Literal["remaining", "elapsed"]

READING = r"([0-9]{1,3}):([0-5][0-9])(?:\.([0-9]))?"
"""A reading as a pattern: minutes, seconds and perhaps a tenth."""

READING_MOST = 999 * 600 + 599
"""The longest that a reading can say, in tenths: 999:59.9."""

_READING = re.compile(READING, re.ASCII)
_MOMENT = re.compile(r"\s*(OT[0-9]{0,2}|[0-9]{1,2})\s+(\S+)\s*", re.ASCII | re.IGNORECASE)


_A_READING = "is not a reading: write it as on the board, for example 7:42, 12:00 or 0:45.3"
_A_MOMENT = "is not a period and a reading: write both, for example 2 7:42, or OT 3:10 in overtime"


class BadReading(ValueError):
    """A string that is not a reading, or not a period and a reading; the message says what was expected.

    Attributes:
        found: the string.
        why: what is wrong with it, and what to write.
    """

    def __init__(self, found: str, why: str = _A_READING) -> None:
        super().__init__(f"{found!r} {why}")
        self.found = found
        self.why = why

    def __reduce__(self) -> tuple[Any, ...]:
        """Made again from what was found, with the notes that were added to it."""
        added = {name: value for name, value in vars(self).items() if name not in ("found", "why")}
        return type(self), (self.found, self.why), added or None


@lru_cache(maxsize=16384)
def parse_reading(text: str) -> int:
    """Tenths of a second that the reading `text` stands for.

    >>> parse_reading("7:42"), parse_reading("0:45.3")
    (4620, 453)

    Raises:
        BadReading: `text` is not minutes, a colon, two digits of seconds and perhaps one digit of tenths.
    """
    match = _READING.fullmatch(text)
    if match is None:
        raise BadReading(text)
    minutes, seconds, tenths = match.groups()
    return int(minutes) * 600 + int(seconds) * 10 + int(tenths or 0)


def format_reading(tenths: int) -> str:
    """The reading for `tenths`; tenths are written only when they are not zero.

    >>> format_reading(4620), format_reading(453), format_reading(0)
    ('7:42', '0:45.3', '0:00')
    """
    minutes, rest = divmod(tenths, 600)
    seconds, tenth = divmod(rest, 10)
    return f"{minutes}:{seconds:02d}.{tenth}" if tenth else f"{minutes}:{seconds:02d}"


def played_in_period(reading: int, length: int, counting: Counting) -> int:
    """Tenths played in a period of `length` tenths when the board shows `reading`.

    Outside readings count as its ends.
    """
    played = length - reading if counting == "remaining" else reading
    return min(max(played, 0), length)


def reading_in_period(played: int, length: int, counting: Counting) -> str:
    """What the board shows when `played` tenths of a period of `length` tenths are over.

    >>> reading_in_period(1800, 9000, "remaining")
    '12:00'
    """
    return format_reading(length - played if counting == "remaining" else played)


def parse_moment(text: str, regulation_periods: int) -> tuple[int, str]:
    """Period and reading of a game time as people write it: ``"2 7:42"``, ``"OT 3:10"``, ``"4 3:10"``.

    >>> parse_moment("OT 3:10", 3)
    (4, '3:10')

    Raises:
        BadReading: `text` is not a period that a log can hold and a reading.
    """
    match = _MOMENT.fullmatch(text)
    if match is None or _READING.fullmatch(match[2]) is None:
        raise BadReading(text, _A_MOMENT)
    written, reading = match.groups()
    in_overtime = written.upper().startswith("OT")
    period = regulation_periods + int(written[2:] or 1) if in_overtime else int(written)
    if period > MOST_PERIOD:
        raise BadReading(text, _A_MOMENT)
    return period, reading
