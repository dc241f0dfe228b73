"""All checks, in one tuple, and what they find in a game."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import ModuleType
from typing import TYPE_CHECKING

from ...problems import Severity
from . import (
    choices,
    clock,
    completeness,
    doors,
    ejections,
    figures,
    goals,
    observed,
    penalties,
    periods,
    rosters,
    whistles,
)
from .checked import Checked
from .finding import Finding, Kind

if TYPE_CHECKING:
    from ...game import Game

__all__ = ["CHECKS", "KINDS", "findings"]

Check = Callable[[Checked], Iterator[Finding]]

TOPICS: tuple[ModuleType, ...] = (
    rosters,
    goals,
    penalties,
    ejections,
    doors,
    clock,
    whistles,
    periods,
    choices,
    observed,
    figures,
    completeness,
)

CHECKS: tuple[Check, ...] = (
    *rosters.CHECKS,
    *goals.CHECKS,
    *penalties.CHECKS,
    *ejections.CHECKS,
    *doors.CHECKS,
    *clock.CHECKS,
    *whistles.CHECKS,
    *periods.CHECKS,
    *choices.CHECKS,
    *observed.CHECKS,
    *figures.CHECKS,
    *completeness.CHECKS,
)
"""Every check, by topic. A check looks at one game and finds nothing, or something; it knows of no other check."""

KINDS: tuple[Kind, ...] = tuple(value for topic in TOPICS for value in vars(topic).values() if isinstance(value, Kind))
"""Every kind of finding, by topic."""

_RANK: Mapping[Severity, int] = {"error": 0, "warning": 1, "note": 2}


def findings(game: Game) -> tuple[Finding, ...]:
    """Everything in the record of `game` that cannot be right, is missing or looks wrong.

    Errors first, then warnings, then notes; each in game order, what is about the whole record last.
    """
    checked = Checked(game)
    found = [finding for check in CHECKS for finding in check(checked)]
    return tuple(sorted(found, key=lambda finding: (_RANK[finding.severity], _place(checked, finding))))


def _place(checked: Checked, finding: Finding) -> float:
    """Where a finding stands in the game: by its event, or by the event written before it that stands in the game."""
    if finding.seq is None:
        return float("inf")
    for seq in range(finding.seq, 0, -1):
        if seq in checked.step_of:
            return checked.step_of[seq].index + (seq != finding.seq) / 2
    return -1.0
