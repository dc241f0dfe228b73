"""A knob's value as it is written in files and logs, and as the engine holds it.

Lengths are written as readings (``"2:00"``) and held as tenths of a second; everything else is written as it is held.
Reading is strict: ``2.0`` is no count, ``1`` is no true, and a length is never a number.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import attrs

from ..clock import BadReading, format_reading, parse_reading
from ..problems import Problem, ProblemsFound
from ..rules import KNOBS, Knob, Ruleset, knob_value
from ..wording import choices, closest, did_you_mean, show

__all__ = ["BadValue", "as_written", "read_value", "read_values", "unknown_knob", "with_values", "written"]


_MOST_MINUTES = 20  # a length above is more likely meant in seconds


class BadValue(Exception):
    """A value that a knob cannot have; `problem` has no file yet, and the knob as its field."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def written(value: Any, knob: Knob | str) -> Any:
    """`value`, a value of `knob` in its unit, as files and logs write it.

    >>> written(900, "lengths.minor"), written(5, "ice.skaters")
    ('1:30', 5)

    Raises:
        ProblemsFound: there is no knob of this name.
    """
    if isinstance(knob, str):
        if knob not in KNOBS:
            raise ProblemsFound([unknown_knob(knob)])
        knob = KNOBS[knob]
    return format_reading(value) if knob.unit == "length" else value


def as_written(rules: Ruleset) -> dict[str, Any]:
    """Every knob of `rules` by its dotted name, as files and logs write it."""
    return {name: written(knob_value(rules, name), knob) for name, knob in KNOBS.items()}


def read_value(knob: Knob, raw: Any) -> Any:
    """The value that `raw` stands for, in the engine's units.

    Raises:
        BadValue: `raw` is of a wrong type, no reading, none of the choices, too small or too great.
    """
    if knob.unit == "length":
        value = _length(knob, raw)
    elif knob.unit == "yes or no":
        return _yes_or_no(knob, raw)
    elif knob.unit == "choice":
        return _choice(knob, raw)
    else:
        value = _number(knob, raw)
    _check_range(knob, value)
    return value


def _bad(knob: Knob, code: str, expected: str, raw: Any, fix: str = "") -> BadValue:
    return BadValue(Problem(code=code, message=f"Expected {expected}, found {show(raw)}.", fix=fix, field=knob.name))


def _length(knob: Knob, raw: Any) -> int:
    expected = 'a length as a reading such as "2:00"'
    if type(raw) is not str:
        raise _bad(knob, "wrong_type", expected, raw, _as_reading(raw))
    try:
        return parse_reading(raw)
    except BadReading:
        raise _bad(knob, "bad_reading", expected, raw, "Write minutes, a colon and two figures of seconds.") from None


def _as_reading(raw: Any) -> str:
    if type(raw) in (int, float) and 0 < raw < 1000:
        unit, tenths = ("minutes", 600) if raw <= _MOST_MINUTES else ("seconds", 10)
        return f'If {unit} are meant, write "{format_reading(round(raw * tenths))}".'
    return "Write minutes, a colon and two figures of seconds, in quotation marks."


def _yes_or_no(knob: Knob, raw: Any) -> bool:
    if type(raw) is bool:
        return raw
    raise _bad(knob, "wrong_type", "true or false", raw, "Write true or false, without quotation marks.")


def _choice(knob: Knob, raw: Any) -> str:
    if type(raw) is not str:
        raise _bad(knob, "wrong_type", choices(knob.values), raw)
    if raw not in knob.values:
        raise _bad(knob, "unknown_value", choices(knob.values), raw, did_you_mean(raw, knob.values))
    return raw


def _number(knob: Knob, raw: Any) -> int:
    if type(raw) is int:
        return raw
    whole = type(raw) is float and raw.is_integer()
    raise _bad(knob, "wrong_type", "a whole number", raw, f"Write {raw:.0f}." if whole else "")


def _check_range(knob: Knob, value: int) -> None:
    shown = written(value, knob) if knob.unit == "length" else show(value)
    if value < knob.least:
        message = f"{shown} is too small; the least that makes sense is {written(knob.least, knob)}."
    elif knob.most is not None and value > knob.most:
        message = f"{shown} is too great; the most that makes sense is {written(knob.most, knob)}."
    else:
        return
    raise BadValue(Problem(code="out_of_range", message=message, field=knob.name))


def read_values(raw: Mapping[str, Any]) -> tuple[dict[str, Any], list[Problem]]:
    """Values by dotted names in the engine's units, and what is wrong with the others."""
    values: dict[str, Any] = {}
    problems: list[Problem] = []
    for name, each in raw.items():
        knob = KNOBS.get(name)
        if knob is None:
            problems.append(unknown_knob(name))
            continue
        try:
            values[name] = read_value(knob, each)
        except BadValue as bad:
            problems.append(bad.problem)
    return values, problems


def unknown_knob(name: str) -> Problem:
    """The problem of a dotted name that is no knob."""
    inside = _below(name)
    message = "This is a table, not a knob." if inside else "There is no such knob."
    fix = f"Its knobs are {', '.join(inside)}." if inside else _meant(name)
    return Problem(code="unknown_knob", message=message, fix=fix, field=name)


def _below(table: str) -> list[str]:
    return [knob for knob in KNOBS if knob.startswith(f"{table}.")]


def _meant(name: str) -> str:
    """What to write for `name`: the same key of another table, one spelled nearly so, or else what there is."""
    table, _, key = name.rpartition(".")
    keys = {knob: knob.rpartition(".")[2] for knob in KNOBS}
    same = [knob for knob in keys if keys[knob] == key]
    if same:
        return f"Did you mean {choices(same)}?"
    for group in (_below(table), list(KNOBS)):
        near = closest(key, (keys[knob] for knob in group))
        if near:
            return f"Did you mean {choices(knob for knob in group if keys[knob] == near)}?"
    return f"The knobs of {table} are {', '.join(_below(table))}." if _below(table) else f"The tables are {_tables()}."


def _tables() -> str:
    return ", ".join(dict.fromkeys(name.rpartition(".")[0] for name in KNOBS))


def with_values(rules: Ruleset, values: Mapping[str, Any]) -> Ruleset:
    """`rules` with knobs set; `values` by dotted names, in the engine's units."""
    return _set(rules, values.items())  # type: ignore[no-any-return]


def _set(group: Any, values: Iterable[tuple[str, Any]]) -> Any:
    own: dict[str, Any] = {}
    inner: dict[str, list[tuple[str, Any]]] = {}
    for name, value in values:
        head, dot, rest = name.partition(".")
        if dot:
            inner.setdefault(head, []).append((rest, value))
        else:
            own[head] = value
    own |= {head: _set(getattr(group, head), below) for head, below in inner.items()}
    return attrs.evolve(group, **own)
