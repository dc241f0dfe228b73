"""A ruleset by its name or its file, with everything it extends."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from typing import Any

from attrs import evolve, frozen

from ..timeline.knobs.combinations import impossible_combinations
from ..timeline.knobs.settings import with_settings as knobs_set
from ..timeline.knobs.values import with_values
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.rules import KNOBS, Ruleset
from ..timeline.wording import show
from .places import Place, file_at, find, is_path, shipped_names
from .sheet import Sheet, read_sheet

__all__ = ["Resolution", "load", "resolve", "taken_name", "with_settings"]

_Step = tuple[Place, Sheet]


def load(name_or_path: str | os.PathLike[str]) -> Ruleset:
    """The ruleset of this name, or in this file.

    >>> load("youth-12u").ice.skaters
    5

    Args:
        name_or_path: the name of one that is shipped or that an installed package offers, or the path of a file. A
            string is a path if it has a folder in it or ends with ``.toml``.

    Raises:
        ProblemsFound: there is none of this name; or every problem of the file and of those it extends.
    """
    if not isinstance(name_or_path, str) or is_path(name_or_path):
        return _resolved(_own_file(name_or_path))
    if name_or_path in shipped_names():
        rules = _shipped(name_or_path)
        return evolve(rules, sources=dict(rules.sources))  # a caller who writes into it changes his own alone
    found = find(name_or_path)
    return found if isinstance(found, Ruleset) else _resolved(found)


def _own_file(path: str | os.PathLike[str]) -> Place:
    """The place of a league's own file.

    Raises:
        ProblemsFound: it has the name of a shipped one.
    """
    place = file_at(path)
    if (taken := taken_name(place)) is not None:
        raise ProblemsFound([taken])
    return place


def taken_name(place: Place) -> Problem | None:
    """What is wrong with the name of a league's own file: one that is shipped would stand in logs for two things."""
    if place.name not in shipped_names():
        return None
    message = f'A file of your own cannot be called "{place.name}": a shipped ruleset has this name.'
    fix = f'Call it for example our-{place.name}.toml; it can say extends = "{place.name}".'
    return Problem(code="taken_name", message=message, fix=fix, file=place.label)


@cache
def _shipped(name: str) -> Ruleset:
    place = find(name)
    assert isinstance(place, Place)
    return _resolved(place)


@frozen
class Resolution:
    """A ruleset with everything it extends, or what is wrong.

    Attributes:
        rules: as far as the files are right.
        below: what the file itself extends, likewise.
        sheet: what the file itself states.
        problems: of all the files, in the order in which they extend each other.
    """

    rules: Ruleset
    below: Ruleset
    sheet: Sheet
    problems: tuple[Problem, ...]


def resolve(place: Place) -> Resolution:
    """The ruleset at `place`.

    Raises:
        ProblemsFound: the file itself cannot be read.
    """
    steps, rules = _steps(place)
    below = rules
    for each, sheet in reversed(steps):
        below, rules = rules, _extended(rules, each, sheet)
    problems = [problem for _, sheet in steps for problem in sheet.problems]
    together = impossible_combinations(rules, _unsure(steps, problems))
    problems += [evolve(problem, file=place.label) for problem in together]
    return Resolution(rules, below, steps[0][1], tuple(problems))


def _resolved(place: Place) -> Ruleset:
    resolution = resolve(place)
    if resolution.problems:
        raise ProblemsFound(resolution.problems)
    return resolution.rules


def _unsure(steps: list[_Step], problems: list[Problem]) -> frozenset[str]:
    """The knobs whose value is not known because of `problems`, so that nothing is said of how they go together."""
    wrong = {problem.field or "" for problem in problems}
    elsewhere = {field for field in wrong if field.partition(".")[0].partition("[")[0] in _NOT_ABOUT_KNOBS}
    if wrong <= KNOBS.keys() | elsewhere:
        return frozenset(wrong)
    return frozenset(KNOBS.keys() - steps[0][1].values.keys()) | wrong


_NOT_ABOUT_KNOBS = ("title", "infractions", "sources")


def _steps(place: Place) -> tuple[list[_Step], Ruleset]:
    """The files from `place` down, each with the one it extends after it, and the ruleset that the last starts from."""
    steps: list[_Step] = []
    while True:
        sheet = read_sheet(place.read(), place.label, sources_needed=place.shipped)
        steps.append((place, sheet))
        try:
            below = _below(steps)
        except ProblemsFound as found:
            steps[-1] = (place, evolve(sheet, problems=(*sheet.problems, *found.problems)))
            return steps, Ruleset()
        if isinstance(below, Ruleset):
            return steps, below
        place = below


def _below(steps: list[_Step]) -> Place | Ruleset:
    """What the last of `steps` extends; if nothing, the engine's own values.

    Raises:
        ProblemsFound: it is not there, cannot be read, or is one of `steps`.
    """
    place, sheet = steps[-1]
    if sheet.extends is None:
        return Ruleset(sources={} if place.shipped else dict.fromkeys(KNOBS, "not set: the engine's own value"))
    try:
        below = _named(place, sheet.extends)
        if isinstance(below, Place):
            below.read()
            if below.key in (each.key for each, _ in steps):
                raise ProblemsFound([_circular(steps, below)])
    except ProblemsFound as found:
        raise ProblemsFound(_in_extends(each, place, sheet.extends) for each in found.problems) from None
    return below


def _named(place: Place, extends: str) -> Place | Ruleset:
    if not is_path(extends):
        return find(extends)
    if place.folder is None:
        message = "A ruleset inside a package extends others by name only."
        raise ProblemsFound([Problem(code="unknown_ruleset", message=message, fix="Write a name.")])
    return file_at(place.folder / extends)


def _in_extends(problem: Problem, place: Place, extends: str) -> Problem:
    missing = problem.code == "unreadable_ruleset"
    message = f"It extends {show(extends)}. {problem.message}" if missing else problem.message
    return evolve(problem, message=message, file=place.label, field="extends")


def _circular(steps: list[_Step], again: Place) -> Problem:
    chain = ", which extends ".join([*(place.label for place, _ in steps[1:]), again.label])
    return Problem(
        code="circular_extends",
        message=f"The files extend each other in a circle: {steps[0][0].label} extends {chain}.",
        fix="Take extends out of one of them, or let it name a shipped ruleset.",
    )


def _extended(rules: Ruleset, place: Place, sheet: Sheet) -> Ruleset:
    unsaid = f"the league's file {os.path.basename(place.label)}"
    sources = {**rules.sources, **{name: sheet.sources.get(name, unsaid) for name in sheet.values}}
    return evolve(
        with_values(rules, sheet.values),
        name=place.name,
        title=sheet.title or place.name,
        sources=sources,
        infractions=rules.infractions if sheet.infractions is None else sheet.infractions,
    )


def with_settings(rules: Ruleset, settings: Mapping[str, Any] | None) -> Ruleset:
    """`rules` with single knobs set otherwise; their source then reads *set for this game*.

    >>> with_settings(load("adult"), {"lengths.minor": "1:30"}).lengths.minor
    900

    Args:
        rules: what the game is played by.
        settings: values by dotted names as a log writes them, for example ``{"lengths.minor": "1:30"}``.

    Raises:
        ProblemsFound: every setting that is no knob or no value of it, or what does not go together.
    """
    return knobs_set(rules, settings)
