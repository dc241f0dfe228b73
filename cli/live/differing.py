"""What a correction makes different, as tables for the page: who may leave and the goals first."""

from __future__ import annotations

from typing import Any

from attrs import evolve

from ...timeline.views.difference import Differences, GoalieLine
from ..people import people_of
from ..tables.differences import difference_sections
from ..two_games import TwoGames

__all__ = ["differing"]

FIRST = {"Out of the box": "Who sits", "Goals": "Score"}
"""What is looked at first, as the page calls it."""


def differing(two: TwoGames | None) -> list[dict[str, Any]]:
    """``[{"title", "first", "rows": [[what, before, now]]}]``; what has to be seen at once is ``first``."""
    if two is None:
        return []
    found = _without_time_in_net(two.found)
    people = people_of(two.after.header, (one.event for one in two.after.folded.placed))
    tables = difference_sections(evolve(two, found=found), people) if found else {}
    sections = [
        {"title": FIRST.get(title, title), "first": title in FIRST, "rows": [list(row) for row in rows]}
        for title, rows in tables.items()
    ]
    return sorted(sections, key=lambda section: not section["first"])


def _without_time_in_net(found: Differences) -> Differences:
    """`found` without goalkeepers who faced the same: taking back the last entry shortens everybody's time in net."""
    return evolve(found, goalies=tuple(one for one in found.goalies if _faced(one.before) != _faced(one.after)))


def _faced(line: GoalieLine | None) -> tuple[int, int]:
    return (0, 0) if line is None else (line.shots, line.saves)
