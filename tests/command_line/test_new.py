"""`rinkfold new`: a game opened."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

TEAMS = ("--home", "Elm Owls", "--away", "Oak Otters")


def test_the_first_line_and_what_will_be_applied(rinkfold: Any, tmp_path: Path) -> None:
    """The ruleset is pinned whole, and said in one line."""
    path = tmp_path / "game.jsonl"
    ran = rinkfold(
        "new", path, "--ruleset", "youth-14u", *TEAMS,
        "--home-short", "ELM", "--home-colour", "green", "--away-colour", "white",
        "--date", "2026-01-10", "--start", "18:30", "--rink", "North", "--competition", "Cup",
        "--setting", "lengths.minor=1:30", "--setting", "overtime.skaters=3",
        "--setting", "coincident.late_netting=yes",
    )  # fmt: skip
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0] == f"Opened {path}: Elm Owls (home) against Oak Otters (away)."
    assert lines[1].startswith("minor 1:30 · period 15:00 · board counts down · overtime 5:00, 3 on 3")
    assert lines[-1].startswith(
        "Rules: youth-14u, with lengths.minor 1:30, overtime.skaters 3, coincident.late_netting yes."
    )
    header = json.loads(path.read_text("utf-8"))
    pinned = header.pop("pinned")
    assert pinned["knobs"]["lengths.minor"] == "1:30"
    assert header == {
        "seq": 1,
        "kind": "game_opened",
        "format": 1,
        "game": "elm-oak-otters-2026-01-10",
        "ruleset": "youth-14u",
        "settings": {"lengths.minor": "1:30", "overtime.skaters": 3, "coincident.late_netting": True},
        "home": {"name": "Elm Owls", "short": "ELM", "colour": "green"},
        "away": {"name": "Oak Otters", "colour": "white"},
        "date": "2026-01-10",
        "start": "18:30",
        "rink": "North",
        "competition": "Cup",
        "prev": "",
    }


def test_the_day_is_today_unless_it_is_given(rinkfold: Any, tmp_path: Path) -> None:
    """Nobody has to type the date at the rink."""
    before = date.today().isoformat()
    rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", *TEAMS)
    assert before <= json.loads((tmp_path / "g.jsonl").read_text("utf-8"))["date"] <= date.today().isoformat()


def test_the_shape_for_programs(rinkfold: Any, tmp_path: Path) -> None:
    """The file and what will be applied."""
    answer = rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", *TEAMS, "--id", "cup-1", "--json").answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "file", "applied"}
    assert answer["game"] == "cup-1"


def test_an_existing_file_is_never_written_over(rinkfold: Any, fresh: Path) -> None:
    """Exit code 2, and the file as it was."""
    before = fresh.read_bytes()
    ran = rinkfold("new", fresh, "--ruleset", "adult", *TEAMS)
    assert (ran.code, ran.out) == (2, "")
    assert (
        ran.err
        == f"{fresh}: There is a file of this name already; a game is never opened over another. Choose another name.\n"
    )
    assert fresh.read_bytes() == before


ROSTERS = [
    "number,name,position,letter,status\n12,Kim Rask,forward,C,playing\n31,,goalkeeper,,\n",
    "\ufeffname;number;letter;position;status\r\nKim Rask;12;c;F;Playing\r\n;31;;G;\r\n;;;;\r\n",
    "Number\tName\tPosition\tLetter\tStatus\n12\tKim Rask\tforward\tC\tplaying\n31\t\tgoalie\t\t\n",
]


@pytest.mark.parametrize("text", ROSTERS, ids=["commas", "semicolons", "tabs"])
def test_a_roster_from_a_spreadsheet(text: str, rinkfold: Any, tmp_path: Path) -> None:
    """Columns in any order, with the marks that spreadsheets write; empty cells and lines are left out."""
    (tmp_path / "roster.csv").write_bytes(text.encode())
    rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", *TEAMS, "--away-roster", tmp_path / "roster.csv")
    assert json.loads((tmp_path / "g.jsonl").read_text("utf-8"))["away"]["roster"] == [
        {"number": "12", "name": "Kim Rask", "position": "forward", "letter": "C", "status": "playing"},
        {"number": "31", "position": "goalkeeper"},
    ]


HEADS = "1: Expected the heads number, name, position, letter, status (number is needed) in the first line"
BAD_ROSTERS = [
    ("", f"{HEADS}, found: nothing."),
    ("name\nKim\n", f"{HEADS}, found: name."),
    ("number,birthday\n", f"{HEADS}, found: number, birthday."),
    ("number,position\n12,centre\n", "2: position: Expected goalkeeper, forward, defence, found 'centre'."),
    ("number,letter\n12,K\n", "2: letter: Expected C, A, found 'K'."),
    ("number,name\n,Kim\n", "2: number: The number is missing. A player without one is left out."),
    ("number\n12\n12\n", "3: number: Number 12 stands in line 2 too. Each number is one player's."),
    ("number,name\n12,Kim,C\n", "2: Found 3 cells under 2 heads."),
    (
        f"number,name\n12,{'K' * 1_100_000}\n",
        " This is no CSV: field larger than field limit (1048576). Save the roster anew from the spreadsheet.",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("text", "message"), BAD_ROSTERS, ids=lambda value: value[:24])
def test_a_roster_that_is_not_right(text: str, message: str, rinkfold: Any, tmp_path: Path) -> None:
    """File, line, column, what was found and expected; no game is opened."""
    roster = tmp_path / "roster.csv"
    roster.write_text(text, encoding="utf-8")
    ran = rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", *TEAMS, "--home-roster", roster)
    assert (ran.code, ran.out, ran.err) == (2, "", f"{roster}:{message}\n")
    assert not (tmp_path / "g.jsonl").exists()


def test_a_roster_that_is_not_there_or_not_text(rinkfold: Any, tmp_path: Path) -> None:
    """One message with the remedy."""
    latin = tmp_path / "latin.csv"
    latin.write_bytes("number,name\n12,J\xf6rg\n".encode("latin-1"))
    for roster, message in (
        (tmp_path / "none.csv", "The roster is not there. Look for a wrong name."),
        (tmp_path, "The roster is a folder. Name the CSV file itself."),
        (latin, 'The roster is not UTF-8. Save it as "CSV UTF-8".'),
    ):
        ran = rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", *TEAMS, "--home-roster", roster)
        assert (ran.code, ran.err) == (2, f"{roster}: {message}\n")


@pytest.mark.parametrize(
    "options",
    [
        ("--ruleset", "youth-99u"),
        ("--ruleset", "adult", "--setting", "lengths.minor"),
        ("--ruleset", "adult", "--setting", "lengths.minr=1:30"),
        ("--ruleset", "adult", "--setting", "lengths.minor=soon"),
        ("--ruleset", "adult", "--date", "tomorrow"),
        (),
    ],
    ids=["ruleset", "no value", "no knob", "no reading", "no date", "no ruleset"],
)
def test_what_is_not_right_opens_no_game(options: tuple[str, ...], rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 2, a message, no file."""
    ran = rinkfold("new", tmp_path / "g.jsonl", *options, *TEAMS)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err
    assert "Traceback" not in ran.err
    assert "fault" not in ran.err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("teams", "message"),
    [
        (("--home", "Alpha", "--away", "alpha "), "Both teams are called Alpha. Give each a name of its own."),
        (("--home", "Away", "--away", "Home"), "The home team is called Away, and in entries that is the away side."),
        (("--home", "Elm", "--away", "Home"), "The away team is called Home, and in entries that is the home side."),
        ((*TEAMS, "--home-colour", "visitors"), "The home team is called visitors, and in entries that is the away "),
    ],
)
def test_names_that_mix_up_the_sides(teams: tuple[str, ...], message: str, rinkfold: Any, tmp_path: Path) -> None:
    """An entry must never go to the other side; nothing is opened."""
    path = tmp_path / "game.jsonl"
    ran = rinkfold("new", path, "--ruleset", "adult", *teams)
    assert (ran.code, ran.out, path.exists()) == (2, "", False)
    assert ran.err.startswith(message)


def test_a_side_may_be_called_what_it_is(rinkfold: Any, tmp_path: Path) -> None:
    """`home` is the home side either way."""
    assert rinkfold("new", tmp_path / "g.jsonl", "--ruleset", "adult", "--home", "Home", "--away", "Visitors").code == 0
