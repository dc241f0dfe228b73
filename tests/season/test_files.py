"""The tables as files."""

from __future__ import annotations

import csv
import io
import sys
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.season.files import csv_text, parquet_bytes
from rinkfold.cli.season.sheets import Column, Sheet, sheets
from rinkfold.cli.season.summaries import GameSummary
from rinkfold.cli.season.totals import Season, season_of

NAMES = (
    "results",
    "teams",
    "players",
    "goalies",
    "penalties",
    "findings",
    "scorekeepers",
    "unreadable",
    "same_game",
)


def read(path: Path) -> list[dict[str, str]]:
    """The rows of a CSV file."""
    with path.open(encoding="utf-8", newline="") as file:
        return [*csv.DictReader(file)]


def as_csv(cell: Any) -> str:
    """How a cell of a JSON answer is read from CSV."""
    return "" if cell is None else {"True": "yes", "False": "no"}.get(str(cell), str(cell))


def one_cell(cell: Any) -> str:
    """How a cell stands in CSV."""
    return csv_text(Sheet("x", (Column("a", "text"),), ((cell,),))).split("\r\n")[1]


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1", "-1", "@SUM(A1)", "\uff1d1", "\uff0b1", "\uff0d1", "\uff20A1", " \uff1d1", "\tx", "\r=1", " =1"],
)
def test_nothing_is_a_formula(text: str) -> None:
    """What a spreadsheet would reckon out begins with an apostrophe, and is text."""
    assert next(csv.reader([one_cell(text)]))[0].startswith("'")


@pytest.mark.parametrize(
    ("cell", "shown"),
    [
        ("Otters", "Otters"),
        ("00", "00"),
        (None, '""'),
        (3, "3"),
        (4.0, "4"),
        (1.5, "1.5"),
        (True, "yes"),
        (False, "no"),
    ],
)
def test_cells(cell: Any, shown: str) -> None:
    """Numbers as numbers, and nothing where nothing is known."""
    assert one_cell(cell) == shown


def test_csv_files(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """Every table, with what the JSON answer has."""
    ran = rinkfold("season", tiny, "--csv", tmp_path / "out" / "csv", "--json")
    assert (ran.code, ran.err) == (1, f"Wrote {len(NAMES)} tables as CSV into {tmp_path / 'out' / 'csv'}.\n")
    assert sorted(path.stem for path in tmp_path.glob("out/csv/*")) == sorted(NAMES)
    for name in NAMES:
        expected = [{key: as_csv(cell) for key, cell in row.items()} for row in ran.answer[name]]
        assert read(tmp_path / "out" / "csv" / f"{name}.csv") == expected, name
    first = read(tmp_path / "out" / "csv" / "results.csv")[0]
    assert (first["home"], first["home_goals"], first["counted"]) == ("Elmside Larks", "2", "yes")


def test_files_of_an_earlier_run_are_replaced(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """And nothing else in the folder is touched."""
    (tmp_path / "teams.csv").write_text("old")
    (tmp_path / "mine.txt").write_text("mine")
    rinkfold("season", tiny, "--csv", tmp_path)
    assert read(tmp_path / "teams.csv")[0]["team"] == "Elmside Larks"
    assert (tmp_path / "mine.txt").read_text() == "mine"
    assert not [path for path in tmp_path.iterdir() if path.name.endswith(".part")]


def test_a_folder_that_cannot_be_made(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """Said before anything is read."""
    (tmp_path / "file").write_text("x")
    ran = rinkfold("season", tiny, "--csv", tmp_path / "file")
    assert (ran.code, ran.out) == (2, "")
    assert "The folder cannot be made" in ran.err


def test_parquet_without_pyarrow(rinkfold: Any, tiny: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What to install, and that CSV works; nothing is written."""
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    monkeypatch.delitem(sys.modules, "pyarrow.parquet", raising=False)
    ran = rinkfold("season", tiny, "--parquet", tmp_path / "out")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        "--parquet needs the package pyarrow, which is not installed. Install it with: pip install "
        "'rinkfold[parquet]'. --csv works without it.\n"
    )
    assert not (tmp_path / "out").exists()


def pyarrow() -> Any:
    """The package, or the test is left out."""
    return pytest.importorskip("pyarrow.parquet", reason="pyarrow, the extra `parquet`, is not installed")


def test_parquet_files(rinkfold: Any, tiny: Path, tmp_path: Path) -> None:
    """Every table, with what the JSON answer has."""
    parquet = pyarrow()
    ran = rinkfold("season", tiny, "--parquet", tmp_path, "--json")
    assert sorted(path.stem for path in tmp_path.glob("*.parquet")) == sorted(NAMES)
    for name in NAMES:
        assert parquet.read_table(tmp_path / f"{name}.parquet").to_pylist() == ran.answer[name], name


def test_parquet_is_typed_without_a_row() -> None:
    """So that the tables of two seasons can be put together."""
    parquet = pyarrow()
    whole, empty = (
        {sheet.name: parquet.read_schema(io.BytesIO(parquet_bytes(sheet))) for sheet in sheets(season, names=True)}
        for season in (season_of(()), Season())
    )
    assert whole == empty
    assert [str(kind) for kind in whole["goalies"].types[3:6]] == ["string", "int64", "double"]


def test_no_name_without_names(rows: tuple[GameSummary, ...]) -> None:
    """Not even where the summaries have them; people who keep records are numbered."""
    season = season_of(rows)
    shown = "".join(csv_text(sheet) for sheet in sheets(season, names=False))
    people = {name for player in season.players.values() for name in player.names}
    people |= {name for goalie in season.goalies.values() for name in goalie.names}
    people |= {who for who in season.scorekeepers if who is not None}
    assert len(people) > 50
    assert not [name for name in people if name in shown]
    with_names = "".join(csv_text(sheet) for sheet in sheets(season, names=True))
    assert [name for name in people if name not in with_names] == []
