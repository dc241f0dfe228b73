"""What is public is sorted, typed and described; and what a public thing gives is public itself."""

from __future__ import annotations

import importlib
import inspect
import re
import typing
from collections.abc import Callable
from pathlib import Path
from typing import Any

import attrs
import pytest

from rinkfold.timeline.folded import FoldedGame
from rinkfold.timeline.rules import KNOBS

from .surface import (
    INNER,
    PACKAGES,
    Public,
    classes,
    described,
    fields,
    functions,
    hints_of,
    is_change,
    members,
    mentioned,
    public,
    shown,
    text_of,
)

PAGE_FILE = Path(__file__).resolve().parents[2] / "docs" / "api.md"
PAGE = PAGE_FILE.read_text(encoding="utf-8")
CALLABLES = functions()
each_function = pytest.mark.parametrize(("name", "function"), CALLABLES, ids=[name for name, _ in CALLABLES])


def rank(name: str) -> tuple[int, str]:
    """How names are sorted: constants, then classes, then functions."""
    return (0 if name.isupper() else 1 if name[0].isupper() else 2, name)


@pytest.mark.parametrize("package", PACKAGES)
def test_names_are_sorted_and_stand_once(package: str) -> None:
    """`__all__` is sorted, constants and classes first, and names nothing twice."""
    names = importlib.import_module(package).__all__
    assert names == sorted(set(names), key=rank)


@pytest.mark.parametrize("each", public(), ids=lambda each: each.path)
def test_everything_public_has_a_docstring(each: Public) -> None:
    """A class, a function, a constant: each says what it is."""
    assert text_of(each).strip(), f"{each.path} has no docstring"


@each_function
def test_every_callable_has_a_docstring(name: str, function: Callable[..., Any]) -> None:
    """Methods and properties too, and it ends its first sentence."""
    text = inspect.getdoc(function) or ""
    assert re.match(r".+?[.:;](\s|$)", text, flags=re.DOTALL), f"{name} has no docstring"


@each_function
def test_every_callable_is_annotated(name: str, function: Callable[..., Any]) -> None:
    """Each parameter and what is returned has its type."""
    signature = inspect.signature(function)
    bare = [p for p in signature.parameters.values() if p.annotation is p.empty and p.name not in ("self", "cls")]
    assert not bare, f"{name}: no type for {bare}"
    assert signature.return_annotation is not signature.empty, f"{name}: no type for what it returns"


@each_function
def test_every_parameter_is_spoken_of(name: str, function: Callable[..., Any]) -> None:
    """The docstring says what each parameter is: under "Args:", or by name in backquotes."""
    text = inspect.getdoc(function) or ""
    for parameter in inspect.signature(function).parameters:
        if parameter not in ("self", "cls"):
            assert re.search(rf"`{parameter}`|^    {parameter}: ", text, flags=re.MULTILINE), f"{name}: {parameter}"


@pytest.mark.parametrize("each", classes(), ids=lambda each: each.path)
def test_every_field_is_described(each: Public) -> None:
    """A field is described in its class, by its knob's meaning, or for a change in the table of docs/api.md."""
    told = described(each.value) | {name.rpartition(".")[2] for name in KNOBS if knob_group(each.value, name)}
    told |= set(re.findall(rf"^\| `(?:{each.name}\.)?(\w+)` \|", PAGE, flags=re.MULTILINE)) if in_table(each) else set()
    silent = [field.name for field in fields(each.value) if field.name not in told]
    assert not silent, f"{each.path}: nothing is said about {silent}"


def in_table(each: Public) -> bool:
    """Whether its fields are described together with those of others, on the page."""
    return is_change(each.value) or each.name in ("Rule", "Finding")


def knob_group(cls: type[Any], dotted: str) -> bool:
    """Whether the knob with this dotted name is a field of the group of knobs `cls`."""
    names = {a.name for a in attrs.fields(cls) if "unit" in a.metadata} if attrs.has(cls) else set()
    return dotted.rpartition(".")[2] in names


