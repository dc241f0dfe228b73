"""Event ⇄ object ⇄ line. The only place that knows how an event is written.

Reading is strict: exact types, known kinds and fields, nothing filled in and nothing dropped. A null stands for an
absent field. Writing is deterministic: `seq`, `kind`, `period` and `clock` first, then the kind's own fields, the
common ones, and `prev` last; a field that is None is left out, but for the `goalie` of a `goalie_change`, where null
means an empty net.
"""

from __future__ import annotations

import functools
import typing
from collections.abc import Callable, Mapping
from types import NoneType
from typing import Any

import attrs
from cattrs import Converter
from cattrs.gen import make_dict_structure_fn, make_dict_unstructure_fn, override

from ..events import KINDS, WHEN, Event, When
from ..problems import Problem, ProblemsFound
from ..wording import show
from .json_line import dump_line, load_line, not_an_object, not_json, too_deep
from .meanings import meaning_of
from .strict import Hook, WrongValue, as_list, describe, hook_for

__all__ = [
    "amended",
    "as_written",
    "check_when",
    "event_from_dict",
    "event_from_line",
    "event_to_dict",
    "event_to_line",
    "field_order",
    "no_event",
    "read_event",
    "structure",
]

_LEADING = ("seq", "kind", "period", "clock")
_TRAILING = ("after", "recorded_at", "by", "note", "prev")
_ALWAYS_WRITTEN = frozenset({"goalie", "referees", "linespersons"})
_FIXED = frozenset({"seq", "kind", "prev", "format"})

_converter = Converter(forbid_extra_keys=True, omit_if_default=True)


def _hook_of(attribute: attrs.Attribute[Any], wanted: Any) -> Hook:
    plain = hook_for(wanted, _nested)
    meaning = meaning_of(attribute.name, wanted)
    return plain if meaning is None else meaning.hook(plain)


def _structure_fn(cls: type[Any], *, detailed: bool) -> Callable[[Any, Any], Any]:
    """What makes a `cls` of an object; a `detailed` one tells all that is wrong, the other one is quick."""
    hints = typing.get_type_hints(cls)
    hooks = {a.name: override(struct_hook=_hook_of(a, hints[a.name])) for a in attrs.fields(cls)}
    # mypy cannot know that each value is an override
    return make_dict_structure_fn(cls, _converter, _cattrs_detailed_validation=detailed, **hooks)  # type: ignore[arg-type]


@functools.cache
def _nested(cls: type[Any]) -> Hook:
    """The hook of a class inside an event: a roster line, a team, the officials."""
    build = _structure_fn(cls, detailed=True)

    def structure(value: Any, wanted: Any) -> Any:
        if type(value) is not dict:
            raise WrongValue("wrong_type", "an object", value)
        return build(value, cls)

    return structure


def _unstructure_fn(cls: type[Any]) -> Callable[[Any], dict[str, Any]]:
    hints = typing.get_type_hints(cls)
    how = {
        a.name: override(
            omit_if_default=False if a.name in _ALWAYS_WRITTEN else None,
            unstruct_hook=_list_writer(a.name, hints[a.name]) if _is_list(hints[a.name]) else None,
        )
        for a in attrs.fields(cls)
        if a.name in _ALWAYS_WRITTEN or _is_list(hints[a.name])
    }
    return make_dict_unstructure_fn(cls, _converter, _cattrs_omit_if_default=True, **how)  # type: ignore[arg-type]


def _is_list(hint: Any) -> bool:
    """Whether a field is a list, or not known, and nothing else."""
    parts = [hint] if typing.get_origin(hint) is tuple else typing.get_args(hint)
    return [typing.get_origin(part) for part in parts if part is not NoneType] == [tuple]


def _list_writer(name: str, hint: Any) -> Callable[[Any], list[Any] | None]:
    """What writes a field that is a list: a tuple or a list; a string there is not taken for a list of letters."""

    def write(value: Any) -> list[Any] | None:
        if isinstance(value, tuple | list):
            return [_converter.unstructure(item) for item in value]
        if value is None:
            return None
        message = f"Expected {describe(hint)}, found {show(value)}."
        raise ProblemsFound([Problem(code="wrong_type", message=message, fix=as_list(value), field=name)])

    return write


_converter.register_unstructure_hook_factory(attrs.has, _unstructure_fn)
_QUICK: dict[str, tuple[type[Event], Callable[[Any, Any], Event]]] = {}  # made when a kind is first read
_DETAILED: dict[type[Event], Callable[[Any, Any], Event]] = {}  # made when one of a kind is first wrong
# whether a period and whether a reading is there
_ALLOWED: Mapping[When, frozenset[tuple[bool, bool]]] = {
    "never": frozenset({(False, False)}),
    "optional": frozenset({(False, False), (True, True)}),
    "no reading": frozenset({(True, False), (True, True)}),
    "required": frozenset({(True, True)}),
}
_WHEN = {KINDS[kind]: _ALLOWED[when] for kind, when in WHEN.items()}


def field_order(cls: type[Event]) -> tuple[str, ...]:
    """The fields of a kind and its `kind`, in the order in which they are written."""
    own = [a.name for a in attrs.fields(cls) if a.name not in _LEADING and a.name not in _TRAILING]
    return (*_LEADING, *own, *_TRAILING)


_ORDER: Mapping[type[Event], tuple[str, ...]] = {cls: field_order(cls) for cls in KINDS.values()}


