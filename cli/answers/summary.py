"""`summary --json`: the totals that are read aloud at the horn."""

from __future__ import annotations

from typing import Any

from ...timeline.game import Game
from ...timeline.views.goalkeepers import GoalieLine
from ...timeline.views.goals import GoalLine
from ...timeline.views.summary import PenaltyMinutes, PowerPlays, Summary
from ..words import TEAMS
from .common import head, seconds, time

__all__ = ["final_answer", "goal_answer", "goalie_answer", "minutes_answer", "summary_answer"]


def summary_answer(game: Game) -> dict[str, Any]:
    """Goals by period, the result, goals, goalkeepers, penalty minutes and power plays."""
    totals = game.summary
    return {
        **head(game.header),
        "goals_by_period": {team: list(totals.goals_by_period[team]) for team in TEAMS},
        "final": final_answer(totals),
        "goals": [goal_answer(goal) for goal in totals.goals],
        "goalies": [goalie_answer(line) for line in totals.goalies],
        "penalty_minutes": {team: minutes_answer(totals.penalty_minutes[team]) for team in TEAMS},
        "power_plays": {team: _power_plays(totals.power_plays[team]) for team in TEAMS},
    }


def final_answer(totals: Summary) -> dict[str, Any]:
    """The final score, and where it was decided."""
    final = totals.final
    return {"home": final.home, "away": final.away, "decided_in": final.decided_in, "winner": final.winner}


def goal_answer(goal: GoalLine) -> dict[str, Any]:
    """One goal."""
    return {
        "seq": goal.seq,
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
        "ended": list(goal.ended),
    }


def goalie_answer(line: GoalieLine) -> dict[str, Any]:
    """One goalkeeper's game."""
    return {
        "team": line.team,
        "goalie": line.goalie,
        "periods": [
            {"period": one.period, "shots": one.shots, "goals": one.goals, "saves": one.saves} for one in line.periods
        ],
        "shots": line.shots,
        "goals": line.goals,
        "saves": line.saves,
        "time_s": seconds(line.time),
    }


def minutes_answer(minutes: PenaltyMinutes) -> dict[str, Any]:
    """Penalty minutes of a side."""
    return {
        "total": whole(minutes.total),
        "players": {number: whole(amount) for number, amount in minutes.players.items()},
    }


def _power_plays(plays: PowerPlays) -> dict[str, Any]:
    return {"count": plays.count, "goals": plays.goals, "time_s": seconds(plays.time)}


def whole(minutes: float) -> int | float:
    """Minutes: whole ones as an integer, else as they are, for example 1.5."""
    return int(minutes) if minutes == int(minutes) else minutes
