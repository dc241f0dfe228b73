"""Tables as CSV text: UTF-8, commas between the cells, a line end as on the web (CR LF); and back.

Read is what people save: commas, semicolons or tabs, any line end, with or without a byte order mark.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NoReturn

from attrs import frozen

from ..errors import refuse

__all__ = ["LONGEST", "Row", "csv_text", "read_rows", "read_text"]

LONGEST = 1 << 20
"""Characters of one cell; a whole ruleset in one takes about a hundredth of that."""


@frozen
class Row:
    """A line of a table: where it begins in the file, counted from 1, and what stands under each head."""

    line: int
    cells: dict[str, str]


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """The table with its heads."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return text.getvalue()


def read_text(path: str, what: str = "table") -> str:
    """The text of the file at `path`; `what` is what messages call it.

    Raises:
        ProblemsFound: it cannot be read, or is not UTF-8.
    """
    try:
        return Path(path).read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        refuse("not_utf8", f"The {what} is not UTF-8.", 'Save it as "CSV UTF-8".', file=path)
    except IsADirectoryError:
        refuse("no_file", f"The {what} is a folder.", "Name the CSV file itself.", file=path)
    except FileNotFoundError:
        refuse("no_file", f"The {what} is not there.", "Look for a wrong name.", file=path)
    except OSError as error:
        refuse("file_trouble", f"The {what} cannot be read: {error.strerror}.", file=path)


def read_rows(path: str, text: str) -> tuple[list[str], Iterator[Row]]:
    """The heads in small letters, and each line with something in it.

    Raises:
        ProblemsFound: it is no table, or a line has more cells than there are heads; also while the lines are read.
    """
    first = text.split("\n", 1)[0]
    delimiter = next((mark for mark in ";\t" if mark in first and "," not in first), ",")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    csv.field_size_limit(LONGEST)
    heads = [head.strip().lower().replace(" ", "_") for head in _next(path, reader, 1) or []]
    return heads, _rows(path, reader, heads)


def _rows(path: str, reader: Iterator[list[str]], heads: list[str]) -> Iterator[Row]:
    line = _line(reader)
    while (cells := _next(path, reader, line + 1)) is not None:
        begins, line = line + 1, _line(reader)
        while heads and len(cells) > len(heads) and not cells[-1].strip():
            cells.pop()
        if len(cells) > len(heads):
            _refuse(path, begins, "table_cells", f"Found {len(cells)} cells under {len(heads)} heads.")
        filled = {head: cell.strip() for head, cell in zip(heads, cells, strict=False) if cell.strip()}
        if filled:
            yield Row(begins, filled)


def _line(reader: Iterator[list[str]]) -> int:
    """The line of the file that was read last."""
    return int(getattr(reader, "line_num", 0))


def _next(path: str, reader: Iterator[list[str]], line: int) -> list[str] | None:
    try:
        return next(reader, None)
    except csv.Error as error:
        _refuse(path, line, "no_table", f"This is no CSV: {error}.")


def _refuse(path: str, line: int, code: str, message: str) -> NoReturn:
    refuse(code, message, "Put a text with commas or line ends in it into quotation marks.", file=path, line=line)
