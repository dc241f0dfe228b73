"""A ruleset by its name or its file, with everything it extends."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from typing import Any

from attrs import evolve

from ..timeline.problems import Problem, ProblemsFound
from ..timeline.rules import KNOBS, Ruleset
from .combinations import impossible_combinations
from .places import Place, file_at, find, is_path, shipped_names
from .sheet import Sheet, read_sheet
from .values import read_values, with_values

__all__ = ["load", "with_settings"]

_Step = tuple[Place, Sheet]


def load(name_or_path: str | os.PathLike[str]) -> Ruleset:
    """The ruleset of this name, or in this file.

    Args:
        name_or_path: the name of one that is shipped or that an installed package offers; or the path of a file, which has a folder in it or
            ends with ``.toml``.

    Raises:
        ProblemsFound: there is none of this name, or every problem of the file that has any.
    """
    if not isinstance(name_or_path, str) or is_path(name_or_path):
        return _load_file(file_at(name_or_path))
    if name_or_path in shipped_names():
        rules = _load_shipped(name_or_path)
        return evolve(rules, sources=dict(rules.sources))  # a caller who writes into it changes his own alone
    found = find(name_or_path)
    return found if isinstance(found, Ruleset) else _load_file(found)


@cache
def _load_shipped(name: str) -> Ruleset:
    found = find(name)
    assert isinstance(found, Place)
    return _load_file(found)


def _load_file(place: Place) -> Ruleset:
    steps, root = _steps(place)
    rules = root
    for each, sheet in reversed(steps):
        rules = _extended(rules, each, sheet)
    problems = [evolve(problem, file=place.label) for problem in impossible_combinations(rules)]
    if problems:
        raise ProblemsFound(problems)
    return rules


def _steps(place: Place) -> tuple[list[_Step], Ruleset]:
    """The files from `place` down to the one that extends nothing more, and the ruleset that this one starts from."""
    steps: list[_Step] = []
    keys: list[str] = []
    while True:
        keys.append(place.key)
        sheet = read_sheet(place.read(), place.label, sources_needed=place.shipped)
        steps.append((place, sheet))
        if sheet.extends is None:
            return steps, _defaults(place)
        below = _below(place, sheet.extends)
        if isinstance(below, Ruleset):
            return steps, below
        if below.key in keys:
            raise ProblemsFound([_circular(steps, below)])
        place = below


def _below(place: Place, extends: str) -> Place | Ruleset:
    try:
        if not is_path(extends):
            return find(extends)
        below = file_at((place.folder or file_at(".").path) / extends)
        below.read()
    except ProblemsFound as found:
        problems = [evolve(each, file=place.label, field="extends") for each in found.problems]
        raise ProblemsFound(problems) from None
    return below


def _circular(steps: list[_Step], again: Place) -> Problem:
    chain = " extends ".join([*(place.label for place, _ in steps), again.label])
    return Problem(
        code="circular_extends",
        message=f"The files extend each other in a circle: {chain}.",
        fix="Take extends out of one of them, or name one of the shipped rulesets.",
        file=steps[-1][0].label,
        field="extends",
    )


def _defaults(place: Place) -> Ruleset:
    """What a file that extends nothing starts from."""
    return Ruleset(sources={} if place.shipped else dict.fromkeys(KNOBS, "not set: the engine's own value"))


def _extended(rules: Ruleset, place: Place, sheet: Sheet) -> Ruleset:
    unsaid = f"the league's file {os.path.basename(place.label)}"
    sources = {**rules.sources, **{name: sheet.sources.get(name, unsaid) for name in sheet.values}}
    infractions = rules.infractions if sheet.infractions is None else sheet.infractions
    return evolve(
        with_values(rules, sheet.values),
        name=place.name,
        title=sheet.title or rules.title,
        sources=sources,
        infractions=infractions,
    )


def with_settings(rules: Ruleset, settings: Mapping[str, Any] | None) -> Ruleset:
    """`rules` with single knobs set otherwise; their source then reads *set for this game*.

    Args:
        rules: what the game is played by.
        settings: values by dotted names as a log writes them, for example ``{"lengths.minor": "1:30"}``.

    Raises:
        ProblemsFound: every setting that is no knob or not a value of it, or what does not go together.
    """
    values, problems = read_values(settings or {})
    if not problems:
        problems = list(impossible_combinations(set_ := with_values(rules, values)))
    if problems:
        raise ProblemsFound(problems)
    return evolve(set_, sources={**rules.sources, **dict.fromkeys(values, "set for this game")})