@pytest.mark.parametrize("each", classes(), ids=lambda each: each.path)
def test_no_docstring_describes_a_field_that_is_gone(each: Public) -> None:
    """What stands under "Attributes:" is there."""
    own = {field.name for field in fields(each.value)} or set(typing.get_type_hints(each.value.__init__)) | {
        name for name in dir(each.value)
    }
    inherited = {field.name for base in each.value.__mro__[1:] for field in fields(base)}
    gone = described(each.value) - own - inherited - {"found", "problems", "rules"}
    assert not gone, f"{each.path}: described and not there: {sorted(gone)}"


@each_function
def test_what_a_public_thing_gives_and_takes_is_public(name: str, function: Callable[..., Any]) -> None:
    """Nobody needs an import that is not promised to annotate what an answer is."""
    known = {id(each.value) for each in public()}
    for place, hint in hints_of(function).items():
        for cls in mentioned(hint):
            inner = f"{name}.{place}" in INNER or cls.__module__.startswith("rinkfold.cli.season.")
            assert inner or id(cls) in known, f"{name}: {cls.__qualname__}"


@pytest.mark.parametrize("each", classes(), ids=lambda each: each.path)
def test_what_a_public_class_holds_is_public(each: Public) -> None:
    """The same for fields, but for those that are said to be the engine's own."""
    known = {id(one.value) for one in public()}
    if attrs.has(each.value) or is_change(each.value):
        for name, hint in hints_of_class(each.value).items():
            if f"{each.name}.{name}" not in INNER:
                assert all(id(cls) in known for cls in mentioned(hint)), f"{each.path}.{name}: {shown(hint)}"


def hints_of_class(cls: type[Any]) -> dict[str, Any]:
    """The annotations of a class as types."""
    return typing.get_type_hints(cls)


def test_what_is_silent_or_bare_is_noticed() -> None:
    """The checks can fail: a field nobody speaks of, a parameter without a type, a name that is not public."""

    @attrs.frozen
    class Sample:
        """A sample.

        Attributes:
            told, also_told: said.
        """

        told: int
        also_told: tuple[FoldedGame, ...]
        silent: int

        def ask(self, bare) -> None:  # type: ignore[no-untyped-def]
            pass

    assert described(Sample) == {"told", "also_told"}
    assert [field.name for field in fields(Sample)] == ["told", "also_told", "silent"]
    ((name, ask),) = members(Sample)
    assert name == "Sample.ask"
    for check in (test_every_callable_has_a_docstring, test_every_callable_is_annotated):
        with pytest.raises(AssertionError, match=r"Sample\.ask"):
            check(name, ask)
    with pytest.raises(AssertionError, match="FoldedGame"):
        test_what_a_public_class_holds_is_public(Public("Sample", "sample", Sample))
    with pytest.raises(AssertionError, match="silent"):
        test_every_field_is_described(Public("Sample", "sample", Sample))


FATE = next(one for one in public() if one.name == "Fate")


@pytest.mark.parametrize("each", [one for one in public() if typing.get_origin(one.value) is typing.Literal])
def test_every_choice_says_what_it_can_be(each: Public) -> None:
    """A program can annotate with it, and reads beside it which strings there are."""
    told = text_of(each) + (text_of(FATE) if "`Fate`" in text_of(each) else "")
    silent = [value for value in typing.get_args(each.value) if f'"{value}"' not in told]
    assert not silent, f"{each.path}: nothing is said about {silent}"


def test_what_became_of_a_part_is_one_of_its_choices() -> None:
    """In a whole game every part's fate is a `PartFate`, and every role, way and fate of a change is in its choice."""
    from rinkfold import rulesets
    from rinkfold.timeline import Fate, How, PartEnded, PartFate, Returned, Role, read_log, replay

    log = read_log(PAGE_FILE.parents[1] / "examples" / "game.jsonl")
    game = replay(log, rulesets.of(log))
    fates = {part.fate for life in game.penalties for part in life.parts}
    assert len(fates) > 3
    assert fates <= set(typing.get_args(PartFate))
    for change in (change for changes in game.changes for change in changes):
        assert not isinstance(change, PartEnded) or change.fate in typing.get_args(Fate)
        assert not isinstance(change, Returned) or (
            change.role in typing.get_args(Role) and change.how in typing.get_args(How)
        )
