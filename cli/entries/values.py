"""How the value of a field is read from an entry, and written into one."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

from attrs import frozen

from .readings import read_length, read_reading, write_reading
from .tokens import Cursor, Refused, quote, read_json
from .words import CHOICES, FILLERS, NET_EMPTY, TO_COME

__all__ = [
    "COUNT",
    "GOALIE",
    "INT",
    "JSON",
    "KNOWN_NUMBER",
    "LENGTH",
    "MINUTES",
    "NUMBER",
    "NUMBERS",
    "READING",
    "SEQ",
    "SIGNED_LIST",
    "Value",
    "choice",
    "is_number",
    "last_entry",
    "write_seq",
]

_NUMBER = re.compile(r"([0-9]+),?", re.ASCII)
_JOINED = re.compile(r"[0-9]+(?:[/+&,][0-9]+)+,?", re.ASCII)
_INT = re.compile(r"-?[0-9]{1,18}", re.ASCII)
_SEQ = re.compile(r"#?([0-9]{1,18})", re.ASCII)
_COUNT = re.compile(r"[x×]?([0-9]{1,18})", re.ASCII)
_FLOAT = re.compile(r"-?[0-9]+(\.[0-9]+)?(e[+-]?[0-9]+)?", re.ASCII)


@frozen
class Value:
    """A kind of value: `read` takes it from a cursor, or fails there; `write` makes the text that `read` takes."""

    read: Callable[[Cursor], Any]
    write: Callable[[Any], str]


def is_number(cursor: Cursor) -> bool:
    """Whether a jersey number, or ``?``, stands here."""
    token = cursor.peek()
    return token is not None and (token.quoted or token.text == TO_COME or _NUMBER.fullmatch(token.text) is not None)


def _read_number(cursor: Cursor) -> str | None:
    if not is_number(cursor):
        wrong = cursor.word()
        tries = [cursor.with_here(wrong[1:], instead_of=1)] if wrong[:1] == "#" else [cursor.with_here(TO_COME)]
        cursor.fail("a jersey number, or ? for a number to come", tries, code="entry_number")
    token = cursor.tokens[cursor.position]
    cursor.skip()
    if token.quoted:
        return token.text
    return None if token.text == TO_COME else token.text.rstrip(",")


def _write_number(number: str | None) -> str:
    if number is None:
        return TO_COME
    return number if re.fullmatch("[0-9]+", number, re.ASCII) else quote(number)


def _read_known_number(cursor: Cursor) -> str:
    if cursor.word() == TO_COME:
        cursor.fail("a jersey number that is known", code="entry_number")
    number = _read_number(cursor)
    assert number is not None
    return number


def _read_numbers(cursor: Cursor) -> tuple[str, ...]:
    numbers = _read_joined(cursor)
    while _more_numbers(cursor):
        numbers += _read_joined(cursor)
    return tuple(numbers)


def _read_joined(cursor: Cursor) -> list[str]:
    """A number, or several without blanks: ``16/18``."""
    if _JOINED.fullmatch(cursor.word()):
        cursor.skip()
        return re.findall("[0-9]+", cursor.word(-1), re.ASCII)
    return [_read_known_number(cursor)]


def _more_numbers(cursor: Cursor) -> bool:
    """Whether another number follows; goes past the word between them."""
    between = int(cursor.word() in FILLERS["and"])
    cursor.skip(between)
    more = (is_number(cursor) and cursor.word() != TO_COME) or _JOINED.fullmatch(cursor.word()) is not None
    cursor.skip(0 if more else -between)
    return more


def _read_goalie(cursor: Cursor) -> str | None:
    if cursor.accept(NET_EMPTY):
        return None
    if not is_number(cursor) or cursor.word() == TO_COME:
        tries = () if cursor.peek() else (cursor.with_here("out"),)
        cursor.fail("the goalkeeper's number, or out for an empty net", tries, code="entry_number")
    return _read_number(cursor)


def _read_seq(cursor: Cursor) -> int:
    if cursor.word() == "last":
        cursor.skip()
        return last_entry(cursor)
    return int(_matched(cursor, _SEQ, "the number of an entry, such as 23, or last", "entry_target"))


def last_entry(cursor: Cursor) -> int:
    """The entry before this one."""
    if cursor.context.last_seq is None:
        raise Refused("There is no entry before this one.", "entry_target", remedy="Nothing has to be put right yet.")
    return cursor.context.last_seq


def write_seq(seq: int) -> str:
    """`seq` as an entry names another."""
    return f"#{seq}"


def _matched(cursor: Cursor, pattern: re.Pattern[str], expected: str, code: str = "entry_number") -> str:
    token = cursor.peek()
    match = pattern.fullmatch(token.word) if token else None
    if match is None:
        cursor.fail(expected, code=code)
    cursor.skip()
    return match[match.lastindex or 0]


def _read_minutes(cursor: Cursor) -> float:
    token = cursor.word()
    if not _FLOAT.fullmatch(token):
        cursor.fail("a number of minutes, such as 4", code="entry_number")
    cursor.skip()
    return int(token) if _INT.fullmatch(token) else float(token)


def _read_signed_list(cursor: Cursor) -> tuple[str, ...]:
    names = read_json(cursor, 'names, such as ["Jo Hale", "Kim Rask"]')
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        cursor.fail('names, such as ["Jo Hale", "Kim Rask"]', code="entry_json")
    return tuple(names)


def _write_json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def choice(field: str) -> Value:
    """One of the closed list of values that `field` can have."""
    words = CHOICES[field]

    def read(cursor: Cursor) -> str:
        for value, phrases in words.items():
            if cursor.accept(phrases):
                return value
        cursor.fail(", ".join(words), [cursor.with_here(value) for value in words])

    return Value(read, str)


NUMBER = Value(_read_number, _write_number)
"""A jersey number, or ``?``."""
KNOWN_NUMBER = Value(_read_known_number, _write_number)
"""A jersey number that is known."""
NUMBERS = Value(_read_numbers, lambda numbers: " ".join(map(_write_number, numbers)))
"""One jersey number or more."""
GOALIE = Value(_read_goalie, lambda number: NET_EMPTY[0] if number is None else _write_number(number))
"""A jersey number, or the words for an empty net."""
SEQ = Value(_read_seq, write_seq)
"""Another entry, by its number, with or without ``#``."""
INT = Value(lambda cursor: int(_matched(cursor, _INT, "a whole number")), str)
"""A whole number."""
COUNT = Value(lambda cursor: int(_matched(cursor, _COUNT, "how many, such as x3")), lambda count: f"x{count}")
"""How many times."""
MINUTES = Value(_read_minutes, lambda minutes: repr(minutes).removesuffix(".0"))
"""Penalty minutes."""
READING = Value(read_reading, write_reading)
"""A reading, long or short."""
LENGTH = Value(read_length, write_reading)
"""A length as it is announced."""
SIGNED_LIST = Value(_read_signed_list, _write_json)
"""Several names, as a JSON list."""
JSON = Value(lambda cursor: read_json(cursor, "a JSON value"), _write_json)
"""Any JSON value."""
