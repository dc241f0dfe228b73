"""JSON as the log allows it: no duplicate keys, no NaN or Infinity, nothing that UTF-8 cannot carry."""

from __future__ import annotations

import json
import math
from collections import Counter
from collections.abc import Iterator, Mapping
from json.scanner import make_scanner
from typing import Any

from attrs import evolve

from ..problems import Problem, ProblemsFound
from ..wording import show, show_name

__all__ = ["dump_line", "is_too_deep", "is_whole_object", "load_line", "not_an_object", "not_json", "too_deep"]


class _DuplicateKey(ValueError):
    pass


class _NotANumber(ValueError):
    pass


class _TooDeep(ValueError):
    pass


_DEEPEST = 64
"""How deep brackets may be nested: far deeper than any event, and well within what every step that follows can walk."""


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) != len(pairs):
        counts = Counter(key for key, _ in pairs)
        raise _DuplicateKey(next(key for key in counts if counts[key] > 1))
    return made


def _constant(text: str) -> Any:
    raise _NotANumber(text)


def _finite(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):
        raise _NotANumber(text)
    return number


def is_too_deep(value: Any) -> bool:
    """Whether brackets are nested in `value` deeper than a log allows; what walks it by calling itself would fail."""
    return _is_deeper(value, _DEEPEST)


def _is_deeper(value: Any, levels: int) -> bool:
    """Whether lists and objects are nested in `value` more than `levels` deep."""
    if not isinstance(value, dict | list):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return levels == 0 or any(_is_deeper(each, levels - 1) for each in inner)


_DECODER = json.JSONDecoder(object_pairs_hook=_object, parse_constant=_constant, parse_float=_finite)
_SCAN = make_scanner(_DECODER)  # type: ignore[arg-type]  # the stub takes what it makes for what it is made of
_ENCODE = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


def _value_of(text: str) -> Any:
    """The value that `text` is; what `_DECODER` says, without its detours where nothing stands around one value."""
    try:
        value, end = _SCAN(text, 0)
    except StopIteration:
        end = -1
    return value if end == len(text) else _DECODER.decode(text)  # blanks around it, or an error


def load_line(text: str) -> dict[str, Any]:
    """The JSON object that one line is.

    Raises:
        ProblemsFound: it is not one JSON object, or it holds what the log does not allow; no file and line yet.
    """
    try:
        value = _value_of(text)
        if len(text) > 2 * _DEEPEST and text.count("[") + text.count("{") > _DEEPEST and is_too_deep(value):
            raise _TooDeep
        if "\\u" in text:
            _ENCODE(value).encode()
    except (ValueError, RecursionError) as error:
        raise ProblemsFound([_not_allowed(error, text)]) from None
    if type(value) is not dict:
        raise ProblemsFound([not_an_object(value)])
    return value


def not_an_object(value: Any) -> Problem:
    """The problem of a value that stands where an event was expected."""
    message = f"The line is {show(value)}; expected one JSON object."
    return Problem(code="not_an_object", message=message, fix="Write one event a line, in braces.")


def not_json(data: Mapping[str, Any]) -> Iterator[Problem]:
    """What in an object that a program made no line could hold, by its fields."""
    seq = data.get("seq") if type(data.get("seq")) is int else None
    if names := [name for name in data if type(name) is not str]:
        message = f"Expected the names of fields as strings, found {show(names[0])}."
        yield Problem(code="wrong_type", message=message, seq=seq)
        return
    try:
        dump_line(data)
    except ProblemsFound:
        for name, value in data.items():
            try:
                dump_line({name: value})
            except ProblemsFound as found:
                yield from (evolve(problem, seq=seq, field=show_name(name)) for problem in found.problems)


def _not_allowed(error: ValueError | RecursionError, text: str) -> Problem:
    match error:
        case _DuplicateKey():
            key = str(error)
            return Problem(
                code="duplicate_key",
                message=f"The key {show(key)} stands in one object twice.",
                fix="Keep one of the two.",
                field=show_name(key),
            )
        case _NotANumber():
            return Problem(
                code="not_a_number",
                message=f"{show(str(error))[1:-1]} is not a number that a log can hold.",
                fix="Write a finite number, or leave the field out.",
            )
        case UnicodeEncodeError():
            return Problem(
                code="half_a_character",
                message="A \\u escape stands for half a character (a lone surrogate).",
                fix="Write the character itself, in UTF-8.",
            )
        case json.JSONDecodeError():
            return Problem(
                code="not_json",
                message=f"The line is not JSON: {error.msg.lower().removesuffix(' at')} at column {error.colno}, "
                f"found {_around(text, error.pos)}.",
                fix="Write one JSON object a line.",
            )
    return too_deep()


def too_deep() -> Problem:
    """The problem of a value that is too much for JSON's readers."""
    return Problem(
        code="not_json",
        message="The line is not JSON that can be read: a number is too long or brackets are nested too deep.",
        fix="Write one JSON object a line.",
    )


def _around(text: str, position: int) -> str:
    rest = text[position : position + 20]
    return show(rest) if rest else "the end of the line"


def is_whole_object(line: bytes) -> bool:
    """Whether `line` is complete: one JSON object, whatever is in it. A crash leaves only a beginning of one."""
    try:
        return isinstance(json.loads(line.decode()), dict)
    except (ValueError, RecursionError):
        return False


def dump_line(value: Mapping[str, Any]) -> bytes:
    """One line of the log, without its newline: deterministic, keys in the order given, characters as themselves.

    Raises:
        ProblemsFound: something in it is no JSON (NaN, an object of Python's own, a lone surrogate).
    """
    try:
        return _ENCODE(value).encode()
    except (ValueError, TypeError, RecursionError) as error:
        problem = Problem(
            code="not_json",
            message=f"The event cannot be written as JSON: {error}.",
            fix="Use strings, finite numbers, true, false, null, lists and objects only.",
        )
        raise ProblemsFound([problem]) from None
