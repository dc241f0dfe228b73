"""The page about checks says what is so."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

from rinkfold.timeline.views.findings import KINDS, Kind
from rinkfold.timeline.views.findings.checks import TOPICS

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "checks.md").read_text(encoding="utf-8")
README = (ROOT / "README.md").read_text(encoding="utf-8")


def kinds_of(topic: ModuleType) -> list[Kind]:
    return [value for value in vars(topic).values() if isinstance(value, Kind)]


def title(topic: ModuleType) -> str:
    return (topic.__doc__ or "").split("\n")[0].rstrip(".")


@pytest.mark.parametrize("topic", TOPICS, ids=title)
def test_the_table_of_each_topic(topic: ModuleType) -> None:
    """Code, severity, what it says and what to do, in the order of the checks."""
    section = PAGE.partition(f"\n## {title(topic)}\n")[2].partition("\n## ")[0]
    rows = re.findall(r"^\|.*\|$", section, re.M)[2:]
    assert rows == [f"| `{kind.code}` | {kind.severity} | {kind.says} | {kind.remedy} |" for kind in kinds_of(topic)]


def test_the_page_has_every_kind_and_no_other() -> None:
    """Nothing is left on the page that is no longer found."""
    assert re.findall(r"^\| `([a-z_]+)` \|", PAGE, re.M) == [kind.code for kind in KINDS]


def test_the_table_in_the_readme() -> None:
    """A row for each topic, with the code of everything that it can find, in the order of the checks."""
    section = README.partition("\n## What `check` looks for\n")[2].partition("\n## ")[0]
    rows = re.findall(r"^\|.*\|$", section, re.M)[2:]
    codes = {topic: " ".join(f"`{kind.code}`" for kind in kinds_of(topic)) for topic in TOPICS}
    assert rows == [f"| {title(topic)} | {codes[topic]} |" for topic in TOPICS]


def test_the_page_says_who_decides() -> None:
    """The league's own rules and the officials on the ice do."""
    assert "The league's own rules and the officials on the ice decide" in PAGE
