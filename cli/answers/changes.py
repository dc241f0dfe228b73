"""Changes as programs read them: what became different, when, and why."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from ...timeline.fold.changes import Change, Returned, StrengthChanged
from ...timeline.folded import FoldedGame
from ...timeline.moment import moment_at
from ...timeline.views.change_dicts import KINDS_OF_CHANGE
from ..people import people_of
from .common import seconds, time

__all__ = ["change_answer", "change_answers"]

_SAID_OTHERWISE = ("at", "period", "seq", "rule", "key", "home_short", "away_short")


def change_answers(changes: Iterable[Change], game: FoldedGame) -> list[dict[str, Any]]:
    """Each of `changes`, in their order."""
    return [change_answer(change, game) for change in changes]


def change_answer(change: Change, game: FoldedGame) -> dict[str, Any]:
    """``{"change", "at", "at_s", …, "because": reason}``; what stands between depends on the kind."""
    own = {name: value for name, value in change._asdict().items() if name not in _SAID_OTHERWISE}
    said: dict[str, Any] = {}
    for name, value in own.items():
        said |= _FIELDS[name](value, change, game) if name in _FIELDS else {name: value}
    if isinstance(change, StrengthChanged):
        said["label"] = f"{change.home} on {change.away}"
    if isinstance(change, Returned):
        people = people_of(game.header, (one.event for one in game.placed))
        said["injured"] = people.is_injured(change.team, change.who)
    return {
        "change": KINDS_OF_CHANGE[type(change)],
        "at": time(game.moment_of(change)),
        "at_s": seconds(change.at),
        **said,
        "because": {
            "rule": change.rule.name,
            "source": change.rule.source,
            "seq": change.seq,
            "text": f"{change.rule.name[:1].upper()}{change.rule.name[1:]}.",
        },
    }


def _index(value: int, change: Any, game: FoldedGame) -> dict[str, Any]:
    """Which part of its penalty is meant: its place, from 0, and its kind."""
    penalty = game.penalties.get(change.penalty)
    return {"index": value, "part": penalty.parts[value] if penalty else None}


def _ends(tenth: int, change: Change, game: FoldedGame) -> dict[str, Any]:
    """When a part runs out if nothing happens and periods are played out."""
    starts = (span.start for span in game.periods if span.period == change.period)
    period, played = change.period, tenth - next(starts, game.last.ice.period_start)
    while played > (length := game.rules.period_length(period)):
        period, played = period + 1, played - length
    return {"ends": time(moment_at(game.rules, period, played)), "ends_s": seconds(tenth)}


_FIELDS: Mapping[str, Callable[[Any, Any, FoldedGame], dict[str, Any]]] = {
    "index": _index,
    "ends_at": _ends,
    "left": lambda tenths, _, __: {"left_s": seconds(tenths)},
    "served": lambda tenths, _, __: {"served_s": seconds(tenths)},
    "penalties": lambda seqs, _, __: {"penalties": list(seqs)},
}
"""Fields that programs get in other words than the fold holds them in."""
