"""Fields that say more than their type: counts, readings, times, what cannot be empty.

Each meaning is stated twice side by side: as the hook that reads the field, and in the words of a JSON Schema.
"""

from __future__ import annotations

import re
import typing
from collections.abc import Callable, Mapping
from datetime import datetime
from types import NoneType
from typing import Any

from attrs import frozen

from ..bounds import MOST_COUNT, MOST_FORMAT, MOST_MINUTES, MOST_PERIOD, MOST_SEQ, MOST_SKATERS
from ..clock import READING, BadReading, parse_reading
from .strict import Hook, WrongValue, number, whole_number

__all__ = ["Meaning", "meaning_of", "whole_text"]

_DAY = "(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|[12][0-9]))"
_TIME_OF_DAY = r"(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](?:\.[0-9]+)?"
_RFC3339_UTC = re.compile(rf"[0-9]{{4}}-{_DAY}T{_TIME_OF_DAY}(?:Z|\+00:00)", re.ASCII)


@frozen
class Meaning:
    """What a field says beyond its type.

    Attributes:
        hook: makes of the hook for the type alone the one that reads the field.
        schema: the same as keywords of a JSON Schema, as far as those can say it.
    """

    hook: Callable[[Hook], Hook]
    schema: Mapping[str, Any]


def whole_text(pattern: str, but_not: str = "") -> dict[str, Any]:
    """The keywords for a string that is `pattern` from its beginning to its end, and is not all `but_not`.

    ``$`` alone would let a newline follow where patterns are Python's.
    """
    refused = rf"\n|^(?:{but_not})$" if but_not else r"\n"
    return {"pattern": f"^(?:{pattern})$", "not": {"type": "string", "pattern": refused}}


def _may_be_absent(wanted: Any) -> bool:
    return NoneType in typing.get_args(wanted)


def _whole(least: int, most: int) -> Meaning:
    """A whole number from `least` to `most`."""

    def count(value: Any, wanted: Any) -> int | None:
        if type(value) is int and least <= value <= most:
            return value
        if value is None and _may_be_absent(wanted):
            return None
        if type(value) is int:
            raise _outside(value, least, f"a whole number from {least} to {most}")
        return whole_number(value, int)

    return Meaning(lambda _: count, {"minimum": least, "maximum": most})


def _outside(value: float, least: int, expected: str) -> WrongValue:
    return WrongValue("too_small" if value < least else "too_great", expected, value)


def _reading(value: Any, wanted: Any) -> str | None:
    try:
        parse_reading(value)
    except (BadReading, TypeError):
        if value is None and _may_be_absent(wanted):
            return None
        expected = "a reading as on the board, for example 7:42, 12:00 or 0:45.3"
        raise WrongValue("bad_reading", expected, value) from None
    return typing.cast(str, value)


def _utc(value: Any, wanted: Any) -> str | None:
    if value is None and _may_be_absent(wanted):
        return None
    if type(value) is not str or _RFC3339_UTC.fullmatch(value) is None or not _is_a_time(value):
        raise WrongValue("bad_time", "a time in UTC after RFC 3339, for example 2026-01-10T18:30:05Z", value)
    return value


def _is_a_time(text: str) -> bool:
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


def _minutes(value: Any, wanted: Any) -> float | None:
    if value is None and _may_be_absent(wanted):
        return None
    if not 0 <= number(value, float) <= MOST_MINUTES:
        raise _outside(value, 0, f"a number from 0 to {MOST_MINUTES}")
    return typing.cast(float, value)


def _not_empty(code: str, expected: str, fix: str) -> Callable[[Hook], Hook]:
    def not_empty(hook: Hook) -> Hook:
        def structure(value: Any, wanted: Any) -> Any:
            if not (made := hook(value, wanted)):
                raise WrongValue(code, expected, value, fix)
            return made

        return structure

    return not_empty


_some_part = _not_empty("empty_list", "at least one part", 'Write for example ["minor"].')
_some_change = _not_empty("no_changes", "at least one field with its new value", "Name it.")


_SEQ = _whole(1, MOST_SEQ)
_TOTAL = _whole(0, MOST_COUNT)
_ON_THE_ICE = _whole(0, MOST_SKATERS)
_READING = Meaning(lambda _: _reading, whole_text(READING))

_MEANINGS: Mapping[str, Meaning] = {
    **dict.fromkeys(("seq", "after", "target", "penalty", "ends"), _SEQ),
    "format": _whole(1, MOST_FORMAT),
    "period": _whole(1, MOST_PERIOD),
    **dict.fromkeys(("goals", "shots", "saves"), _TOTAL),
    "count": _whole(1, MOST_COUNT),
    **dict.fromkeys(("clock", "to", "announced"), _READING),
    "recorded_at": Meaning(lambda _: _utc, whole_text(_RFC3339_UTC.pattern)),
    "minutes": Meaning(lambda _: _minutes, {"minimum": 0, "maximum": MOST_MINUTES}),
    "parts": Meaning(_some_part, {"minItems": 1}),
    "changes": Meaning(_some_change, {"minProperties": 1}),
}
_SKATERS = ("home", "away")


def meaning_of(name: str, wanted: Any) -> Meaning | None:
    """What the field `name` with the annotation `wanted` says beyond its type; ``None`` for most.

    A name means the same in every kind, but for `home` and `away`: skaters where they are numbers, teams where they
    are not.
    """
    if name in _SKATERS:
        return _ON_THE_ICE if wanted is int else None
    return _MEANINGS.get(name)
