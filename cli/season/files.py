"""Sheets as files: CSV for spreadsheets, Parquet for data frames. Each file is whole or not there."""

from __future__ import annotations

import csv
import importlib
import io
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from ..errors import refuse
from ..files import replace_file
from ..interchange.formulas import defused
from .sheets import Cell, Kind, Sheet

__all__ = ["csv_text", "make_folder", "parquet_bytes", "parquet_ready", "write_csv", "write_parquet"]


def make_folder(folder: str) -> None:
    """Make the folder that files are written into, before the long work and not after it.

    Raises:
        ProblemsFound: it cannot be made.
    """
    try:
        Path(folder).mkdir(parents=True, exist_ok=True)
    except OSError as error:
        refuse("no_folder", f"The folder cannot be made: {error.strerror}.", "Name another one.", file=folder)


def parquet_ready() -> None:
    """Make sure that Parquet can be written.

    Raises:
        ProblemsFound: pyarrow is not installed.
    """
    try:
        _pyarrow("parquet")
    except ImportError:
        refuse(
            "no_pyarrow",
            "--parquet needs the package pyarrow, which is not installed.",
            "Install it with: pip install 'rinkfold[parquet]'. --csv works without it.",
        )


def write_csv(sheets: Iterable[Sheet], folder: str) -> None:
    """One ``NAME.csv`` for each sheet; those that are there from an earlier run are replaced."""
    for sheet in sheets:
        replace_file(Path(folder, f"{sheet.name}.csv"), csv_text(sheet).encode())


def csv_text(sheet: Sheet) -> str:
    """A sheet with its heads; nothing in it is a formula, and what is not known is empty."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\r\n")
    rows.writerow(column.name for column in sheet.columns)
    rows.writerows([_csv_cell(cell) for cell in row] for row in sheet.rows)
    return text.getvalue()


def _csv_cell(cell: Cell) -> str | int:
    if isinstance(cell, str):
        return defused(cell)
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    return "" if cell is None else int(cell) if cell == int(cell) else str(cell)


def write_parquet(sheets: Iterable[Sheet], folder: str) -> None:
    """One ``NAME.parquet`` for each sheet; those that are there from an earlier run are replaced."""
    for sheet in sheets:
        replace_file(Path(folder, f"{sheet.name}.parquet"), parquet_bytes(sheet))


def parquet_bytes(sheet: Sheet) -> bytes:
    """A sheet as a Parquet file, its columns typed also where it has no row."""
    pa, parquet = _pyarrow(), _pyarrow("parquet")
    types: Mapping[Kind, Callable[[], Any]] = {
        "text": pa.string,
        "count": pa.int64,
        "number": pa.float64,
        "yes or no": pa.bool_,
    }
    schema = pa.schema([(column.name, types[column.kind]()) for column in sheet.columns])
    columns = [[row[index] for row in sheet.rows] for index in range(len(sheet.columns))]
    arrays = [pa.array(cells, field.type) for cells, field in zip(columns, schema, strict=True)]
    made = io.BytesIO()
    parquet.write_table(pa.Table.from_arrays(arrays, schema=schema), made)
    return made.getvalue()


def _pyarrow(module: str = "") -> Any:
    """The package or a module of it, which is there only where somebody wants Parquet; it has no types."""
    return importlib.import_module(f"pyarrow.{module}" if module else "pyarrow")
