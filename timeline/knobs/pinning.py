"""The ruleset as plain data, pinned whole into a log when the game is opened.

The pinned form is ``{"name", "title", "knobs": {dotted name: value as written}, "sources": {dotted name: source},
"infractions": [words]}``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from attrs import evolve, frozen

from ..problems import Problem, ProblemsFound
from ..rules import KNOBS, Ruleset
from ..wording import show
from .combinations import impossible_combinations
from .values import as_written, read_values, with_values

__all__ = ["PARTS", "PinnedPart", "pin", "unpin"]

_LATER = "not pinned: the engine's own value"


def pin(rules: Ruleset) -> dict[str, Any]:
    """`rules` whole, as plain data for the first line of a log; `unpin` makes the same ruleset of it.

    >>> pin(Ruleset(name="ours"))["knobs"]["lengths.minor"]
    '2:00'

    Raises:
        ProblemsFound: a value in it is none, so that nothing could be made of it again.
    """
    from .checking import right_rules

    right_rules(rules)
    return {
        "name": rules.name,
        "title": rules.title,
        "knobs": as_written(rules),
        "sources": dict(rules.sources),
        "infractions": list(rules.infractions),
    }


def unpin(pinned: Mapping[str, Any]) -> Ruleset:
    """The ruleset that was `pinned`; a knob that it lacks, since a later release added it, has the engine's own value.

    Raises:
        ProblemsFound: what is wrong with it, each with a field such as ``pinned.knobs.lengths.minor``.
    """
    problems = list(_wrong_shape(pinned))
    if problems:
        raise ProblemsFound(problems)
    values, problems = read_values(pinned["knobs"])
    rules = with_values(Ruleset(), values)
    problems = problems or list(impossible_combinations(rules))
    if problems:
        raise ProblemsFound(map(_in_pinned, problems))
    return evolve(
        rules,
        name=pinned["name"],
        title=pinned.get("title", ""),
        sources={**{name: _LATER for name in KNOBS if name not in values}, **pinned.get("sources", {})},
        infractions=tuple(pinned.get("infractions", ())),
    )


def _in_pinned(problem: Problem) -> Problem:
    fix = problem.fix
    if problem.code == "unknown_knob":
        fix = f"{fix} If a newer release wrote the log, read it with that one.".strip()
    return evolve(problem, fix=fix, field=f"pinned.knobs.{problem.field}")


def _wrong_shape(pinned: Mapping[str, Any]) -> Iterator[Problem]:
    """Check that `pinned` has what a pinned ruleset needs, each of its type, and nothing else."""
    for name, part in PARTS.items():
        if part.needed and name not in pinned:
            message = "The field is missing; a pinned ruleset needs it."
            yield Problem(code="missing_field", message=message, field=f"pinned.{name}")
    for name, value in pinned.items():
        if name not in PARTS:
            message, fix = "A pinned ruleset has no such field.", f"It has {', '.join(PARTS)}."
            yield Problem(code="unknown_field", message=message, fix=fix, field=f"pinned.{name}")
            continue
        if not PARTS[name].fits(value):
            message = f"Expected {PARTS[name].expected}, found {show(value)}."
            yield Problem(code="wrong_type", message=message, field=f"pinned.{name}")


def _is_text(value: Any) -> bool:
    return type(value) is str


def _is_object(value: Any) -> bool:
    return isinstance(value, Mapping)


def _is_words(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str) and all(map(_is_text, value))


def _is_sources(value: Any) -> bool:
    return _is_object(value) and _is_words(tuple(value.values()))


_TEXT = {"type": "string"}


@frozen(kw_only=True)
class PinnedPart:
    """One part of the pinned form.

    Attributes:
        means: what it says, in words.
        expected: what it is, in words.
        fits: whether a value can be it.
        schema: the same as a JSON Schema; the knobs in it are described with the knobs.
    """

    means: str
    expected: str
    fits: Callable[[Any], bool]
    schema: Mapping[str, Any]
    needed: bool = False


PARTS: Mapping[str, PinnedPart] = {
    "name": PinnedPart(
        means="the name it was found under.", expected="a string", fits=_is_text, schema=_TEXT, needed=True
    ),
    "title": PinnedPart(means="one line for people.", expected="a string", fits=_is_text, schema=_TEXT),
    "knobs": PinnedPart(
        means="every rule by its dotted name.",
        expected="an object of knobs by their dotted names",
        fits=_is_object,
        schema={"type": "object"},
        needed=True,
    ),
    "sources": PinnedPart(
        means="where the value of a rule comes from, by its dotted name.",
        expected="an object of strings",
        fits=_is_sources,
        schema={"type": "object", "additionalProperties": _TEXT},
    ),
    "infractions": PinnedPart(
        means="the words offered for what a penalty is for.",
        expected="a list of strings",
        fits=_is_words,
        schema={"type": "array", "items": _TEXT},
    ),
}
"""Every part of the pinned form, by its name."""
