"""One ruleset file, read and checked by itself: what it extends, and the values and sources that it states.

A file is TOML. `title`, `extends` and `infractions` stand at its top; the knobs stand in tables as their dotted names
go (``[game.running_clock]``); the table ``[sources]`` says for each value where it comes from, by the knob's dotted
name in quotation marks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from attrs import evolve, field, frozen

from ..timeline.knobs.values import read_values, unknown_knob
from ..timeline.problems import Problem
from ..timeline.record.json_line import is_too_deep
from ..timeline.rules import KNOBS
from ..timeline.wording import did_you_mean, show

__all__ = ["Sheet", "read_sheet"]

_TABLES = tuple(dict.fromkeys(name.partition(".")[0] for name in KNOBS))
_TEXTS = ("title", "extends")
_AT_THE_TOP = (*_TEXTS, "infractions")
_KNOWN = (*_AT_THE_TOP, *_TABLES, "sources")
_LINE = re.compile(r"\s*\(at line ([0-9]+), column [0-9]+\)")


@frozen(kw_only=True)
class Sheet:
    """What one file states.

    Attributes:
        extends: the ruleset it builds on, as written; None if it stands alone.
        values: by dotted name, in the engine's units.
        sources: by dotted name; only for knobs that the file sets.
        infractions: None if the file leaves them as they are.
        problems: what is wrong in the file; the rest of the sheet then has what is right.
    """

    title: str | None = None
    extends: str | None = None
    values: Mapping[str, Any] = field(factory=dict)
    sources: Mapping[str, str] = field(factory=dict)
    infractions: tuple[str, ...] | None = None
    problems: tuple[Problem, ...] = ()


def read_sheet(data: bytes, file: str, *, sources_needed: bool = False) -> Sheet:
    """The sheet that the bytes of a file are.

    Args:
        data: the whole file.
        file: what messages call it.
        sources_needed: whether a value without a source is a problem.
    """
    tree, problem = _parse(data)
    sheet = Sheet(problems=(problem,)) if problem else _read(tree)
    unsourced = [_no_source(name) for name in sheet.values if sources_needed and name not in sheet.sources]
    return evolve(sheet, problems=tuple(evolve(each, file=file) for each in (*sheet.problems, *unsourced)))


def _parse(data: bytes) -> tuple[dict[str, Any], Problem | None]:
    import tomllib

    try:
        tree = tomllib.loads(data.decode("utf-8-sig"))  # some editors begin every file with a byte order mark
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        message = f"The byte 0x{data[error.start]:02x} is not UTF-8."
        return {}, Problem(code="not_utf8", message=message, fix="Save the file as UTF-8.", line=line)
    except tomllib.TOMLDecodeError as error:
        return {}, _not_toml(str(error), data)
    except (ValueError, RecursionError):
        return {}, _TOO_MUCH
    return ({}, _TOO_MUCH) if is_too_deep(tree) else (tree, None)


_TOO_MUCH = Problem(
    code="not_toml",
    message="This is not TOML that can be read: a number is too long or brackets and tables are nested too deep.",
    fix='Write lines such as minor = "1:30" below a line such as [lengths].',
)


def _not_toml(why: str, data: bytes) -> Problem:
    found = _LINE.search(why)
    line = int(found[1]) if found else data.rstrip().count(b"\n") + 1  # without a place it is the end of the file
    why = _LINE.sub("", why).removesuffix(" (at end of document)")
    why = why[:1].lower() + why[1:]
    fix = 'Write lines such as minor = "1:30" below a line such as [lengths].'
    return Problem(code="not_toml", message=f"This is not TOML: {why}.", fix=fix, line=line)


def _read(tree: Mapping[str, Any]) -> Sheet:
    problems = [_unknown_table(name) for name in tree if name not in _KNOWN]
    problems += [_not_text(name, tree[name]) for name in _TEXTS if name in tree and not _is_text(tree[name])]
    texts = {name: tree[name] for name in _TEXTS if _is_text(tree.get(name))}
    wrong_words = list(_wrong_infractions(tree.get("infractions", [])))
    words = tuple(tree["infractions"]) if "infractions" in tree and not wrong_words else None
    raw = dict(_dotted({name: tree[name] for name in tree if name in _TABLES}))
    values, wrong = read_values(raw)
    sources, wrong_sources = _sources(tree.get("sources", {}), raw)
    problems += [*wrong_words, *map(_moved_up, wrong), *wrong_sources]
    return Sheet(**texts, values=values, sources=sources, infractions=words, problems=tuple(problems))


def _dotted(tree: Mapping[str, Any], prefix: str = "") -> Iterator[tuple[str, Any]]:
    """What stands in tables, by dotted names."""
    for key, value in tree.items():
        name = f"{prefix}{key}"
        if isinstance(value, dict) and name not in KNOBS:
            yield from _dotted(value, f"{name}.")
        else:
            yield name, value


def _moved_up(problem: Problem) -> Problem:
    """`problem` with its remedy, if it is that a key of the top was written below a table."""
    key = (problem.field or "").rpartition(".")[2]
    if problem.code != "unknown_knob" or key not in _AT_THE_TOP:
        return problem
    return evolve(problem, fix=f"{key} stands at the top of the file, above the first table.")


def _sources(table: Any, set_here: Mapping[str, Any]) -> tuple[dict[str, str], list[Problem]]:
    if not isinstance(table, dict):
        fix = 'Write [sources], and below it a line such as "lengths.minor" = "our by-laws, 7".'
        return {}, [_wrong("sources", "a table of sources", table, fix)]
    sources = dict(_dotted(table))  # an unquoted dotted key makes tables of its parts, and means the same
    problems = []
    for name, source in sources.items():
        if name not in KNOBS:
            problems.append(evolve(unknown_knob(name), field=f"sources.{name}"))
        elif not _is_text(source):
            problems.append(_not_text(f"sources.{name}", source))
        elif name not in set_here:
            problems.append(_no_value(name))
    return sources, problems


def _wrong_infractions(words: Any) -> Iterator[Problem]:
    if not isinstance(words, list):
        yield _wrong("infractions", 'a list such as ["tripping", "hooking"]', words)
        return
    for place, word in enumerate(words):
        name = f"infractions[{place}]"
        if not _is_text(word):
            yield _not_text(name, word)
        elif word in words[:place]:
            yield Problem(code="doubled", message=f"{show(word)} stands there twice.", fix="Drop one.", field=name)


def _is_text(value: Any) -> bool:
    return type(value) is str and value.strip() != "" and value.isprintable()


def _wrong(name: str, expected: str, found: Any, fix: str = "") -> Problem:
    return Problem(code="wrong_type", message=f"Expected {expected}, found {show(found)}.", fix=fix, field=name)


def _not_text(name: str, found: Any) -> Problem:
    return _wrong(name, "words in quotation marks, on one line", found)


def _unknown_table(name: str) -> Problem:
    fix = did_you_mean(name, _KNOWN) or f"A ruleset has {', '.join(_KNOWN)}."
    return Problem(code="unknown_table", message="A ruleset has no such table or key.", fix=fix, field=name)


def _no_source(name: str) -> Problem:
    return Problem(
        code="no_source",
        message="The value has no source.",
        fix=f'Add "{name}" = "…" below [sources]: publisher, edition and rule, or common practice.',
        field=name,
    )


def _no_value(name: str) -> Problem:
    return Problem(
        code="source_without_value",
        message="A source is given for a value that this file does not set.",
        fix="Set the value here too, or drop the source: an inherited value keeps the source it has.",
        field=f"sources.{name}",
    )
