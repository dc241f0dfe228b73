"""The reference part of docs/api.md, made from the docstrings.

    python -m tests.api.reference

writes it anew, after the line that begins it; a test compares.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import attrs

from .surface import (
    PACKAGES,
    SEASON,
    Public,
    default_of,
    fields,
    functions,
    is_change,
    is_function,
    is_property,
    members,
    public,
    shown,
    text_of,
)

PAGE = Path(__file__).resolve().parents[2] / "docs" / "api.md"
MARK = "<!-- from here on made from the docstrings: python -m tests.api.reference -->\n"


def reference() -> str:
    """Everything below the mark."""
    parts = []
    for package in PACKAGES:
        parts.append(f"## `{package}`\n")
        parts += [entry(each) for each in public() if each.package == package]
    parts.append("## A season's games\n")
    named = dict(functions())
    for name, place in SEASON.items():
        parts.append(f"### `{name}`\n\n```python\nfrom {place} import {name}\n{head(name, named[name])}\n```\n")
        parts.append(prose(inspect.getdoc(named[name]) or ""))
    return "\n".join(parts)


def entry(each: Public) -> str:
    """One name: how it is called or made, and what its docstring says."""
    text = prose(text_of(each))
    if is_function(each.value):
        return f"### `{each.name}`\n\n```python\n{head(each.name, inspect.unwrap(each.value))}\n```\n\n{text}"
    if isinstance(each.value, type):
        return "\n".join([f"### `{each.name}`\n", text, *of_class(each.value)])
    return f"### `{each.name}`\n\n{text}"


def of_class(cls: type[Any]) -> Iterator[str]:
    """Its fields with their types, then what it can be asked."""
    knobs = [a for a in attrs.fields(cls) if "unit" in a.metadata] if attrs.has(cls) else []
    if knobs:
        yield "".join(f"* `{a.name}`: {a.metadata['meaning']} ({a.metadata['unit']})\n" for a in knobs)
    held = ", ".join(f"`{field.name}: {field.type}{preset(field.default)}`" for field in fields(cls))
    if held:
        base = "those of `Event`, and " if attrs.has(cls) and cls.__mro__[1].__name__ == "Event" else ""
        yield f"Fields: {base}{held}.\n"
    elif attrs.has(cls) and cls.__mro__[1].__name__ == "Event":
        yield "Fields: those of `Event`.\n"
    if not is_change(cls):
        for dotted, function in members(cls):
            yield of_member(cls, dotted, function)


def of_member(cls: type[Any], dotted: str, function: Callable[..., Any]) -> str:
    """A method or property."""
    name = dotted.rpartition(".")[2]
    returned = shown(inspect.signature(function).return_annotation)
    line = f"{dotted} -> {returned}" if is_property(cls, name) else head(dotted, function)
    return f"#### `{line}`\n\n{prose(inspect.getdoc(function) or '')}"


def head(name: str, function: Callable[..., Any]) -> str:
    """A function with its parameters and types."""
    parameters, starred = [], False
    for parameter in inspect.signature(function).parameters.values():
        if parameter.name in ("self", "cls"):
            continue
        if parameter.kind is parameter.KEYWORD_ONLY and not starred:
            parameters.append("*")
            starred = True
        stars = "**" if parameter.kind is parameter.VAR_KEYWORD else ""
        default = preset(default_of(parameter.default))
        parameters.append(f"{stars}{parameter.name}: {shown(parameter.annotation)}{default}")
    returned = shown(inspect.signature(function).return_annotation)
    return f"{name}({', '.join(parameters)})" + (f" -> {returned}" if returned != "None" else "")


def preset(default: str) -> str:
    """A default as it stands behind a type."""
    return f" = {default}" if default else ""


def prose(text: str) -> str:
    """A docstring as Markdown: its sections as lists, its examples in fences."""
    made: list[str] = []
    fenced = False
    for line in [*re.sub(r",\n {8,}", ", ", text).splitlines(), ""]:
        example = line.startswith((">>>", "...")) or (fenced and line != "")
        if example != fenced:
            made += ["```pycon"] if example else ["", "```"]
            fenced = example
        made.append(line if fenced else _line(line))
    return re.sub(r"\n{3,}", "\n\n", "\n".join(made).replace("\n\n```\n", "\n\n```\n"))


def _line(line: str) -> str:
    line = line.replace("``", "`")
    section = re.fullmatch(r"(Args|Attributes|Returns|Raises):", line)
    if section:
        return f"*{section.group(1)}*\n"
    item = re.fullmatch(r"    ((?:\w+, )*\w+): (.*)", line)
    if item:
        return f"* `{item.group(1).replace(', ', '`, `')}`: {item.group(2)}"
    return re.sub(r"^ {4,}", "  ", line)


def page() -> str:
    """The page as it should be."""
    written, mark, _ = PAGE.read_text(encoding="utf-8").partition(MARK)
    assert mark, f"{PAGE.name} has lost the line after which the reference stands"
    return f"{written}{MARK}\n{reference()}"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
