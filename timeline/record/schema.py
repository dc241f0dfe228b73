"""The JSON Schema of one line of the log, made from the classes of the events.

Fields, types and which of them may be missing come from the classes; what a field says beyond its type from `meanings`;
period and reading from `WHEN`; `settings` and `pinned` from the knobs; titles and descriptions from the docstrings.
"""

from __future__ import annotations

import copy
import inspect
import re
import typing
from collections.abc import Mapping
from types import NoneType, UnionType
from typing import Any, Literal

import attrs

from ..events import EVENT_CLASSES, WHEN, Event
from ..knobs.schema import pinned_schema, settings_schema
from .codec import field_order
from .meanings import meaning_of
from .upgrades import FORMAT

__all__ = ["log_schema"]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_SIMPLE: Mapping[Any, str] = {str: "string", int: "integer", bool: "boolean", float: "number"}
_NULL = {"type": "null"}
_KIND = "which kind of event the line is."
_ATTRIBUTE = re.compile(r"^ {4}(\w+(?:, \w+)*): (.*(?:\n {8}.*)*)", re.MULTILINE)
"""One or several names of fields, and what the docstring says of them."""

_PERIOD = {"properties": {"period": {"type": "integer"}}, "required": ["period"]}
_CLOCK = {"properties": {"clock": {"type": "string"}}, "required": ["clock"]}
_WHEN_BOTH_OR_NEITHER = [{"if": _PERIOD, "then": _CLOCK}, {"if": _CLOCK, "then": _PERIOD}]


def log_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of one line of the log, as plain data of the caller's own.

    It accepts what reading that line by itself accepts. What needs other lines, or the text of the line before it is
    parsed, it cannot see: ``docs/log-format.md`` lists that.

    >>> log_schema()["$defs"]["timeout"]["required"]
    ['seq', 'kind', 'period', 'clock', 'team']
    """
    definitions: dict[str, Any] = {cls.kind: {} for cls in EVENT_CLASSES}
    for cls in EVENT_CLASSES:
        definitions[cls.kind] = _event(cls, definitions)
    definitions["settings"] = settings_schema()
    definitions["pinned"] = pinned_schema(_reference("settings"))
    made = {
        "$schema": _DIALECT,
        "$id": f"urn:rinkfold:log:{FORMAT}",
        "title": "LogLine",
        "description": f"One line of a game log, format {FORMAT}: one event.",
        "type": "object",
        "properties": {"kind": {"enum": [cls.kind for cls in EVENT_CLASSES]}},
        "required": ["kind"],
        "allOf": [_if_it_is(cls.kind) for cls in EVENT_CLASSES],
        "$defs": definitions,
    }
    return copy.deepcopy(made)  # parts of it are shared by all


def _if_it_is(kind: str) -> dict[str, Any]:
    """The schema of `kind` for lines of that kind alone, so that what is wrong is told of the kind that was meant."""
    named = {"properties": {"kind": {"const": kind}}, "required": ["kind"]}
    return {"if": named, "then": _reference(kind)}


def _reference(name: str) -> dict[str, Any]:
    return {"$ref": f"#/$defs/{name}"}


def _event(cls: type[Event], definitions: dict[str, Any]) -> dict[str, Any]:
    """The schema of one kind; the classes inside it are added to `definitions`."""
    made = _object(cls, definitions)
    fields = made["properties"] | {"kind": {"description": _KIND, "const": cls.kind}}
    made["properties"] = {name: fields[name] for name in field_order(cls)}
    when = WHEN[cls.kind]
    needed = {"seq", "kind", *made["required"]}
    if when == "never":
        never = "never there: the line is about the whole game."
        made["properties"] |= {name: {"description": never, **_NULL} for name in ("period", "clock")}
    elif when == "optional":
        made["allOf"] = _WHEN_BOTH_OR_NEITHER
    else:
        needed |= _insist(made["properties"], ["period"] if when == "no reading" else ["period", "clock"])
    made["required"] = [name for name in field_order(cls) if name in needed]
    return made


def _insist(properties: dict[str, Any], names: list[str]) -> set[str]:
    """Have the fields `names` be there and not null."""
    for name in names:
        properties[name] = {**properties[name], "type": properties[name]["type"][0]}
    return set(names)


def _object(cls: type[Any], definitions: dict[str, Any]) -> dict[str, Any]:
    """The schema of an object with the fields of `cls`, and no others."""
    hints = typing.get_type_hints(cls)
    described = _descriptions(cls)
    properties = {}
    for attribute in attrs.fields(cls):
        field = _field(attribute.name, hints[attribute.name], definitions)
        description = described.get(attribute.name)
        properties[attribute.name] = {"description": description, **field} if description else field
    return {
        "title": cls.__name__,
        "description": _first_paragraph(cls),
        "type": "object",
        "properties": properties,
        "required": [a.name for a in attrs.fields(cls) if a.default is attrs.NOTHING],
        "additionalProperties": False,
    }


def _field(name: str, hint: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    if name == "format":
        return {"const": FORMAT}
    if name in ("settings", "pinned"):
        return _or_null(_reference(name))
    inner = [argument for argument in typing.get_args(hint) if argument is not NoneType]
    nullable = NoneType in typing.get_args(hint)
    wanted = inner[0] if nullable and len(inner) == 1 else hint
    made = _type(wanted, definitions)
    if (meaning := meaning_of(name, wanted)) is not None:
        made = {**made, **meaning.schema}
    return _or_null(made) if nullable and wanted is not hint else made


def _or_null(schema: dict[str, Any]) -> dict[str, Any]:
    """`schema`, and null besides."""
    if "enum" in schema:
        return {**schema, "enum": [*schema["enum"], None]}
    if "type" in schema:
        return {**schema, "type": [schema["type"], "null"]}
    return {"anyOf": [schema, _NULL]}


def _type(hint: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    """The schema of the annotation `hint`."""
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if hint in _SIMPLE:
        return {"type": _SIMPLE[hint]}
    if hint is NoneType:
        return _NULL
    if origin is Literal:
        return {"enum": list(arguments)}
    if origin is tuple:
        return {"type": "array", "items": _type(arguments[0], definitions)}
    if origin in (UnionType, typing.Union):
        return {"anyOf": [_type(argument, definitions) for argument in arguments]}
    if origin is not None and issubclass(origin, Mapping):
        return {"type": "object"}
    name = hint.__name__
    if name not in definitions:
        definitions[name] = _object(hint, definitions)
    return _reference(name)


def _first_paragraph(cls: type[Any]) -> str:
    return " ".join(inspect.cleandoc(cls.__doc__ or "").partition("\n\n")[0].split())


def _descriptions(cls: type[Any]) -> dict[str, str]:
    """What the docstrings of `cls` and of what it is made from say about single fields."""
    found: dict[str, str] = {}
    for each in reversed(cls.__mro__):
        text = inspect.cleandoc(each.__doc__ or "").partition("Attributes:\n")[2]
        for names, said in _ATTRIBUTE.findall(text):
            found |= dict.fromkeys(names.split(", "), " ".join(said.split()))
    return found
