"""Each goalkeeper's shots faced, goals against and saves by period, and the time in net."""

from __future__ import annotations

from attrs import define, frozen

from ..events import Goal, PenaltyShot, Shot, Team
from ..fold.draft import other
from ..fold.state import GameState
from ..folded import FoldedGame

__all__ = ["GoalieLine", "GoaliePeriod", "ShotCount", "goalie_lines", "shots_on_goal"]


@frozen
class GoaliePeriod:
    """One goalkeeper in one period; shots = saves + goals.

    Attributes:
        period: 1, 2, 3, and 4 and up for overtimes.
        shots, goals, saves: faced, against, and what is between them.
    """

    period: int
    shots: int
    goals: int
    saves: int


@frozen
class GoalieLine:
    """One goalkeeper's game; `goalie` is ``None`` where nobody was named in net, or a shot was saved in an empty one.

    Attributes:
        team: whose goalkeeper.
        goalie: a number.
        periods: each period in which he was in net or faced a shot.
        time: played tenths in net.
    """

    team: Team
    goalie: str | None
    periods: tuple[GoaliePeriod, ...]
    time: int

    @property
    def shots(self) -> int:
        """Shots faced."""
        return sum(period.shots for period in self.periods)

    @property
    def goals(self) -> int:
        """Goals against."""
        return sum(period.goals for period in self.periods)

    @property
    def saves(self) -> int:
        """Saves."""
        return sum(period.saves for period in self.periods)


@frozen
class ShotCount:
    """Shots on goal of one side in one period, goals included; `empty_net` of them into an empty net."""

    team: Team
    period: int
    shots: int
    empty_net: int


@define
class _Tally:
    saves: int = 0
    goals: int = 0


def goalie_lines(game: FoldedGame) -> tuple[GoalieLine, ...]:
    """Every goalkeeper who was in net or faced a shot, home first, in order of appearance."""
    tallies: dict[tuple[Team, str | None], dict[int, _Tally]] = {}
    times: dict[tuple[Team, str | None], dict[int, int]] = {}
    _time_in_net(game, times)
    for placed, state in zip(game.placed, game.states, strict=True):
        for team, saves, goals in _faced(placed.event, state):
            goalie = (state.home if team == "home" else state.away).goalie or None
            tally = tallies.setdefault((team, goalie), {}).setdefault(placed.period, _Tally())
            tally.saves += saves
            tally.goals += goals
    keys = sorted(dict.fromkeys((*times, *tallies)), key=lambda key: key[0] == "away")
    return tuple(
        GoalieLine(*key, _periods(tallies.get(key, {}), times.get(key, {})), sum(times.get(key, {}).values()))
        for key in keys
        if key[1] is not None or key in tallies
    )


def _periods(tallies: dict[int, _Tally], times: dict[int, int]) -> tuple[GoaliePeriod, ...]:
    return tuple(
        GoaliePeriod(period, tally.saves + tally.goals, tally.goals, tally.saves)
        for period in sorted({*tallies, *times})
        for tally in (tallies.get(period, _Tally()),)
    )


def _faced(event: object, state: GameState) -> list[tuple[Team, int, int]]:
    """Side that faced it, saves, goals: of a shot, a goal or a penalty shot; a goal into an empty net faces nobody."""
    if isinstance(event, Shot):
        return [(other(event.team), 1 if event.count is None else event.count, 0)]
    if isinstance(event, PenaltyShot):
        saved, scored = event.result == "saved", event.result == "scored"
        return [(other(event.team), int(saved), int(scored))] if saved or scored else []
    if isinstance(event, Goal):
        conceding = other(event.team)
        goalie = (state.home if conceding == "home" else state.away).goalie
        empty = goalie is None or (goalie == "" and bool(event.empty_net))
        return [] if empty else [(conceding, 0, 1)]
    return []


def _time_in_net(game: FoldedGame, times: dict[tuple[Team, str | None], dict[int, int]]) -> None:
    """Add up played time in net, by goalkeeper and period."""
    teams: tuple[Team, ...] = ("home", "away")
    for team in teams:
        for segment in game.segments:
            strength = segment.strength
            goalie = strength.home_goalie if team == "home" else strength.away_goalie
            if goalie is not None:
                periods = times.setdefault((team, goalie), {})
                periods[segment.period] = periods.get(segment.period, 0) + segment.end - segment.start


def shots_on_goal(game: FoldedGame) -> tuple[ShotCount, ...]:
    """Shots on goal of each side by period: saved shots and goals, those on penalty shots included."""
    counts: dict[tuple[Team, int], list[int]] = {}
    for placed, state in zip(game.placed, game.states, strict=True):
        event = placed.event
        if isinstance(event, Goal):
            count = counts.setdefault((event.team, placed.period), [0, 0])
            count[0] += 1
            count[1] += not _faced(event, state)
            continue
        for team, saves, goals in _faced(event, state):
            counts.setdefault((other(team), placed.period), [0, 0])[0] += saves + goals
    return tuple(ShotCount(*key, *count) for key, count in sorted(counts.items(), key=lambda item: item[0][1]))
