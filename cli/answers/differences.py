"""What two games differ in, for `whatif --json` and `compare --json`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ...timeline.clock import format_reading
from ...timeline.views.difference import PartOf, Release, Stretch, Two
from ...timeline.views.goalkeepers import GoalieLine
from ...timeline.views.goals import GoalLine
from ...timeline.views.strength import Strength
from ...timeline.views.totals import Figure, Named
from ..two_games import TwoGames
from .common import seconds, time
from .summary import goalie_answer

__all__ = ["differences_answer"]

Number = Callable[[int], int | None]


def differences_answer(two: TwoGames) -> dict[str, Any]:
    """``{"same", "first", "releases", "parts", "strengths", "goals", "goalies", "totals"}``.

    Each thing stands with ``before`` and ``after``, null in the game that has it not; numbers of events are those of
    the game they stand in.
    """
    found = two.found
    return {
        "same": not found,
        "first": time(two.first),
        "releases": [_both(two, one, _release) for one in found.releases],
        "parts": [_both(two, one, _part) for one in found.parts],
        "strengths": [_stretch(one) for one in found.stretches],
        "goals": [_both(two, one, _goal) for one in found.goals],
        "goalies": [_both(two, one, _goalie) for one in found.goalies],
        "totals": [_total(name, one) for name, one in found.totals.items()],
    }


def _both(two: TwoGames, one: Two[Any], answer: Callable[[Any, Number], dict[str, Any]]) -> dict[str, Any]:
    return {
        "before": None if one.before is None else answer(one.before, two.in_before),
        "after": None if one.after is None else answer(one.after, two.in_after),
    }


def _release(release: Release, number: Number) -> dict[str, Any]:
    return {
        "team": release.team,
        "penalty": number(release.penalty),
        "who": release.who,
        "role": release.role,
        "at": time(release.at),
        "how": release.how,
        "foreseen": release.foreseen,
    }


def _part(part: PartOf, number: Number) -> dict[str, Any]:
    life = part.life
    return {
        "team": part.team,
        "player": part.player,
        "penalty": number(part.penalty),
        "kind": life.kind,
        "length": format_reading(life.length),
        "start": time(life.start),
        "end": time(life.end),
        "served_s": seconds(life.served),
        "fate": life.fate,
        "ended_by": None if life.ended_by is None else number(life.ended_by),
    }


def _stretch(stretch: Stretch) -> dict[str, Any]:
    return {
        "from": time(stretch.start),
        "to": time(stretch.end),
        "lasts_s": seconds(stretch.tenths),
        "before": _strength(stretch.before),
        "after": _strength(stretch.after),
    }


def _strength(strength: Strength | None) -> dict[str, Any] | None:
    if strength is None:
        return None
    names = ("home", "away", "home_goalie", "away_goalie", "label")
    return {name: getattr(strength, name) for name in names}


def _goal(goal: GoalLine, number: Number) -> dict[str, Any]:
    return {
        "seq": number(goal.seq),
        "team": goal.team,
        "scorer": goal.scorer,
        "assists": list(goal.assists),
        "at": time(goal.at),
        "strength": goal.strength,
        "empty_net": goal.empty_net,
        "penalty_shot": goal.penalty_shot,
        "awarded": goal.awarded,
        "own_goal": goal.own_goal,
        "label": goal.label,
        "ended": [number(seq) for seq in goal.ended],
    }


def _goalie(line: GoalieLine, number: Number) -> dict[str, Any]:
    return goalie_answer(line)


def _total(name: Named, one: Two[Figure]) -> dict[str, Any]:
    """A figure; time is in seconds, and null stands for nothing."""
    return {
        "name": name.name,
        "team": name.team,
        "period": name.period,
        "player": name.player,
        "before": _figure(name, one.before),
        "after": _figure(name, one.after),
    }


def _figure(name: Named, figure: Figure) -> Figure:
    if name.name == "power-play time" and isinstance(figure, int):
        return seconds(figure)
    return int(figure) if isinstance(figure, float) and figure.is_integer() else figure
