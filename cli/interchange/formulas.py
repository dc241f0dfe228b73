"""Cells that a spreadsheet would run as formulas, made harmless and back.

A cell that begins like a formula gets an apostrophe before it. One that has apostrophes before such a beginning already
gets one more, so that taking one away always gives what was there.
"""

from __future__ import annotations

import re

__all__ = ["defused", "undone"]

_BEGINS = r"\s*[=+\-@\t\r\n\uFF0B\uFF0D\uFF1D\uFF20]"  # the last four: the wide forms of + - = @
_TO_DEFUSE = re.compile("'*" + _BEGINS)
_DEFUSED = re.compile("'+" + _BEGINS)


def defused(cell: str) -> str:
    """`cell` as it is safe to open.

    >>> defused("=1+1"), defused("tripping"), defused("'=1+1")
    ("'=1+1", 'tripping', "''=1+1")
    """
    return f"'{cell}" if _TO_DEFUSE.match(cell) else cell


def undone(cell: str) -> str:
    """`cell` as it was before `defused`.

    >>> undone("'=1+1"), undone("'tis"), undone("''=1+1")
    ('=1+1', "'tis", "'=1+1")
    """
    return cell[1:] if _DEFUSED.match(cell) else cell