def structure(data: Mapping[str, Any]) -> Event:
    """The event that the object `data` is, by kinds, fields and types alone.

    Raises:
        ProblemsFound: every field that is unknown, missing or of a wrong type.
    """
    fields = dict(data)
    try:
        cls, build = _QUICK.get(kind := fields.pop("kind")) or _quick(kind)
    except (KeyError, TypeError):
        from .faults import wrong_kind

        raise ProblemsFound([wrong_kind(data)]) from None
    try:
        return build(fields, cls)
    except Exception:
        return _structure_in_detail(cls, fields, data)


def _quick(kind: str) -> tuple[type[Event], Callable[[Any, Any], Event]]:
    cls = KINDS[kind]
    _QUICK[kind] = (cls, _structure_fn(cls, detailed=False))
    return _QUICK[kind]


def _structure_in_detail(cls: type[Event], fields: dict[str, Any], data: Mapping[str, Any]) -> Event:
    """Structure again what failed, this time to tell all that is wrong with it."""
    build = _DETAILED.get(cls)
    if build is None:
        build = _DETAILED[cls] = _structure_fn(cls, detailed=True)
    try:
        return build(fields, cls)
    except Exception as error:
        from .faults import problems_of  # only where something is wrong

        raise ProblemsFound(problems_of(error, cls, data)) from None


def check_when(event: Event) -> None:
    """Check that `event` carries a period and a reading as its kind demands.

    Raises:
        ProblemsFound: one of them is missing, or stands where it does not belong.
    """
    if (event.period is not None, event.clock is not None) not in _WHEN[type(event)]:
        from .faults import missing_when

        raise ProblemsFound(missing_when(event_to_dict(event)))


def event_from_dict(data: Mapping[str, Any]) -> Event:
    """The event that the object `data` is, as `json.loads` gives it. Without a `seq`, or with 0, it is the next one's.

    >>> event_from_dict({"kind": "timeout", "period": 1, "clock": "8:50", "team": "home"}).seq
    0

    Raises:
        ProblemsFound: every problem of the event by itself, each with its field and, where it is known, the `seq`.
    """
    if not isinstance(data, Mapping):
        raise ProblemsFound([not_an_object(data)])
    if wrong := list(not_json(data)):
        raise ProblemsFound(wrong)
    seq = data.get("seq", 0)
    if type(seq) is not int or seq != 0:
        return read_event(data)
    try:
        return attrs.evolve(read_event({**data, "seq": 1}), seq=0)
    except ProblemsFound as found:
        raise ProblemsFound(attrs.evolve(problem, seq=None) for problem in found.problems) from None


def read_event(data: Mapping[str, Any]) -> Event:
    """The event that the object `data` of a line is.

    Raises:
        ProblemsFound: every problem of the event by itself, each with its field and, where it is known, the `seq`.
    """
    try:
        event = structure(data)
    except ProblemsFound as found:
        from .faults import missing_when

        raise ProblemsFound([*found.problems, *missing_when(data)]) from None
    check_when(event)
    return event


def event_from_line(text: str) -> Event:
    """The event that a line of the log is, without its newline.

    Raises:
        ProblemsFound: as `event_from_dict`, or the line is no JSON object; its `seq` must be there.
    """
    return read_event(load_line(text))


def event_to_dict(event: Event) -> dict[str, Any]:
    """`event` as the object that is written.

    >>> from rinkfold.timeline import GoalieChange
    >>> event_to_dict(GoalieChange(seq=4, period=2, clock="0:58", team="home", goalie=None))
    {'seq': 4, 'kind': 'goalie_change', 'period': 2, 'clock': '0:58', 'team': 'home', 'goalie': None}

    Raises:
        ProblemsFound: a string stands where a list belongs.
        TypeError: it is none of the format's events.
    """
    order = _ORDER.get(type(event))
    if order is None:
        raise TypeError(no_event(event))
    fields = _converter.unstructure(event)
    fields["kind"] = event.kind
    return {name: fields[name] for name in order if name in fields}


def no_event(found: object) -> str:
    """What is said where an event was expected and something else was given."""
    more = " is another class than the log has" if isinstance(found, Event) else ""
    fix = "" if more else "; event_from_dict makes an event of an object"
    return f"Expected an event such as Goal(…), found {show(found)[:40]} ({type(found).__name__}){more}{fix}."


def as_written(value: Any) -> Any:
    """A part of an event, such as a team, as the object that is written."""
    return _converter.unstructure(value)


def event_to_line(event: Event) -> bytes:
    """`event` as the bytes of its line, without a newline.

    Raises:
        ProblemsFound: a value in it cannot be written as JSON.
    """
    try:
        fields = event_to_dict(event)
    except RecursionError:
        raise ProblemsFound([too_deep()]) from None
    return dump_line(fields)


def amended(event: Event, changes: Mapping[str, Any], *, whole: bool = True) -> Event:
    """`event` with `changes` (field: new value, as they stand in an `amend`); null clears an optional field.

    Without `whole` only kinds, fields and types are checked, not whether the period and the reading go together.

    Raises:
        ProblemsFound: a field cannot be amended or is unknown, or a value does not fit; fields are ``changes.FIELD``.
    """
    fixed = [_fixed(name) for name in changes if name in _FIXED]
    if fixed:
        raise ProblemsFound(fixed)
    try:
        return (read_event if whole else structure)({**event_to_dict(event), **changes})
    except ProblemsFound as found:
        raise ProblemsFound(attrs.evolve(p, field=f"changes.{p.field}", seq=None) for p in found.problems) from None


def _fixed(name: str) -> Problem:
    return Problem(
        code="fixed_field",
        message="This field cannot be amended.",
        fix="Void the event and write it anew." if name == "kind" else "Leave it out.",
        field=f"changes.{name}",
    )
