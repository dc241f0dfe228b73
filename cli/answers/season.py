"""`season --json`: every sheet of the season, a row an object."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..season.sheets import Cell, Sheet
from ..season.totals import Season
from .common import ANSWER_FORMAT, DECIDES

__all__ = ["season_answer"]


def season_answer(season: Season, sheets: Sequence[Sheet]) -> dict[str, Any]:
    """``{"games", "rulesets", "note", "results": [{…}], "teams", …}``: a list for each sheet, under its name."""
    return {
        "rinkfold": ANSWER_FORMAT,
        "games": len(season.results),
        "rulesets": [
            {"name": name, "overridden": changed, "games": games}
            for (name, changed), games in sorted(season.rules.items())
        ],
        "note": DECIDES,
        **{sheet.name: [_row(sheet, row) for row in sheet.rows] for sheet in sheets},
    }


def _row(sheet: Sheet, row: Sequence[Cell]) -> dict[str, Any]:
    return {column.name: _plain(cell) for column, cell in zip(sheet.columns, row, strict=True)}


def _plain(cell: Cell) -> Cell:
    """Whole numbers as integers, as in all answers."""
    return int(cell) if isinstance(cell, float) and cell.is_integer() else cell
