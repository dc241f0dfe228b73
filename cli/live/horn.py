"""What is read aloud when a period ends: the score, its goals, and each goalkeeper's shots and saves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from ...timeline.events import Team
from ...timeline.game import Game
from ...timeline.views.goalkeepers import GoalieLine, GoaliePeriod
from ...timeline.views.goals import GoalLine
from ..answers.summary import goal_answer
from ..people import People, people_of
from ..tables.summary import goal_text, scorers
from ..times import on_board, ordinal
from ..words import TEAMS
from .answers import Refusal
from .keys import Role

if TYPE_CHECKING:
    from .room import Room

__all__ = ["goal_row", "horn", "open_game_of", "people_in"]


def horn(room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """``{"period", "said", "score", "goals", "goalies", "aloud"}`` of the period asked for, the latest if none is."""
    game = open_game_of(room)
    period = _period(body.get("period"), game)
    people = people_in(game, names=room.shows_names(role))
    goals = [goal for goal in game.goals if goal.at.period == period]
    goalies = [(line, one) for line in game.goalies for one in line.periods if one.period == period]
    return {
        "period": period,
        "said": ordinal(period, game.rules),
        "score": _score_after(game, period),
        "goals": [goal_row(game, goal, people) for goal in goals],
        "goalies": [_goalie(line, one, people) for line, one in goalies],
        "aloud": [*_score(game, period), *_goals(game, goals, people), *_saves(game, goalies, people)],
    }


def open_game_of(room: Room) -> Game:
    """The game.

    Raises:
        Refusal: none is opened yet.
    """
    if room.table.game is None:
        raise Refusal(409, "not_open", "No game is opened yet.", "Open it first.")
    return room.table.game


def people_in(game: Game, *, names: bool) -> People:
    """The people of the game as it stands."""
    return people_of(game.header, (one.event for one in game.folded.placed), names=names)


def _period(asked: object, game: Game) -> int:
    last = game.folded.last.period
    if asked is None:
        return last
    text = str(asked)
    if not (text.isascii() and text.isdecimal() and len(text) < 4 and 1 <= int(text) <= last):
        raise Refusal(400, "bad_request", f"There is no period {text[:20]!r} in this record.", f"It has {last}.")
    return int(text)


def goal_row(game: Game, goal: GoalLine, people: People) -> dict[str, Any]:
    """A goal, of the shape of `summary --json`, and in words."""
    kind = goal_text(game, goal, people)
    return {**goal_answer(goal), "text": "; ".join(filter(None, (scorers(goal, people), kind)))}


def _goalie(line: GoalieLine, one: GoaliePeriod, people: People) -> dict[str, Any]:
    figures = {"shots": one.shots, "goals": one.goals, "saves": one.saves}
    who = _called(line, people)
    return {"team": line.team, "goalie": line.goalie, **figures, "text": f"{who}: {_shots(one.shots)}, {_saved(one)}"}


def _called(line: GoalieLine, people: People) -> str:
    return "not named" if line.goalie is None else people.called(line.team, line.goalie)


def _shots(shots: int) -> str:
    return "1 shot" if shots == 1 else f"{shots} shots"


def _saved(one: GoaliePeriod) -> str:
    return "1 save" if one.saves == 1 else f"{one.saves} saves"


def _team(game: Game, team: Team) -> str:
    return game.header.home.name if team == "home" else game.header.away.name


def _score_after(game: Game, period: int) -> Mapping[Team, int]:
    return {team: sum(goal.team == team and goal.at.period <= period for goal in game.goals) for team in TEAMS}


def _score(game: Game, period: int) -> Iterator[str]:
    ends = "overtime" if period > game.rules.game.periods else f"the {ordinal(period, game.rules)} period"
    score = _score_after(game, period)
    yield f"After {ends}: {_team(game, 'home')} {score['home']}, {_team(game, 'away')} {score['away']}."


def _goals(game: Game, goals: list[GoalLine], people: People) -> Iterator[str]:
    if not goals:
        yield "No goals in the period."
    for goal in goals:
        who = scorers(goal, people)
        yield f"{_team(game, goal.team)}, {on_board(goal.at, goal.at, game.rules)}: {who}."


def _saves(game: Game, goalies: list[tuple[GoalieLine, GoaliePeriod]], people: People) -> Iterator[str]:
    for line, one in goalies:
        yield f"{_team(game, line.team)} in net, {_called(line, people)}: {_shots(one.shots)}, {_saved(one)}."
