"""What is public, found by looking: the names that `rinkfold.timeline` and `rinkfold.rulesets` export.

Beside these, two functions of the season are promised: `SEASON`.
"""

from __future__ import annotations

import ast
import functools
import importlib
import inspect
import itertools
import re
import sys
import types
import typing
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import attrs
from attrs import frozen

PACKAGES = ("rinkfold.timeline", "rinkfold.rulesets")
SEASON = {"game_row": "rinkfold.cli.season.game_row", "season_of": "rinkfold.cli.season.totals"}
INNER = frozenset({"Game.folded", "Instant.state", "Instant.as_it_is", "parse_log.formats"})
"""What can be reached and is the engine's own: documented as such, and not promised."""


@frozen
class Public:
    """One public name.

    Attributes:
        name: as it is imported.
        package: from where.
        value: what it is.
    """

    name: str
    package: str
    value: Any

    @property
    def path(self) -> str:
        """How a test is called."""
        return f"{self.package.rpartition('.')[2]}.{self.name}"


@frozen
class Field:
    """A field of a public class; its type as the source writes it, and its default, empty if there is none."""

    name: str
    type: str
    default: str = ""


def public() -> list[Public]:
    """Every public name, package by package in the order of `__all__`."""
    found = []
    for package in PACKAGES:
        module = importlib.import_module(package)
        found += [Public(name, package, getattr(module, name)) for name in module.__all__]
    return found


def classes() -> list[Public]:
    """The public classes."""
    return [each for each in public() if isinstance(each.value, type)]


def functions() -> list[tuple[str, Callable[..., Any]]]:
    """Every public function, and every public method and property of the public classes, each with its dotted name."""
    found = [(each.name, inspect.unwrap(each.value)) for each in public() if is_function(each.value)]
    season = [(name, getattr(importlib.import_module(place), name)) for name, place in SEASON.items()]
    return [*found, *season, *(pair for each in classes() for pair in members(each.value))]


def is_function(value: object) -> bool:
    """Whether it is a function, also one that remembers what it answered."""
    return callable(value) and inspect.isfunction(inspect.unwrap(value))


def members(cls: type[Any]) -> Iterator[tuple[str, Callable[..., Any]]]:
    """The public methods and properties that `cls` itself defines, each with its dotted name."""
    made = vars(cls).get("__init__")
    if made is not None and made.__doc__ and not attrs.has(cls):
        yield cls.__name__, made
    for name, value in vars(cls).items():
        function = _function(value)
        if function is not None and (name == "__iter__" or not name.startswith("_")) and not is_change(cls):
            yield f"{cls.__name__}.{name}", function


def _function(value: object) -> Callable[..., Any] | None:
    if isinstance(value, property):
        return value.fget
    if isinstance(value, functools.cached_property):
        return value.func
    if isinstance(value, classmethod | staticmethod):
        return value.__func__
    return value if inspect.isfunction(value) else None


def is_property(cls: type[Any], name: str) -> bool:
    """Whether it is asked for without a call."""
    return isinstance(vars(cls).get(name), property | functools.cached_property)


def is_change(cls: type[Any]) -> bool:
    """Whether it is a named tuple, as all changes are."""
    return issubclass(cls, tuple) and hasattr(cls, "_fields")


def fields(cls: type[Any]) -> list[Field]:
    """The fields that `cls` has beside those of its public base."""
    if is_change(cls):
        return [Field(name, shown(hint)) for name, hint in typing.get_type_hints(cls).items()]
    if not attrs.has(cls):
        return []
    inherited = {a.name for base in cls.__mro__[1:] if attrs.has(base) for a in attrs.fields(base)}
    return [Field(a.name, shown(a.type), default_of(a.default)) for a in attrs.fields(cls) if a.name not in inherited]


def default_of(value: object) -> str:
    """What stands for a field or a parameter that is not given; "…" for what is made anew each time."""
    if value is attrs.NOTHING or value is inspect.Parameter.empty:
        return ""
    return repr(value) if value is None or isinstance(value, str | int | bool | tuple) else "…"


_SHORT: Mapping[str, str] = {
    "Path_": "str | os.PathLike[str]",
    "Literal['home', 'away']": "Team",
    "Literal['minor', 'bench_minor', 'major', 'match', 'misconduct', 'game_misconduct']": "PartKind",
    "Literal['player', 'stand-in', 'second stand-in']": "Role",
}


def shown(annotation: object) -> str:
    """An annotation as people write it: without modules, and with the short name where it has one."""
    if typing.get_origin(annotation) in (typing.Union, types.UnionType):  # which Python writes in two ways before 3.14
        return " | ".join(shown(part) for part in typing.get_args(annotation))
    text = annotation if isinstance(annotation, str) else inspect.formatannotation(annotation)
    text = re.sub(r"\b(?:rinkfold|typing|collections|types|attr|attrs)(?:\.\w+)*\.(?=\w)", "", text)
    text = text.replace('"', "'").replace("NoneType", "None")
    return functools.reduce(lambda so_far, pair: so_far.replace(*pair), _SHORT.items(), text)


def described(cls: type[Any]) -> set[str]:
    """The fields that the docstring of `cls` says something about under "Attributes:"."""
    section = re.search(r"^Attributes:\n((?:    .*\n?|\n)*)", inspect.getdoc(cls) or "", flags=re.MULTILINE)
    if section is None:
        return set()
    text = re.sub(r",\n +", ", ", section.group(1))
    heads: list[str] = re.findall(r"^    (\w+(?:, \w+)*): ", text, flags=re.MULTILINE)
    return {name for head in heads for name in head.split(", ")}


def text_of(each: Public) -> str:
    """The docstring of a public name; of a plain value the string that follows it in its module."""
    if isinstance(each.value, type) or is_function(each.value):
        return inspect.getdoc(each.value) or ""
    for module in [module for name, module in sorted(sys.modules.items()) if name.startswith("rinkfold.timeline.")]:
        if vars(module).get(each.name) is each.value and (text := _after_assignment(module, each.name)):
            return text
    return ""


def _after_assignment(module: types.ModuleType, name: str) -> str:
    body = ast.parse(inspect.getsource(module)).body
    for statement, following in itertools.pairwise(body):
        target = statement.targets[0] if isinstance(statement, ast.Assign) else getattr(statement, "target", None)
        if isinstance(target, ast.Name) and target.id == name and isinstance(following, ast.Expr):
            return str(ast.literal_eval(following.value))
    return ""


def hints_of(function: Callable[..., Any]) -> dict[str, Any]:
    """The annotations of a public function as types; whatever is public is known to it."""
    known = {each.name: each.value for each in public()}
    return typing.get_type_hints(function, {**known, **vars(importlib.import_module(function.__module__))})


def mentioned(hint: Any) -> Iterator[type[Any]]:
    """The classes of rinkfold's own in an annotation."""
    if isinstance(hint, type) and hint.__module__.startswith("rinkfold."):
        yield hint
    for inner in typing.get_args(hint):
        for each in inner if isinstance(inner, list) else [inner]:
            yield from mentioned(each)
