"""The page about tables is true: what it shows is what happens, and the columns are those that there are."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path
from typing import Any

import pytest
from live.games import game_of, written

from rinkfold.cli.interchange.tables import TABLES
from rinkfold.timeline import read_log

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "interchange.md").read_text(encoding="utf-8")
SHOWN = re.findall(r"```console\n\$ rinkfold (.*)\n((?:.*\n)*?)```", PAGE)
TABLES_SHOWN = re.findall(r"```csv\n((?:.*\n)*?)```", PAGE)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the examples and the tables of the page."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    for name, text in zip(("events.csv", "entries.csv", "wrong.csv"), TABLES_SHOWN, strict=True):
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(("command", "said"), SHOWN, ids=[shown[0][:40] for shown in SHOWN])
def test_what_is_shown_is_what_is_said(command: str, said: str, rinkfold: Any, folder: Path) -> None:
    """Word for word."""
    ran = rinkfold(*shlex.split(command))
    assert ran.out + ran.err == said


def test_the_table_of_entries_is_the_table_of_fields(rinkfold: Any, folder: Path) -> None:
    """Both tables of the page say the same game."""
    opens = ("--ruleset", "youth-12u", "--home", "Elm Owls", "--away", "Oak Otters")
    logs = []
    for name in ("events", "entries"):
        ran = rinkfold("import", f"{name}.csv", "-o", f"{name}.jsonl", *opens)
        assert (ran.code, ran.err) == (0, "")
        logs.append(read_log(f"{name}.jsonl"))
    kinds = [[(event.kind, event.period, event.clock) for event in log.events] for log in logs]
    assert kinds[0] == kinds[1]
    assert logs[1].events[2].note == "both benches warned"


@pytest.mark.parametrize("name", sorted(TABLES))
def test_the_columns_are_those_of_the_page(name: str) -> None:
    """In their order."""
    row = re.search(rf"^\| `{name}` \|.*\| (.*) \|$", PAGE, flags=re.MULTILINE)
    assert row is not None
    assert tuple(re.findall(r"`(\w+)`", row[1])) == TABLES[name](game_of(written(1)), False).heads
