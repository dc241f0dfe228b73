"""Check a ruleset that was made in Python: by the same bounds and choices as a file, in the engine's units.

A file and a pinned copy are checked as they are read; a `Ruleset` that a program puts together is checked where it
comes to a door: a game that is opened or replayed by it, a log in which it is pinned, a package that offers it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from weakref import WeakValueDictionary

from ..clock import READING_MOST, BadReading, format_reading, parse_reading
from ..problems import Problem, ProblemsFound
from ..rules import KNOBS, Knob, Ruleset, knob_value
from ..wording import show
from .combinations import impossible_combinations
from .pinning import PARTS
from .values import BadValue, read_value

__all__ = ["check_rules", "right_rules"]

_RIGHT: WeakValueDictionary[int, Ruleset] = WeakValueDictionary()  # by identity: they are frozen, and checked once
_WORDS = ("name", "title", "sources", "infractions")


def right_rules(rules: Ruleset) -> Ruleset:
    """`rules`, after a look at each of their values; a second look at the same ones costs nothing.

    Raises:
        ProblemsFound: every value that is none, or what does not go together, by the knobs' dotted names.
        TypeError: it is no `Ruleset`.
    """
    if _RIGHT.get(id(rules)) is not rules:
        if problems := check_rules(rules):
            raise ProblemsFound(problems)
        _RIGHT[id(rules)] = rules
    return rules


def check_rules(rules: Ruleset) -> list[Problem]:
    """Everything that is wrong with the values of `rules`.

    Raises:
        TypeError: it is no `Ruleset`.
    """
    if not isinstance(rules, Ruleset):
        raise TypeError(f"Expected a Ruleset, found {show(rules)}; rulesets.load(name) gives one.")
    problems = [*_wrong_words(rules), *_wrong_values(rules)]
    return problems or list(impossible_combinations(rules))


def _wrong_words(rules: Ruleset) -> Iterator[Problem]:
    for name in _WORDS:
        part, value = PARTS[name], getattr(rules, name)
        if not part.fits(value):
            message = f"Expected {part.expected}, found {show(value)}."
            yield Problem(code="wrong_type", message=message, field=name)


def _wrong_values(rules: Ruleset) -> Iterator[Problem]:
    for name, knob in KNOBS.items():
        try:
            value = knob_value(rules, name)
        except AttributeError:
            group = name.rpartition(".")[0]
            message = f"Expected the group of knobs {group}, found {show(getattr(rules, group, None))}."
            yield Problem(code="wrong_type", message=message, field=name)
            continue
        try:
            read_value(knob, _length(knob, value) if knob.unit == "length" else value)
        except BadValue as bad:
            yield bad.problem


def _length(knob: Knob, value: Any) -> str:
    """A length as files write it.

    Raises:
        BadValue: it is no number of tenths, or none that can be written.
    """
    if type(value) is not int:
        message = f"Expected tenths of a second as a whole number, found {show(value)}."
        raise BadValue(Problem(code="wrong_type", message=message, fix=_in_tenths(value), field=knob.name))
    if not knob.least <= value <= READING_MOST:
        bounds = f"from {knob.least} ({format_reading(knob.least)}) to {READING_MOST} ({format_reading(READING_MOST)})"
        message = f"Expected tenths of a second {bounds}, found {value}."
        raise BadValue(Problem(code="out_of_range", message=message, field=knob.name))
    return format_reading(value)


def _in_tenths(value: Any) -> str:
    try:
        return f"Write {parse_reading(value)}."
    except (BadReading, TypeError):
        return ""
