"""docs/answers.md names every field that an answer has, below the heading of its command."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "answers.md").read_text(encoding="utf-8")
EVERYWHERE = {"rinkfold", "game", "ruleset", "period", "clock", "note"}
BY_NAME = ("players", "knobs")
"""Objects whose keys are numbers of players or names of knobs."""


def named_below(heading: str) -> set[str]:
    """The fields that a section names: a word in quotation marks or by itself in backquotes."""
    section = PAGE.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]
    return set(re.findall(r'"(\w+)"', section)) | set(re.findall(r"`(\w+)`", section))


def fields(answer: Any) -> Iterator[str]:
    """Every key in an answer, at any depth; the head's own apart."""
    if isinstance(answer, list):
        for each in answer:
            yield from fields(each)
    if isinstance(answer, dict):
        for name, value in answer.items():
            yield name
            if name not in ("ruleset", "event", "differences"):
                yield from fields(list(value.values()) if name in BY_NAME else value)


ASKED = [
    ("strength", ()),
    ("strength", ("--at", "2 6:30")),
    ("strength", ("--every-second",)),
    ("box", ("--at", "2 6:30")),
    ("penalties", ()),
    ("summary", ()),
]


@pytest.mark.parametrize(("command", "more"), ASKED)
def test_every_field_of_an_answer_stands_in_the_page(
    command: str, more: tuple[str, ...], rinkfold: Any, example: Path, started: Path
) -> None:
    """Of the example game whole, and of it while it goes on."""
    for game in (example, started):
        found = set(fields(rinkfold(command, game, *more, "--json").answer)) - EVERYWHERE
        assert found
        assert found <= named_below(command), found - named_below(command)


def test_findings(rinkfold: Any, fresh: Path) -> None:
    """Of a game in which something is missing."""
    rinkfold("record", fresh, "9:15 home penalty 12 minor tripping", "8:50 home goal ?")
    found = set(fields(rinkfold("check", fresh, "--json").answer)) - EVERYWHERE
    assert "findings" in found
    assert found <= named_below("check")


def test_rulesets(rinkfold: Any) -> None:
    """The list, and one of them."""
    for arguments in (("list",), ("show", "adult")):
        found = set(fields(rinkfold("rules", *arguments, "--json").answer)) - EVERYWHERE
        assert found <= named_below("rules"), found - named_below("rules")


def test_what_is_written(rinkfold: Any, fresh: Path) -> None:
    """An entry, a correction, the closing, and what verify says of the file."""
    for entry in ("9:15 home penalty 12 minor tripping", "void 2 wrong side", "close played"):
        found = set(fields(rinkfold("record", fresh, entry, "--json").answer)) - EVERYWHERE
        assert found <= named_below("The others"), found - named_below("The others")
    assert "head_code" in found
    assert set(fields(rinkfold("verify", fresh, "--json").answer)) - EVERYWHERE <= named_below("The others")
