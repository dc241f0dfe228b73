"""Readings as they are typed: ``9:15``, ``915``, ``9.15``, ``9,15``, ``58``, ``45.3``.

A comma is the point of a number pad, and a semicolon a colon without its shift key.
"""

from __future__ import annotations

import re

from ...timeline.clock import BadReading, parse_reading
from .tokens import Cursor, Token, quote
from .words import UNITS, VERBS

__all__ = [
    "is_full",
    "looks_like_reading",
    "read_length",
    "read_reading",
    "typed_length",
    "typed_reading",
    "write_reading",
]

_FULL = re.compile(r"([0-9]{0,3}):([0-9]{2}(\.[0-9])?)", re.ASCII)
_DOTTED = re.compile(r"([0-9]{1,3})\.([0-9]{2})", re.ASCII)
_BARE = re.compile(r"([0-9]{0,3}?)([0-9]{2})(\.[0-9])?", re.ASCII)
_TENTHS = re.compile(r"([0-9]?)\.([0-9])", re.ASCII)
_LIKE = re.compile(r"[.,:;]?[0-9][0-9:;.,\s]*", re.ASCII)
_ENDS = frozenset(phrase.split()[0] for phrase in VERBS["end period"])
_PLAIN = str.maketrans(",;", ".:")

_EXPECTED = "a reading as on the board, such as 9:15, 915, 9.15, 58 or 45.3"


def looks_like_reading(token: Token | None) -> bool:
    """Whether the word was meant as a number of some kind."""
    return token is not None and not token.quoted and _LIKE.fullmatch(token.text) is not None


def typed_reading(text: str) -> str | None:
    """The reading that `text` stands for, or None; what already is a reading stays as it is.

    >>> [typed_reading(text) for text in ("9:15", "915", "9,15", "58", "45.3", ".5", "75", "3")]
    ['9:15', '9:15', '9:15', '0:58', '0:45.3', '0:00.5', None, None]
    """
    reading = _in_full(_plain(text))
    try:
        parse_reading(reading)
    except BadReading:
        return None
    return reading


def _in_full(text: str) -> str:
    if match := _DOTTED.fullmatch(text):
        return f"{int(match[1])}:{match[2]}"
    if match := _TENTHS.fullmatch(text):
        return f"0:0{match[1] or 0}.{match[2]}"
    if match := _FULL.fullmatch(text):
        return f"{match[1] or 0}:{match[2]}"
    if match := _BARE.fullmatch(text):
        return f"{int(match[1] or 0)}:{match[2]}{match[3] or ''}"
    return text


def is_full(token: Token | None) -> bool:
    """Whether the word is a reading as on the board, with its colon."""
    return token is not None and not token.quoted and _FULL.fullmatch(_plain(token.text)) is not None


def is_written_out(token: Token | None) -> bool:
    """Whether the word can hardly be anything but a reading: minutes and seconds, with a colon or a point."""
    return is_full(token) or (token is not None and _DOTTED.fullmatch(_plain(token.text)) is not None)


def _plain(text: str) -> str:
    return "".join(text.translate(_PLAIN).split())


def read_reading(cursor: Cursor) -> str:
    """The reading that stands here."""
    token = cursor.peek()
    reading = typed_reading(token.text) if token else None
    if token is None or reading is None:
        cursor.fail(_EXPECTED, _likely_readings(cursor, token), code="entry_reading")
    cursor.skip()
    return reading


def _likely_readings(cursor: Cursor, token: Token | None) -> tuple[str, ...]:
    """A lone digit may be seconds, or the period; two digits above 59 may be seconds that make a minute.

    Before the end of a period it is the period.
    """
    if token is None or not re.fullmatch("[0-9]{1,2}", token.text, re.ASCII):
        return ()
    minutes, seconds = divmod(int(token.text), 60)
    reading = cursor.with_here(f"{minutes}:{seconds:02d}", instead_of=1)
    if cursor.position:
        return (reading,)
    period = cursor.with_here(f"period {token.text}", instead_of=1)
    return (period,) if cursor.word(1) in _ENDS else (reading, period)


def write_reading(reading: str) -> str:
    """`reading` as an entry has it; whatever is none is quoted."""
    return reading if typed_reading(reading) == reading else quote(reading)


def typed_length(text: str) -> str | None:
    """A length as it is announced: bare figures of one or two digits are minutes.

    >>> typed_length("2"), typed_length("130"), typed_length("1:30")
    ('2:00', '1:30', '1:30')
    """
    return f"{text}:00" if re.fullmatch("[0-9]{1,2}", text, re.ASCII) else typed_reading(text)


def read_length(cursor: Cursor) -> str:
    """The announced length that stands here; a quoted text is taken as it is."""
    token = cursor.peek()
    length = (token.text if token.quoted else typed_length(token.text)) if token else None
    if token is None or length is None:
        cursor.fail("the length that was announced, such as 2:00", code="entry_reading")
    cursor.skip()
    if token.word.isdecimal() and not cursor.word(1).isdecimal():
        cursor.accept(UNITS)
    return length
