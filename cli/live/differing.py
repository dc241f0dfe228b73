"""What a correction makes different, as tables for the page: who may leave and the goals first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from attrs import evolve

from ...timeline.views.difference import Differences, GoalieLine
from ..paper import Style
from ..people import people_of
from ..tables.differences import difference_lines
from ..two_games import TwoGames

__all__ = ["differing"]

FIRST = {"Out of the box": "Who sits", "Goals": "Score"}
"""What is looked at first, as the page calls it."""


def differing(two: TwoGames | None) -> list[dict[str, Any]]:
    """``[{"title", "first", "rows": [[what, before, now]]}]``; what has to be seen at once is ``first``."""
    if two is None:
        return []
    found = _without_time_in_net(two.found)
    sections = list(_sections(evolve(two, found=found))) if found else []
    return sorted(sections, key=lambda section: not section["first"])


def _without_time_in_net(found: Differences) -> Differences:
    """`found` without goalkeepers who faced the same: taking back the last entry shortens everybody's time in net."""
    return evolve(found, goalies=tuple(one for one in found.goalies if _faced(one.before) != _faced(one.after)))


def _faced(line: GoalieLine | None) -> tuple[int, int]:
    return (0, 0) if line is None else (line.shots, line.saves)


def _sections(two: TwoGames) -> Iterator[dict[str, Any]]:
    """The sections of the terminal's table, read from its columns, so that both say the same."""
    people = people_of(two.after.header, (one.event for one in two.after.folded.placed))
    heads, rows, title = "", list[list[str]](), ""
    for line in [*difference_lines(two, people, Style()), ""]:
        if not line:
            if rows:
                yield {"title": FIRST.get(title, title), "first": title in FIRST, "rows": rows}
            heads, rows = "", []
        elif not line.startswith(" "):
            title = line
        elif not heads:
            heads = line
        else:
            rows.append(_cells(line, heads, two.titles))


def _cells(line: str, heads: str, titles: tuple[str, str]) -> list[str]:
    before, now = (heads.index(title) for title in titles)
    return [line[:before].strip(), line[before:now].strip(), line[now:].strip()]
