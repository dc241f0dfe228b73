"""One value of an event in one cell, and back.

What can be written plainly is: a number, a word, ``yes`` and ``no``, a list with blanks between. A text that would not
come back so, since it is empty, begins with a quotation mark or a blank, or has a line end in it, and whatever has
parts of its own, stands as JSON. An empty cell is a field that is not there.
"""

from __future__ import annotations

import json
import re
import typing
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal

import attrs

from ...timeline.events import KINDS
from ...timeline.problems import ProblemsFound
from ...timeline.record.json_line import load_line
from .formulas import defused, undone

__all__ = ["NET_EMPTY", "UNASSISTED", "read_cell", "shape_of", "write_cell"]

NET_EMPTY = "empty"
"""The goalkeeper of an empty net."""
UNASSISTED = "unassisted"
"""The assists of a goal without any."""

Shape = Literal["text", "word", "whole", "number", "yes or no", "list", "text or list", "json"]
_NET = ("goalie_change", "goalie")
_PLAIN_ITEM = re.compile(r"[^\s;\"\[\]]+")
_CONTROL = re.compile(r"[\x00-\x1f\x7f\u0085\u2028\u2029]")
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


@cache
def shape_of(kind: str, field: str) -> Shape | None:
    """What stands in a cell of `field` for events of `kind`; ``None`` where it has no such field."""
    hints = _hints(kind)
    if field not in hints:
        return None
    wanted = [one for one in _alternatives(hints[field]) if one is not NoneType]
    if len(wanted) > 1:
        return "text or list"
    origin: Any = typing.get_origin(wanted[0]) or wanted[0]
    simple: dict[Any, Shape] = {str: "text", int: "whole", float: "number", bool: "yes or no", tuple: "list"}
    return "word" if origin is Literal else simple.get(origin, "json")


@cache
def _hints(kind: str) -> Mapping[str, Any]:
    cls = KINDS[kind]
    names = [attribute.name for attribute in attrs.fields(cls)]
    hints = typing.get_type_hints(cls)
    return {name: hints[name] for name in names}


def _alternatives(wanted: Any) -> tuple[Any, ...]:
    return typing.get_args(wanted) if typing.get_origin(wanted) in (typing.Union, UnionType) else (wanted,)


@cache
def _choices(kind: str, field: str) -> Mapping[str, str]:
    """The words that a field knows, by their small letters; none where it knows no words."""
    found: list[str] = []
    waiting = [_hints(kind)[field]]
    for one in waiting:
        if typing.get_origin(one) is Literal:
            found += typing.get_args(one)
        else:
            waiting += typing.get_args(one)
    return {word.lower(): word for word in found}


# -- out


def write_cell(kind: str, field: str, value: Any) -> str:
    """The cell for `value`, as it stands in the log; ``None`` is a null there."""
    shape = shape_of(kind, field)
    if value is None or shape is None:
        return NET_EMPTY if (kind, field) == _NET else ""
    return defused(_WRITERS[shape](value, field))


def _write_text(value: str, field: str) -> str:
    reserved = value == "" or value[0] == '"' or value != value.strip() or _CONTROL.search(value) is not None
    return _json(value) if reserved or (field == "goalie" and value.lower() == NET_EMPTY) else value


def _write_list(value: Sequence[str], field: str) -> str:
    if not value and field == "assists":
        return UNASSISTED
    plain = value and all(_PLAIN_ITEM.fullmatch(item) and not _CONTROL.search(item) for item in value)
    return " ".join(value) if plain and " ".join(value).lower() != UNASSISTED else _json(list(value))


def _write_text_or_list(value: str | Sequence[str], field: str) -> str:
    if not isinstance(value, str) or value.startswith("["):
        return _json(value if isinstance(value, str) else list(value))
    return _write_text(value, field)


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


_WRITERS: Mapping[Shape, Callable[[Any, str], str]] = {
    "text": _write_text,
    "word": _write_text,
    "whole": lambda value, field: str(value),
    "number": lambda value, field: _json(value),
    "yes or no": lambda value, field: "yes" if value else "no",
    "list": _write_list,
    "text or list": _write_text_or_list,
    "json": lambda value, field: _json(value),
}


# -- in


def read_cell(kind: str, field: str, cell: str) -> Any:
    """The value in a cell that is not empty; what is not of the field's kind stays text, for the door to refuse."""
    shape, text = shape_of(kind, field), undone(cell)
    if shape is None:
        return text
    if text.lower() == NET_EMPTY and (kind, field) == _NET:
        return None
    return _READERS[shape](text, _choices(kind, field), field)


def _read_text(text: str, choices: Mapping[str, str], field: str) -> Any:
    if text.startswith('"'):
        value = _from_json(text)
        return value if isinstance(value, str) else text
    return choices.get(text.lower(), text) if choices else text


def _read_list(text: str, choices: Mapping[str, str], field: str) -> Any:
    if text.startswith("["):
        return _from_json(text)
    if field == "assists" and text.lower() == UNASSISTED:
        return []
    return [choices.get(item.lower(), item) for item in re.split(r"[\s;]+", text) if item]


def _read_text_or_list(text: str, choices: Mapping[str, str], field: str) -> Any:
    return _from_json(text) if text.startswith("[") else _read_text(text, choices, field)


def _read_number(text: str, choices: Mapping[str, str], field: str) -> Any:
    value = _from_json(text)
    return value if type(value) in (int, float) else text


def _read_whole(text: str, choices: Mapping[str, str], field: str) -> Any:
    return int(text) if re.fullmatch(r"[0-9]{1,12}", text, re.ASCII) else text


def _read_yes_no(text: str, choices: Mapping[str, str], field: str) -> Any:
    return _YES_NO.get(text.lower(), text)


def _from_json(text: str) -> Any:
    """What `text` is as JSON that a log allows; the text itself where it is none."""
    try:
        return load_line(f'{{"cell": {text}}}')["cell"]
    except (ProblemsFound, KeyError):
        return text


_READERS: Mapping[Shape, Callable[[str, Mapping[str, str], str], Any]] = {
    "text": _read_text,
    "word": _read_text,
    "whole": _read_whole,
    "number": _read_number,
    "yes or no": _read_yes_no,
    "list": _read_list,
    "text or list": _read_text_or_list,
    "json": lambda text, choices, field: _from_json(text),
}
