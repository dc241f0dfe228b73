"""Fields that say more than their type: counts, readings, times, lists that cannot be empty."""

from __future__ import annotations

import re
import typing
from collections.abc import Callable, Mapping
from datetime import datetime
from types import NoneType
from typing import Any

from ..clock import BadReading, parse_reading
from .strict import Hook, WrongValue, number, whole_number

__all__ = ["FIELD_HOOKS"]

_RFC3339_UTC = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|\+00:00)", re.ASCII)


def _may_be_absent(wanted: Any) -> bool:
    return NoneType in typing.get_args(wanted)


def _at_least(least: int) -> Hook:
    def count(value: Any, wanted: Any) -> int | None:
        if type(value) is int and value >= least:
            return value
        if value is None and _may_be_absent(wanted):
            return None
        if type(value) is int:
            raise WrongValue("too_small", f"a whole number from {least} up", value)
        return whole_number(value, int)

    return count


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
    if number(value, float) < 0:
        raise WrongValue("too_small", "a number from 0 up", value)
    return typing.cast(float, value)


def _not_empty(hook: Hook) -> Hook:
    def structure(value: Any, wanted: Any) -> Any:
        if not (made := hook(value, wanted)):
            raise WrongValue("empty_list", "at least one part", value, 'Write for example ["minor"].')
        return made

    return structure


_FROM_ONE, _FROM_ZERO = _at_least(1), _at_least(0)

FIELD_HOOKS: Mapping[str, Callable[[Hook], Hook]] = {
    **dict.fromkeys(("seq", "period", "after", "target", "penalty", "ends", "count", "format"), lambda _: _FROM_ONE),
    **dict.fromkeys(("goals", "shots", "saves"), lambda _: _FROM_ZERO),
    **dict.fromkeys(("clock", "to", "announced"), lambda _: _reading),
    **dict.fromkeys(("home", "away"), lambda plain: _FROM_ZERO if plain is whole_number else plain),
    "recorded_at": lambda _: _utc,
    "minutes": lambda _: _minutes,
    "parts": _not_empty,
}
"""Fields that say more than their type, by name. A name means the same in every kind, but for `home` and `away`:
skaters where they are numbers, teams where they are not."""
