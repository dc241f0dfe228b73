"""What went wrong with one event, as problems that say field, found, expected and remedy.

Runs only where something is wrong.
"""

from __future__ import annotations

import typing
from collections.abc import Iterator, Mapping
from types import NoneType
from typing import Any

import attrs
from cattrs import AttributeValidationNote, BaseValidationError, ForbiddenExtraKeysError, IterableValidationNote

from ..events import KINDS, WHEN, Event, Officials, Player, StaffMember, TeamSheet
from ..problems import Problem
from ..wording import did_you_mean, show, show_name
from .strict import WrongValue, describe

__all__ = ["missing_when", "problems_of", "wrong_kind"]

_READINGS = ("clock", "to", "announced")
_OWNERS: Mapping[type[Any], str] = {
    Player: "a roster line",
    StaffMember: "a staff member",
    TeamSheet: "a team",
    Officials: "the officials",
}


def problems_of(error: Exception, cls: type[Event], data: Mapping[str, Any]) -> list[Problem]:
    """Every problem in what cattrs raised while it made a `cls` of `data`, in the order of the class's fields."""
    found = [attrs.evolve(problem, seq=_seq_of(data)) for problem in _walk(error, cls, "")]
    names = [attribute.name for attribute in attrs.fields(cls)]
    return sorted(found, key=lambda problem: _rank(problem.field or "", names))


def _seq_of(data: Mapping[str, Any]) -> int | None:
    seq = data.get("seq")
    return seq if type(seq) is int else None


def _rank(path: str, names: list[str]) -> int:
    first = path.split(".")[0].split("[")[0]
    return names.index(first) if first in names else len(names)


def _walk(error: BaseException, owner: type[Any], path: str) -> Iterator[Problem]:
    if isinstance(error, BaseValidationError):
        inner = getattr(error, "cl", owner)
        for each in error.exceptions:
            yield from _walk(each, inner if attrs.has(inner) else owner, _step(each, path))
    elif isinstance(error, ForbiddenExtraKeysError):
        yield from (_unknown_field(name, error.cl, path) for name in sorted(error.extra_fields))
    elif isinstance(error, WrongValue):
        yield Problem(
            code=error.code,
            message=f"Expected {error.expected}, found {show(error.found)}.",
            fix=error.fix,
            field=path,
        )
    elif isinstance(error, KeyError):
        yield _missing(path, owner)
    else:
        raise error


def _step(error: BaseException, path: str) -> str:
    for note in getattr(error, "__notes__", ()):
        if isinstance(note, AttributeValidationNote):
            return f"{path}.{note.name}" if path else note.name
        if isinstance(note, IterableValidationNote):
            return f"{path}[{note.index}]"
    return path


def _owner(cls: type[Any]) -> str:
    return _OWNERS.get(cls) or f'"{cls.kind}"'


def _missing(path: str, owner: type[Any]) -> Problem:
    name = path.rpartition(".")[2]
    wanted = "a reading such as 7:42" if name in _READINGS else _wanted(typing.get_type_hints(owner)[name])
    return Problem(
        code="missing_field",
        message=f"The field is missing; {_owner(owner)} needs it.",
        fix=f"Add {show(name)}: {wanted}.",
        field=path,
    )


def _wanted(hint: Any) -> str:
    return f"{describe(hint)} or null" if NoneType in typing.get_args(hint) else describe(hint)


def _unknown_field(name: str, owner: type[Any], path: str) -> Problem:
    known = [attribute.name for attribute in attrs.fields(owner)]
    return Problem(
        code="unknown_field",
        message=f"There is no such field in {_owner(owner)}.",
        fix=did_you_mean(name, known) or f"Its fields are {', '.join(known)}.",
        field=f"{path}.{show_name(name)}" if path else show_name(name),
    )


def wrong_kind(data: Mapping[str, Any]) -> Problem:
    """The problem of an object whose `kind` is missing, is no string, or is none of the format's."""
    place: dict[str, Any] = {"field": "kind", "seq": _seq_of(data)}
    every = f"The kinds are {', '.join(KINDS)}."
    if "kind" not in data:
        return Problem(code="missing_kind", message="The field is missing; every event needs it.", fix=every, **place)
    kind = data["kind"]
    if type(kind) is not str:
        return Problem(code="wrong_type", message=f"Expected a string, found {show(kind)}.", fix=every, **place)
    message = f"There is no kind {show(kind)}."
    return Problem(code="unknown_kind", message=message, fix=did_you_mean(kind, KINDS) or every, **place)


def missing_when(data: Mapping[str, Any]) -> list[Problem]:
    """What is missing of, or too much in, the period and the reading of the object of an event."""
    kind = data.get("kind")
    if type(kind) is not str or kind not in KINDS:
        return []
    when = WHEN[kind]
    have = {name: data.get(name) is not None for name in ("period", "clock")}
    if when == "never":
        return [_not_here(data, name) for name, there in have.items() if there]
    needed = {
        "period": when != "optional" or have["clock"],
        "clock": when == "required" or (when == "optional" and have["period"]),
    }
    return [_needed(data, name) for name in have if needed[name] and not have[name]]


def _not_here(data: Mapping[str, Any], name: str) -> Problem:
    message = f'"{data["kind"]}" has no {name}.'
    return Problem(code="unknown_field", message=message, fix="Leave it out.", seq=_seq_of(data), field=name)


def _needed(data: Mapping[str, Any], name: str) -> Problem:
    kind = data["kind"]
    other = "clock" if name == "period" else "period"
    because = f'"{kind}" needs it where "{other}" stands' if WHEN[kind] == "optional" else f'"{kind}" needs it'
    wanted = "1, 2, 3, and 4 and up for overtimes" if name == "period" else 'the reading on the board, such as "7:42"'
    return Problem(
        code="missing_field",
        message=f"The field is missing; {because}.",
        fix=f'Add "{name}": {wanted}.',
        seq=_seq_of(data),
        field=name,
    )
