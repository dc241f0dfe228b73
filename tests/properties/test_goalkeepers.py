"""What holds for the shots of any game."""

from __future__ import annotations

from collections import Counter

from attrs import frozen
from hypothesis import given

from rinkfold.timeline.events import Goal, GoalieChange, PenaltyShot, RosterChange, Shot, Team
from rinkfold.timeline.game import Game
from rinkfold.timeline.views.goalkeepers import shots_on_goal

from .richer import richer_logs
from .writing import WrittenGame, often, replayed


@frozen
class Tally:
    """Shots counted by hand: by side that faced them, who was in net, and period."""

    saves: Counter[tuple[Team, str | None, int]]
    goals: Counter[tuple[Team, str | None, int]]
    into_empty_net: Counter[tuple[Team, int]]


def tally(game: Game) -> Tally:
    """Count the shots of a game that is written in game order."""
    found = Tally(Counter(), Counter(), Counter())
    in_net: dict[Team, str | None] = {"home": "", "away": ""}
    for one in game.folded.placed:
        event = one.event
        if isinstance(event, GoalieChange):
            in_net[event.team] = event.goalie
        elif isinstance(event, RosterChange) and event.was is not None and in_net[event.team] == event.was:
            in_net[event.team] = event.number
        elif isinstance(event, Shot | Goal | PenaltyShot):
            _count(found, event, in_net, one.period)
    return found


def _count(found: Tally, event: Shot | Goal | PenaltyShot, in_net: dict[Team, str | None], period: int) -> None:
    faced: Team = "away" if event.team == "home" else "home"
    key = (faced, in_net[faced] or None, period)
    if isinstance(event, Shot):
        found.saves[key] += 1 if event.count is None else event.count
    elif isinstance(event, Goal) and in_net[faced] is None:
        found.into_empty_net[faced, period] += 1
    elif isinstance(event, Goal) or event.result == "scored":
        found.goals[key] += 1
    elif event.result == "saved":
        found.saves[key] += 1


@often(60)
@given(richer_logs)
def test_shots_faced_are_saves_and_goals(log: WrittenGame) -> None:
    """Shots faced = saves + goals against, for each goalkeeper and period, and both are what the log says."""
    game = replayed(log)
    counted = tally(game)
    seen: Counter[tuple[Team, str | None, int]] = Counter()
    for line in game.goalies:
        assert line.shots == line.saves + line.goals
        assert line.shots == sum(period.shots for period in line.periods)
        for period in line.periods:
            key = (line.team, line.goalie, period.period)
            seen[key] += 1
            assert period.shots == period.saves + period.goals
            assert (period.saves, period.goals) == (counted.saves[key], counted.goals[key])
    assert all(count == 1 for count in seen.values())
    assert {key for key in (*counted.saves, *counted.goals)} <= seen.keys()


@often(60)
@given(richer_logs)
def test_shots_faced_add_up_to_the_other_sides_shots_less_empty_net_goals(log: WrittenGame) -> None:
    """In each period, and in the game, what a side's goalkeepers faced is the other side's shots on goal without its
    goals into the empty net."""
    game = replayed(log)
    faced: Counter[tuple[Team, int]] = Counter()
    for line in game.goalies:
        for period in line.periods:
            faced[line.team, period.period] += period.shots
    shots: Counter[tuple[Team, int]] = Counter()
    into_empty_net = tally(game).into_empty_net
    for one in shots_on_goal(game.folded):
        assert one.empty_net == into_empty_net["away" if one.team == "home" else "home", one.period]
        shots["away" if one.team == "home" else "home", one.period] += one.shots - one.empty_net
    assert +faced == +shots


@often(50)
@given(richer_logs)
def test_time_in_net_and_with_an_empty_net_is_the_time_played(log: WrittenGame) -> None:
    """Nobody is in net twice at a time: a side's goalkeepers are in net for the played time in which the net is not
    empty and somebody is named."""
    game = replayed(log)
    for team in ("home", "away"):
        named = sum(
            one.end - one.start
            for one in game.strength_segments
            if (one.strength.home_goalie if team == "home" else one.strength.away_goalie) is not None
        )
        assert sum(line.time for line in game.goalies if line.team == team) == named
