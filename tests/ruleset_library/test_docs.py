"""The page about rulesets says what is so: its tables are made again here and compared."""

from __future__ import annotations

import inspect
import re
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.cli.main import app
from rinkfold.rulesets import oddities
from rinkfold.timeline.rules import KNOBS, Knob

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "rulesets.md").read_text(encoding="utf-8")
BASE = "youth-18u"

UNITS = {"length": "reading", "yes or no": "`true`, `false`"}


def section(title: str) -> str:
    return PAGE.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def rows(title: str) -> list[str]:
    """The rows of the table in a section, without its head."""
    return re.findall(r"^\|.*\|$", section(title), re.M)[2:]


def said(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def values_of(knob: Knob) -> str:
    if knob.values:
        return ", ".join(f"`{value}`" for value in knob.values)
    if knob.unit in UNITS:
        return UNITS[knob.unit]
    span = f"{knob.least} to {knob.most}" if knob.most is not None else f"{knob.least} and up"
    return f"{knob.unit}, {span}"


def knob_row(knob: Knob) -> str:
    value = said(rulesets.written(knob.default, knob))
    return f"| `{knob.name}` | {values_of(knob)} | {value} | {knob.meaning} |"


def ruleset_row(name: str) -> str:
    rules = rulesets.load(name)
    changed = [f"`{knob}` {said(value)}" for knob, _, value in rulesets.diff(rulesets.load(BASE), rules)]
    return f"| `{name}` | {rules.title} | {', '.join(changed)} |"


def test_the_knob_table_has_every_knob() -> None:
    """Name, values, what holds where nothing is set, and meaning, in the order of the class."""
    assert rows("All knobs") == [knob_row(knob) for knob in KNOBS.values()]


def test_the_table_of_what_is_shipped() -> None:
    """Each shipped ruleset, with what it sets otherwise than the ground of the youth rulesets."""
    shipped = [name for name in rulesets.names() if name in PAGE]
    assert len(shipped) == 11
    assert rows("What is shipped") == [ruleset_row(name) for name in shipped]


@pytest.mark.parametrize("block", re.findall(r"```toml\n(.*?)```", PAGE, re.S), ids=lambda block: block.split("\n")[0])
def test_every_example_file_loads(block: str, tmp_path: Path) -> None:
    """What the page shows can be saved and used as it stands."""
    path = tmp_path / "our-league.toml"
    path.write_text(block, encoding="utf-8")
    assert rulesets.load(path).name == "our-league"


def test_the_league_of_the_page_plays_what_the_page_says() -> None:
    """The first example and the line that the page shows for it belong together."""
    assert len(re.findall(r"```toml\n", PAGE)) >= 1
    assert rulesets.applied_line(rulesets.load("youth-10u")) in PAGE


def test_the_page_says_who_decides() -> None:
    """The league's own rules and the officials on the ice do."""
    assert "the league's own rules and the officials on the ice decide" in PAGE


def test_every_code_of_an_odd_thing_stands_in_the_page() -> None:
    """With its severity, and no other code."""
    source = inspect.getsource(oddities)
    told = set(re.findall(r'_odd\(\s*"(\w+)"', source))
    assert set(re.findall(r"`(\w+)`", " ".join(row.split("|")[1] for row in rows("Checking a file")))) == told


def test_the_comparison_that_the_page_shows(capsys: pytest.CaptureFixture[str]) -> None:
    """Is what the tool says, word for word."""
    command, _, expected = (
        section("Comparing two").partition("```console\n$ rinkfold ")[2].partition("```")[0].partition("\n")
    )
    with pytest.raises(SystemExit) as end:
        app(command.split())
    assert (end.value.code, capsys.readouterr().out) == (1, expected)
