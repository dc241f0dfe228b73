"""Strict structuring: each hook takes exactly what the format says and raises `WrongValue` for anything else.

cattrs by itself would call ``int(3.7)``, ``bool("no")`` and ``tuple("ab")``, and quietly give 3, True and two letters.
"""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from types import NoneType, UnionType
from typing import Any, Literal

from cattrs import IterableValidationError, IterableValidationNote

from ..wording import choices, did_you_mean, show

__all__ = ["Hook", "WrongValue", "as_list", "describe", "hook_for", "number", "whole_number"]

Hook = Callable[[Any, Any], Any]


class WrongValue(ValueError):
    """A value that the format does not allow at its place.

    Attributes:
        code: the problem's code.
        expected: what belongs there, in words.
        found: what stands there.
        fix: what to write instead, where that is known.
    """

    def __init__(self, code: str, expected: str, found: Any, fix: str = "") -> None:
        super().__init__(expected)
        self.code = code
        self.expected = expected
        self.found = found
        self.fix = fix


def _text(value: Any, _: Any) -> str:
    if type(value) is str:
        return value
    fix = f'Write "{value}", in quotation marks.' if type(value) in (int, float) else ""
    raise WrongValue("wrong_type", "a string", value, fix)


def whole_number(value: Any, _: Any) -> int:
    """Structure an integer: neither a bool nor ``3.0``."""
    if type(value) is int:
        return value
    fix = f"Write {value:.0f}." if type(value) is float and value.is_integer() else ""
    raise WrongValue("wrong_type", "a whole number", value, fix)


def _yes_or_no(value: Any, _: Any) -> bool:
    if value is True or value is False:
        return value
    raise WrongValue("wrong_type", "true or false", value)


def number(value: Any, _: Any) -> float:
    """Structure a number, kept as an int or a float as it was written."""
    if type(value) is int or type(value) is float:
        return value
    raise WrongValue("wrong_type", "a number", value)


def _anything(value: Any, _: Any) -> Any:
    return value


def _object(value: Any, _: Any) -> dict[str, Any]:
    if type(value) is dict:
        return value
    raise WrongValue("wrong_type", "an object", value)


def _one_of(words: tuple[str, ...]) -> Hook:
    allowed = frozenset(words)

    def choose(value: Any, _: Any) -> Any:
        if type(value) is str and value in allowed:
            return value
        fix = did_you_mean(value, words) if isinstance(value, str) else ""
        raise WrongValue("unknown_value", choices(words), value, fix)

    return choose


def _list_of(element: Hook, of: Any) -> Hook:
    def structure(value: Any, target: Any) -> tuple[Any, ...]:
        if type(value) is not list:
            raise WrongValue("wrong_type", describe(target), value, as_list(value))
        try:
            return tuple([element(item, of) for item in value])
        except Exception:
            raise IterableValidationError("", list(_faults(value, element, of)), tuple) from None

    return structure


def as_list(value: Any) -> str:
    """The remedy where a string stands for a list."""
    return f"Write [{show(value)}]." if type(value) is str else ""


def _faults(items: list[Any], element: Hook, of: Any) -> typing.Iterator[Exception]:
    for index, item in enumerate(items):
        try:
            element(item, of)
        except Exception as error:
            error.add_note(IterableValidationNote("", index, of))
            yield error


def _optional(hook: Hook, inner: Any) -> Hook:
    def structure(value: Any, _: Any) -> Any:
        return None if value is None else hook(value, inner)

    return structure


def _optional_text(value: Any, _: Any) -> str | None:
    return value if value is None or type(value) is str else _text(value, str)


def _string_or_strings(value: Any, _: Any) -> str | tuple[str, ...]:
    if type(value) is str:
        return value
    if type(value) is not list:
        raise WrongValue("wrong_type", "a string or a list of strings", value)
    names: tuple[str, ...] = _STRINGS(value, tuple[str, ...])
    return names


_STRINGS = _list_of(_text, str)
_PLAIN: Mapping[Any, Hook] = {
    str: _text,
    int: whole_number,
    bool: _yes_or_no,
    float: number,
    Any: _anything,
    str | None: _optional_text,
}


def hook_for(wanted: Any, nested: Callable[[Any], Hook]) -> Hook:
    """The strict hook for the annotation `wanted`; `nested` gives the hook of one of the format's own classes."""
    origin, arguments = typing.get_origin(wanted), typing.get_args(wanted)
    if wanted in _PLAIN:
        return _PLAIN[wanted]
    if origin is Literal:
        return _one_of(arguments)
    if origin is tuple:
        return _list_of(hook_for(arguments[0], nested), arguments[0])
    if origin in (UnionType, typing.Union):
        inner = [argument for argument in arguments if argument is not NoneType]
        if len(inner) == 1:
            return _optional(hook_for(inner[0], nested), inner[0])
        return _optional(_string_or_strings, str)
    if origin is not None and issubclass(origin, Mapping):
        return _object
    return nested(wanted)


def describe(wanted: Any) -> str:
    """What the annotation `wanted` allows, in words."""
    origin, arguments = typing.get_origin(wanted), typing.get_args(wanted)
    if wanted in _NAMES:
        return _NAMES[wanted]
    if origin is Literal:
        return choices(arguments)
    if origin is tuple:
        return "a list of strings" if arguments[0] is str else f"a list of {describe(arguments[0])}"
    if origin in (UnionType, typing.Union):
        return " or ".join(describe(argument) for argument in arguments if argument is not NoneType)
    return "an object"


_NAMES: Mapping[Any, str] = {str: "a string", int: "a whole number", bool: "true or false", float: "a number"}
