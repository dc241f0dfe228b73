"""Everything that is wrong with a ruleset file, and what is odd about it, each with its line."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping

from attrs import evolve

from ..timeline.problems import Problem
from ..timeline.rules import Ruleset
from .library import Resolution, resolve, taken_name
from .oddities import oddities
from .places import Place, file_at, find, is_path

__all__ = ["check"]

_TABLE = re.compile(r"\s*\[\s*([^\[\]]+?)\s*\]\s*(?:#.*)?")
_KEY = re.compile(r"\s*([A-Za-z0-9_.\"' -]+?)\s*=")
_SEVERITIES = ("error", "warning", "note")


def check(name_or_path: str | os.PathLike[str]) -> tuple[Problem, ...]:
    """Everything wrong with a ruleset and with what it extends, then what is allowed and odd, each with what to write.

    Errors first, then warnings, then notes, in the order of the lines. Odd things are told only where nothing is wrong:
    until then it is not known what the file comes to. One that a package made in Python was checked as it was found.

    Args:
        name_or_path: as for `load`.

    Raises:
        ProblemsFound: there is none of this name, the file cannot be read at all, or what a package made is not right.
    """
    own = not isinstance(name_or_path, str) or is_path(name_or_path)
    place = file_at(name_or_path) if own else find(os.fspath(name_or_path))
    if isinstance(place, Ruleset):
        return ()
    found = resolve(place)
    taken = taken_name(place) if own else None
    problems = [*([taken] if taken else []), *found.problems]
    problems = problems or [*_odd(found, place)]
    return tuple(sorted(_with_lines(problems, place), key=_order))


def _order(problem: Problem) -> tuple[int, str, int]:
    return _SEVERITIES.index(problem.severity), problem.file or "", problem.line or 0


def _odd(found: Resolution, place: Place) -> list[Problem]:
    return [evolve(problem, file=place.label) for problem in oddities(found)]


def _with_lines(problems: list[Problem], place: Place) -> list[Problem]:
    """The problems of the file itself with the line in which their key stands, where it can be found."""
    lines = _lines_of_keys(place.read().decode("utf-8", "replace"))
    return [
        evolve(problem, line=_line(problem.field, lines))
        if problem.file == place.label and problem.line is None and problem.field is not None
        else problem
        for problem in problems
    ]


def _line(field: str, lines: Mapping[str, int]) -> int | None:
    return lines.get(field, lines.get(field.partition("[")[0]))


def _lines_of_keys(text: str) -> dict[str, int]:
    """The line of each table and key, by dotted names; where a name stands twice the first."""
    found: dict[str, int] = {}
    table = ""
    for number, line in enumerate(text.splitlines(), 1):
        if head := _TABLE.fullmatch(line):
            table = _plain(head[1])
            found.setdefault(table, number)
        elif key := _KEY.match(line):
            name = _plain(key[1])
            found.setdefault(f"{table}.{name}" if table else name, number)
    return found


def _plain(name: str) -> str:
    return re.sub(r"[\"'\s]", "", name)
