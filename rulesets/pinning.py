"""The ruleset inside a log: pinned whole when the game is opened, or named and set.

The pinned form is plain data: ``{"name", "title", "knobs": {dotted name: value as written}, "sources": {dotted name: source},
"infractions": [words]}``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Protocol

from attrs import evolve

from ..timeline.events import Amend, Event, GameOpened
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.rules import KNOBS, Ruleset
from .combinations import impossible_combinations
from .library import load, with_settings
from .places import is_path
from .telling import show
from .values import as_written, read_values, with_values

__all__ = ["RecordedGame", "effective_header", "of", "pin", "unpin"]

_RULES = ("ruleset", "settings", "pinned")
_LATER = "not pinned: the engine's own value"


class RecordedGame(Protocol):
    """What `of` needs of a log: its first line, and all its events in the order written."""

    @property
    def header(self) -> GameOpened:
        """The first line."""

    @property
    def events(self) -> Sequence[Event]:
        """Every event, the first line included."""


def pin(rules: Ruleset) -> dict[str, Any]:
    """`rules` whole, as plain data for the first line of a log."""
    return {
        "name": rules.name,
        "title": rules.title,
        "knobs": as_written(rules),
        "sources": dict(rules.sources),
        "infractions": list(rules.infractions),
    }


def unpin(pinned: Mapping[str, Any]) -> Ruleset:
    """The ruleset that was pinned; a knob that it does not have, since a later release added it, keeps the engine's own value.

    Raises:
        ProblemsFound: what is wrong with it, each with a field such as ``pinned.knobs.lengths.minor``.
    """
    problems = list(_wrong_shape(pinned))
    rules = Ruleset()
    if not problems:
        values, wrong = read_values(pinned["knobs"])
        rules = with_values(rules, values)
        problems = [_in_pinned(each) for each in wrong or impossible_combinations(rules)]
    if problems:
        raise ProblemsFound(problems)
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
    for name in ("name", "knobs"):
        if name not in pinned:
            message = "The field is missing; a pinned ruleset needs it."
            yield Problem(code="missing_field", message=message, field=f"pinned.{name}")
    for name, value in pinned.items():
        expected, fits = _SHAPE.get(name, ("", None))
        if fits is None:
            fix = f"It has {', '.join(_SHAPE)}."
            yield Problem(
                code="unknown_field", message="A pinned ruleset has no such field.", fix=fix, field=f"pinned.{name}"
            )
        elif not fits(value):
            message = f"Expected {expected}, found {show(value)}."
            yield Problem(code="wrong_type", message=message, field=f"pinned.{name}")


def _is_words(value: Any) -> bool:
    return isinstance(value, Sequence) and type(value) is not str and all(type(each) is str for each in value)


def _is_sources(value: Any) -> bool:
    return isinstance(value, Mapping) and _is_words(tuple(value.values()))


_SHAPE: Mapping[str, tuple[str, Callable[[Any], bool]]] = {
    "name": ("a string", lambda value: type(value) is str),
    "title": ("a string", lambda value: type(value) is str),
    "knobs": ("an object of knobs by their dotted names", lambda value: isinstance(value, Mapping)),
    "sources": ("an object of strings", _is_sources),
    "infractions": ("a list of strings", _is_words),
}


def effective_header(log: RecordedGame) -> GameOpened:
    """The first line as it counts, with its amendments; `pinned` is None where the rules were amended and not pinned anew."""
    amendments = [event for event in log.events if event.kind == Amend.kind]
    if not amendments:
        return log.header
    from ..timeline.script.corrections import Corrections

    corrections = Corrections(log.events)
    header = corrections.standing(log.header.seq).event
    if not isinstance(header, GameOpened):
        return log.header
    counting = [corrections.standing(event.seq).event for event in amendments]
    return evolve(header, pinned=None) if _is_stale(counting, header.seq) else header


def _is_stale(amendments: Iterable[Event | None], target: int) -> bool:
    """Whether the last amendment that touches the rules of `target` did not pin them."""
    stale = False
    for each in amendments:
        if isinstance(each, Amend) and each.target == target and not each.changes.keys().isdisjoint(_RULES):
            stale = each.changes.get("pinned") is None
    return stale


def of(log: RecordedGame) -> Ruleset:
    """The ruleset of a log: the one pinned in it, else the one it names, with its settings.

    Raises:
        ProblemsFound: what is pinned, the name or a setting is not right; each with the file and the first line's `seq`.
    """
    header = effective_header(log)
    try:
        return _rules_of(header)
    except ProblemsFound as found:
        file = getattr(log, "name", None) or None
        problems = [evolve(each, file=each.file or file, seq=None if each.file else header.seq) for each in found.problems]
        raise ProblemsFound(problems) from None


def _rules_of(header: GameOpened) -> Ruleset:
    if header.pinned is not None:
        return unpin(header.pinned)
    if is_path(header.ruleset):  # a log that came by mail does not make the program read other files
        message = f"The log names the file {show(header.ruleset)} for its rules; only names are looked up for a log."
        fix = f"Give the rules yourself: rulesets.load({header.ruleset!r})."
        raise ProblemsFound([Problem(code="unknown_ruleset", message=message, fix=fix, field="ruleset")])
    rules = load(header.ruleset)
    try:
        return with_settings(rules, header.settings)
    except ProblemsFound as found:
        raise ProblemsFound(evolve(each, field=f"settings.{each.field}") for each in found.problems) from None
