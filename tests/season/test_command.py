"""`rinkfold season` as it is typed and read."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.paper import Style
from rinkfold.cli.season.summaries import GameSummary
from rinkfold.cli.season.totals import season_of
from rinkfold.cli.tables.season import season_lines


def test_the_text_of_a_tiny_season(rinkfold: Any, tiny: Path, golden: Any) -> None:
    """Four games that can be added up by hand, one of them with an error, and a file that cannot be read."""
    ran = rinkfold("season", tiny)
    assert (ran.code, ran.err) == (1, "")
    assert ran.out == golden("season")


def test_names_are_shown_when_asked_for(rinkfold: Any, tiny: Path, golden: Any) -> None:
    """Players and scorekeepers."""
    ran = rinkfold("season", tiny, "--names")
    assert ran.out == golden("names")
    for name in ("Kit Alder", "Greta Birk", "Bram Kestrel"):
        assert name in ran.out
        assert name not in golden("season")


def test_json(rinkfold: Any, tiny: Path) -> None:
    """Every table as a list of objects."""
    answer = rinkfold("season", tiny, "--json").answer
    assert {key: answer[key] for key in ("rinkfold", "games", "rulesets")} == {
        "rinkfold": 1,
        "games": 4,
        "rulesets": [{"name": "youth-14u", "overridden": "", "games": 4}],
    }
    assert answer["note"] == "The league's own rules and the officials on the ice decide."
    larks, otters = answer["teams"]
    assert (larks["team"], otters["team"]) == ("Elmside Larks", "Mill Otters")
    assert (larks["wins_regulation"], larks["wins_overtime"], larks["losses_shootout"]) == (2, 1, 1)
    assert (larks["goals_for"], larks["goals_against"]) == (5, 2)
    assert answer["players"][-1] == {
        "competition": "River league",
        "team": "Mill Otters",
        "number": "16",
        "goals": 0,
        "assists": 1,
        "points": 1,
        "penalties": 0,
        "penalty_minutes": 0,
    }
    assert answer["goalies"][1] == {
        "competition": "River league",
        "team": "Mill Otters",
        "number": "30",
        "games": 4,
        "time_s": 11220,
        "shots": 8,
        "saves": 3,
        "goals_against": 5,
    }
    assert [one["file"] for one in answer["unreadable"]] == ["torn.jsonl"]
    assert {"file": "game-4.jsonl", "game": "game-4", "code": "in_the_box", "severity": "error", "count": 1} in (
        answer["findings"]
    )


def test_all_is_well(rinkfold: Any, season_folder: Path) -> None:
    """Exit code 0 where there is nothing but notes; many results are counted and not listed."""
    ran = rinkfold("season", season_folder, "--jobs", "1")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("70 games, ")
    assert "Each of them: --csv or --json." in ran.out
    assert "Games with errors" not in ran.out


def test_one_process_or_two(rinkfold: Any, season_folder: Path) -> None:
    """Give the same answer."""
    one = rinkfold("season", season_folder, "--jobs", "1", "--json")
    two = rinkfold("season", season_folder, "--jobs", "2", "--json")
    assert one == two


def test_a_file_that_cannot_be_read_does_not_stop_it(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """It is listed, the others are counted, and the exit code says so."""
    for name in ("game-1.jsonl", "torn.jsonl"):
        shutil.copy(tiny / name, tmp_path)
    (tmp_path / "no-log.jsonl").write_bytes(b"\xff\x00")
    ran = rinkfold("season", tmp_path)
    assert ran.code == 1
    assert ran.out.startswith("1 game, 2 files not readable, 2 teams\n")
    assert "\n  torn.jsonl:1: away: The field is missing" in ran.out
    assert "\n  no-log.jsonl" in ran.out


def test_a_copy_is_said(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """With the file it is a copy of."""
    shutil.copy(tiny / "game-1.jsonl", tmp_path / "a.jsonl")
    shutil.copy(tiny / "game-1.jsonl", tmp_path / "b.jsonl")
    ran = rinkfold("season", tmp_path)
    assert ran.code == 1
    assert "There twice\n  b.jsonl is a copy of a.jsonl and was not counted\n" in ran.out


def test_no_such_folder_a_file_and_no_games(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """Exit code 2, one message, nothing written."""
    out = tmp_path / "out"
    (tmp_path / "empty").mkdir()
    for folder, message in {
        tmp_path / "none": "The folder is not there. Name the folder that the logs are in.",
        tiny / "game-1.jsonl": "The folder is a file, not a folder. Name the folder that the logs are in.",
        tmp_path / "empty": "No game is in this folder: no file ends with .jsonl.",
    }.items():
        ran = rinkfold("season", folder, "--csv", out)
        assert (ran.code, ran.out, ran.err) == (2, "", f"{folder}: {message}\n")
    assert not out.exists()


def test_a_wrong_number_of_processes(rinkfold: Any, tiny: Path) -> None:
    """Exit code 2."""
    ran = rinkfold("season", tiny, "--jobs", "many")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "--jobs 'many' is no number of processes. Write one from 1 to 60.\n"


def test_progress_on_a_terminal(
    rinkfold: Any, tiny: Path, golden: Any, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """On standard error alone, wiped at the end, and not with --no-progress."""
    monkeypatch.setattr("rinkfold.cli.season.progress.EVERY", 0.0)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    ran = rinkfold("season", tiny)
    assert ran.out == golden("season")
    assert "5 of 5 games" in ran.err
    assert ran.err.endswith("\r")
    assert rinkfold("season", tiny, "--no-progress").err == ""


def test_long_tables_are_cut(rows: tuple[GameSummary, ...]) -> None:
    """With how many more there are, and where; a whole season stays within a few screens."""
    lines = season_lines(season_of(rows), names=False, style=Style())
    assert sum(line.startswith("  and ") and line.endswith("--csv or --json") for line in lines) >= 6
    assert len(lines) < 300
