"""A roster from a table that people keep in a spreadsheet: CSV with the heads ``number,name,position,letter,status``.

Only the number is needed. Columns may stand in any order, with commas, semicolons or tabs between them.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from typing import NoReturn

from ..timeline.problems import Problem, ProblemsFound
from .interchange.csv_text import LONGEST, read_text

__all__ = ["COLUMNS", "VALUES", "parse_roster", "read_roster"]

COLUMNS = ("number", "name", "position", "letter", "status")
VALUES: Mapping[str, Mapping[str, str]] = {
    "position": {
        **dict.fromkeys(("goalkeeper", "goalie", "goaltender", "g", "gk"), "goalkeeper"),
        **dict.fromkeys(("forward", "f"), "forward"),
        **dict.fromkeys(("defence", "defense", "d"), "defence"),
    },
    "letter": {"c": "C", "a": "A"},
    "status": {word: word for word in ("playing", "absent", "injured", "suspended")},
}
"""What may stand in a column, in small letters, and what it is in the log."""

Row = tuple[int, Mapping[str, str]]


def read_roster(path: str) -> list[dict[str, str]]:
    """The players in the CSV file at `path`, as objects of the log.

    Raises:
        ProblemsFound: the file cannot be read, or is no roster; every problem of it.
    """
    players, problems = parse_roster(read_text(path, "roster"), path)
    if problems:
        raise ProblemsFound(problems)
    return players


def parse_roster(text: str, path: str = "") -> tuple[list[dict[str, str]], list[Problem]]:
    """The players in the text of such a table, and every problem of it; `path` is what messages call it.

    Raises:
        ProblemsFound: it has not the heads of a roster, or a line with too many cells.
    """
    rows = list(_rows(path, text))
    problems: list[Problem] = []
    players = [_player(path, row, problems) for row in rows]
    return players, [*problems, *_twice(path, rows)]


def _refuse(path: str, line: int | None, code: str, message: str, fix: str) -> NoReturn:
    raise ProblemsFound([Problem(code=code, message=message, fix=fix, file=path, line=line)])


def _rows(path: str, text: str) -> Iterator[Row]:
    """Each line with something in it, by its number, as column and cell."""
    try:
        yield from _lines(path, text)
    except csv.Error as error:
        _refuse(path, None, "no_table", f"This is no CSV: {error}.", "Save the roster anew from the spreadsheet.")


def _lines(path: str, text: str) -> Iterator[Row]:
    lines = text.splitlines()
    delimiter = next((mark for mark in ";\t" if lines and mark in lines[0]), ",")
    reader = csv.reader(lines, delimiter=delimiter)
    csv.field_size_limit(LONGEST)
    heads = [head.strip().lower() for head in next(reader, [])]
    _check_heads(path, heads)
    for cells in reader:
        if any(cell.strip() for cell in cells):
            if len(cells) > len(heads):
                _refuse(
                    path, reader.line_num, "roster_cells", f"Found {len(cells)} cells under {len(heads)} heads.", ""
                )
            yield reader.line_num, {head: cell.strip() for head, cell in zip(heads, cells, strict=False)}


def _check_heads(path: str, heads: list[str]) -> None:
    unknown = [head for head in heads if head not in COLUMNS]
    if "number" not in heads or unknown or len(set(heads)) < len(heads):
        found = ", ".join(heads) or "nothing"
        message = f"Expected the heads {', '.join(COLUMNS)} (number is needed) in the first line, found: {found}."
        _refuse(path, 1, "roster_heads", message, "")


def _player(path: str, row: Row, problems: list[Problem]) -> dict[str, str]:
    line, cells = row
    player = {column: cells[column] for column in COLUMNS if cells.get(column)}
    if "number" not in player:
        problems.append(_problem(path, line, "number", "The number is missing.", "A player without one is left out."))
    for column, values in VALUES.items():
        if column in player and (value := values.get(player[column].lower())) is not None:
            player[column] = value
        elif column in player:
            expected = ", ".join(dict.fromkeys(values.values()))
            message = f"Expected {expected}, found {player[column]!r}."
            problems.append(_problem(path, line, column, message, ""))
    return player


def _twice(path: str, rows: list[Row]) -> Iterator[Problem]:
    lines: dict[str, int] = {}
    for line, cells in rows:
        number = cells.get("number", "")
        if number and number in lines:
            message = f"Number {number} stands in line {lines[number]} too."
            yield _problem(path, line, "number", message, "Each number is one player's.")
        lines.setdefault(number, line)


def _problem(path: str, line: int, field: str, message: str, fix: str) -> Problem:
    return Problem(code=f"roster_{field}", message=message, fix=fix, file=path, line=line, field=field)
