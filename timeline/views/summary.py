"""What is read aloud at the horn: goals by period, the result, penalty minutes, power plays."""

from __future__ import annotations

from collections.abc import Mapping, Set
from typing import Literal

from attrs import frozen

from ..events import PenaltyAssessed, ShootoutAttempt, Team
from ..fold.changes import PowerPlayCounted
from ..folded import FoldedGame
from ..rules import Ruleset
from .goalkeepers import GoalieLine, goalie_lines
from .goals import GoalLine, goal_lines

__all__ = ["LEFT_TO_THE_LEAGUE", "Final", "PenaltyMinutes", "PowerPlays", "Summary", "summarize"]

TEAMS: tuple[Team, Team] = ("home", "away")

LEFT_TO_THE_LEAGUE = frozenset({"abandoned", "forfeit"})
"""How a record is closed whose goals do not say who won."""


@frozen
class Final:
    """The result; `decided_in` and `winner` are ``None`` while the game is not decided.

    They stay so for a game that was abandoned or forfeited: the league says who won it.

    Attributes:
        home, away: goals; a shootout's attempts are none.
        decided_in: ``"regulation"``, ``"overtime"`` or ``"shootout"``.
        winner: ``"home"`` or ``"away"``; None for a tie too.
    """

    home: int
    away: int
    decided_in: Literal["regulation", "overtime", "shootout"] | None
    winner: Team | None


@frozen
class PenaltyMinutes:
    """Penalty minutes of a side: all, and by player's number.

    Minutes are what is written against a player: the ruleset's lengths and its `minutes` knobs, or what the event says.

    Attributes:
        total: minutes of the side, those of its bench included.
        players: minutes by the player's number.
    """

    total: float
    players: Mapping[str, float]


@frozen
class PowerPlays:
    """Power plays of a side: how many, goals on them, and tenths in which the other side was short-handed.

    How they are counted is *common practice*.

    Attributes:
        count: one for each penalty that leaves the other side short, equal ones of one stoppage taken off.
        goals: scored on them.
        time: tenths of played time.
    """

    count: int
    goals: int
    time: int


@frozen
class Summary:
    """The totals of a game.

    Attributes:
        goals_by_period: for each side a number a period, regulation's all, overtimes as far as played.
        final: the result so far.
        goals, goalies: as `Game.goals` and `Game.goalies`.
        penalty_minutes, power_plays: by side.
    """

    goals_by_period: Mapping[Team, tuple[int, ...]]
    final: Final
    goals: tuple[GoalLine, ...]
    goalies: tuple[GoalieLine, ...]
    penalty_minutes: Mapping[Team, PenaltyMinutes]
    power_plays: Mapping[Team, PowerPlays]


def summarize(game: FoldedGame) -> Summary:
    """The totals of what is recorded so far."""
    goals = goal_lines(game)
    return Summary(
        {team: _goals_by_period(game, goals, team) for team in TEAMS},
        _final(game, goals),
        goals,
        goalie_lines(game),
        {team: _penalty_minutes(game, team) for team in TEAMS},
        {team: _power_plays(game, goals, team) for team in TEAMS},
    )


def _goals_by_period(game: FoldedGame, goals: tuple[GoalLine, ...], team: Team) -> tuple[int, ...]:
    periods = max([game.rules.game.periods, *(span.period for span in game.periods)])
    return tuple(
        sum(goal.team == team and goal.at.period == period for goal in goals) for period in range(1, periods + 1)
    )


def _final(game: FoldedGame, goals: tuple[GoalLine, ...]) -> Final:
    home, away = game.last.home.score, game.last.away.score
    if game.closing is not None and game.closing.outcome in LEFT_TO_THE_LEAGUE:
        return Final(home, away, None, None)
    if home != away:
        if not game.last.ice.over:
            return Final(home, away, None, None)
        regulation = [goal.team for goal in goals if goal.at.period <= game.rules.game.periods]
        level = regulation.count("home") == regulation.count("away")
        return Final(home, away, "overtime" if level else "regulation", "home" if home > away else "away")
    scored = {
        team: sum(
            isinstance(placed.event, ShootoutAttempt) and placed.event.team == team and placed.event.result == "scored"
            for placed in game.placed
        )
        for team in TEAMS
    }
    if scored["home"] == scored["away"]:
        return Final(home, away, None, None)
    return Final(home, away, "shootout", "home" if scored["home"] > scored["away"] else "away")


def _penalty_minutes(game: FoldedGame, team: Team) -> PenaltyMinutes:
    total = 0.0
    players: dict[str, float] = {}
    for penalty in game.penalties.values():
        if penalty.team != team:
            continue
        minutes = minutes_of(penalty, game.rules, game.washed_out)
        total += minutes
        if penalty.player is not None:
            players[penalty.player] = players.get(penalty.player, 0.0) + minutes
    return PenaltyMinutes(total, players)


def minutes_of(penalty: PenaltyAssessed, rules: Ruleset, washed: Set[tuple[int, int]]) -> float:
    """Penalty minutes written for `penalty`; `washed` are the parts that goals washed out."""
    if penalty.minutes is not None:
        return penalty.minutes
    return sum(
        _part_minutes(kind, rules)
        for index, kind in enumerate(penalty.parts)
        if rules.minutes.washed_out or (penalty.seq, index) not in washed
    )


def _part_minutes(kind: str, rules: Ruleset) -> float:
    if kind == "game_misconduct":
        return rules.minutes.game_misconduct
    if kind == "match":
        return rules.minutes.match
    return rules.part_length(kind) / 600


def _power_plays(game: FoldedGame, goals: tuple[GoalLine, ...], team: Team) -> PowerPlays:
    count = sum(change.count for change in game.changes_of(PowerPlayCounted) if change.team == team)
    time = sum(
        segment.end - segment.start
        for segment in game.segments
        if (segment.strength.away_short if team == "home" else segment.strength.home_short)
    )
    scored = sum(goal.team == team and goal.strength == "power play" for goal in goals)
    return PowerPlays(count, scored, time)
