"""Instants as single numbers that sort as the game went.

The script is sorted by (period, played). Both are packed into one integer, which makes comparing and bisecting a
matter of plain numbers. Beside the instants there are a few *places without an instant*, for events that have none of
their own: before the game, before and after everything in a period, and after the closing of the record.
"""

from __future__ import annotations

from ..clock import parse_reading, played_in_period
from ..rules import Ruleset

__all__ = ["BEFORE", "CLOSED", "NOWHERE", "Instants", "end_of", "in_period", "period_of", "played_of", "start_of"]

_BITS = 24  # tenths that fit in a period; 999:59.9, the greatest reading, needs 20

NOWHERE = -1
"""The key of what has no place in the script."""

BEFORE = 0
"""The key of what was written before anything happened in the game."""

CLOSED = 1 << 96
"""The key of the closing of the record and of what stands after it."""


def start_of(period: int) -> int:
    """The key of what stands before everything in `period`."""
    return period << _BITS


def end_of(period: int) -> int:
    """The key of what stands after everything in `period`."""
    return (period + 1 << _BITS) - 1


def period_of(key: int) -> int:
    """The period of `key`; 1 before the game."""
    return key >> _BITS or 1


def played_of(key: int) -> int | None:
    """Tenths played in the period at `key`; ``None`` for a place without an instant."""
    tenths = key & end_of(0)
    return None if tenths in (0, end_of(0)) or key >= CLOSED else tenths - 1


class Instants:
    """The instants of readings under one ruleset; each is worked out once."""

    def __init__(self, rules: Ruleset) -> None:
        self._rules = rules
        self._known: dict[tuple[int, str], tuple[int, int]] = {}

    def instant(self, period: int, clock: str) -> tuple[int, int]:
        """Key and played tenths of the instant at which the board shows `clock` in `period`."""
        known = self._known.get((period, clock))
        if known is None:
            rules = self._rules
            played = played_in_period(parse_reading(clock), rules.period_length(period), rules.game.reading)
            self._known[period, clock] = known = (start_of(period) + 1 + played, played)
        return known


def in_period(period: int, front: int) -> int:
    """The key of something in `period` without a reading, written when the game had come to `front`.

    It stands there; if that is another period, at the end or at the start of its own.
    """
    return min(max(front, start_of(period)), end_of(period))
