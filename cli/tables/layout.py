"""Columns: as wide as what stands in them, numbers to the right, with a rule under the heads on a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from ..paper import Style

__all__ = ["columns"]

GAP = "  "
RIGHT = ">"


def columns(rows: Sequence[Sequence[str]], align: str, style: Style, heads: Sequence[str] = ()) -> list[str]:
    """`rows` as lines of aligned cells.

    Args:
        rows: the cells, as many in each row as there are columns.
        align: a ``<`` or ``>`` for each column.
        style: how heads are set off.
        heads: what stands over the columns; none where they speak for themselves.
    """
    over = [list(heads)] if heads else []
    widths = [max(map(len, column)) for column in zip(*over, *rows, strict=True)]
    lines = [_line(row, widths, align) for row in rows]
    if not heads:
        return lines
    rule = [GAP.join("─" * width for width in widths)] if style.rules else []
    return [style.strong(_line(heads, widths, align)), *rule, *lines]


def _line(row: Sequence[str], widths: Sequence[int], align: str) -> str:
    cells = (
        cell.rjust(width) if side == RIGHT else cell.ljust(width)
        for cell, width, side in zip(row, widths, align, strict=True)
    )
    return GAP.join(cells).rstrip()
