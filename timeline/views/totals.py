"""The totals of a game as single figures, each under its name, so that two games can be laid side by side."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ..events import TEAMS, Team
from ..folded import FoldedGame
from .goalkeepers import shots_on_goal
from .summary import Summary

__all__ = ["Figure", "Named", "in_order", "totals"]

_NAMES = (
    "goals",
    "shots",
    "penalty minutes",
    "power plays",
    "power-play goals",
    "power-play time",
    "winner",
    "decided in",
)

Figure = int | float | str | None
"""A total: a count, minutes, played tenths, or a word."""


@frozen
class Named:
    """What a total is of.

    Attributes:
        name: ``"goals"``, ``"shots"``, ``"penalty minutes"``, ``"power plays"``, ``"power-play goals"``,
            ``"power-play time"`` (tenths in which the other side is short-handed), ``"winner"`` or ``"decided in"``.
        team: the side, ``None`` for the winner and where the game was decided.
        period: the one period that goals or shots are counted in, ``None`` for the game.
        player: the number, for one player's penalty minutes.
    """

    name: str
    team: Team | None = None
    period: int | None = None
    player: str | None = None


def totals(game: FoldedGame, summary: Summary) -> dict[Named, Figure]:
    """Every total of `game` that is not nothing."""
    found: dict[Named, Figure] = {}
    final = summary.final
    for team in TEAMS:
        found[Named("goals", team)] = final.home if team == "home" else final.away
        found.update(_by_period(game, summary, team))
    for team in TEAMS:
        minutes, power_plays = summary.penalty_minutes[team], summary.power_plays[team]
        found[Named("penalty minutes", team)] = minutes.total
        found.update((Named("penalty minutes", team, player=who), count) for who, count in minutes.players.items())
        found[Named("power plays", team)] = power_plays.count
        found[Named("power-play goals", team)] = power_plays.goals
        found[Named("power-play time", team)] = power_plays.time
    found[Named("winner")] = final.winner
    found[Named("decided in")] = final.decided_in
    return {name: value for name, value in found.items() if value}


def _by_period(game: FoldedGame, summary: Summary, team: Team) -> Iterator[tuple[Named, Figure]]:
    for period, goals in enumerate(summary.goals_by_period[team], 1):
        yield Named("goals", team, period), goals
    shots = [count for count in shots_on_goal(game) if count.team == team]
    yield Named("shots", team), sum(count.shots for count in shots)
    yield from ((Named("shots", team, count.period), count.shots) for count in shots)


def in_order(name: Named) -> tuple[int, bool, int, str]:
    """Sorts totals as they are read out: home before away, the game before its periods."""
    return (_NAMES.index(name.name), name.team == "away", name.period or 0, name.player or "")
