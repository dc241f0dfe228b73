"""What is read aloud at the horn."""

from __future__ import annotations

from collections.abc import Mapping

from ...timeline.clock import format_reading
from ...timeline.events import Team
from ...timeline.game import Game
from ...timeline.views.goalkeepers import GoalieLine
from ...timeline.views.goals import GoalLine
from ...timeline.views.summary import LEFT_TO_THE_LEAGUE
from ..answers.summary import whole
from ..paper import Style
from ..people import People
from ..times import period_name, shown
from ..words import TEAMS, footer, listed, side_title
from .layout import columns

__all__ = ["goal_text", "scorers", "summary_lines", "summary_sections"]


def summary_lines(game: Game, people: People, style: Style) -> list[str]:
    """Score, goals, goalkeepers, penalty minutes and power plays, each under its heading."""
    return [*summary_sections(game, people, style), style.faint(footer(game.header))]


def summary_sections(game: Game, people: People, style: Style) -> list[str]:
    """The same without the last line; an empty line follows each section."""
    sections: Mapping[str, list[str]] = {
        "Score": _score(game, style),
        "Goals": _goals(game, people, style),
        "Goalkeepers": _goalkeepers(game, people, style),
        "Penalty minutes": [_minutes(game, people, team) for team in TEAMS],
        "Power plays": [_power_plays(game, team) for team in TEAMS],
    }
    lines: list[str] = []
    for heading, body in sections.items():
        lines += [*style.ruled(heading), *(f"  {line}" for line in body), ""]
    return lines


def _score(game: Game, style: Style) -> list[str]:
    totals = game.summary
    periods = range(1, len(totals.goals_by_period["home"]) + 1)
    heads = ["", *(period_name(period, game.rules) for period in periods), "total"]
    rows = [
        [side_title(game.header, team), *map(str, totals.goals_by_period[team]), str(getattr(totals.final, team))]
        for team in TEAMS
    ]
    return [*columns(rows, "<" + ">" * (len(heads) - 1), style, heads), _result(game)]


def _result(game: Game) -> str:
    final = game.summary.final
    if final.winner is None or final.decided_in is None:
        return _undecided(game)
    when = "in the shootout" if final.decided_in == "shootout" else f"in {final.decided_in}"
    return f"{final.winner.capitalize()} won {when}."


def _undecided(game: Game) -> str:
    """Level, still to be decided, or by other means than goals."""
    closing = game.folded.closing
    if closing is not None and closing.outcome in LEFT_TO_THE_LEAGUE:
        return f"{closing.outcome.capitalize()}: the league says who won."
    return "Level." if game.over else "Not decided yet."


def _goals(game: Game, people: People, style: Style) -> list[str]:
    score: dict[Team, int] = dict.fromkeys(TEAMS, 0)
    rows = []
    for goal in game.goals:
        score[goal.team] += 1
        rows.append((shown(goal.at, game.rules), goal.team, *_goal(game, goal, people, score)))
    return columns(rows, "><<<<", style) if rows else ["None."]


def _goal(game: Game, goal: GoalLine, people: People, score: Mapping[Team, int]) -> tuple[str, str, str]:
    return f"{score['home']}-{score['away']}", scorers(goal, people), goal_text(game, goal, people)


def scorers(goal: GoalLine, people: People) -> str:
    """Who scored, and from whom: ``"17 from 16 and 18"``."""
    scorer = people.called(goal.team, goal.scorer)
    if not goal.assists:
        return scorer
    return f"{scorer} from {listed(people.called(goal.team, number) for number in goal.assists)}"


def goal_text(game: Game, goal: GoalLine, people: People) -> str:
    """Strength and kind of a goal, and what it ended: ``"power play, 4 on 5; ended the minor of 12"``."""
    strength = [f"{goal.strength}, {goal.label}"] if goal.strength else []
    ended = [f"ended {listed(_ended(game, seq, people) for seq in goal.ended)}"] if goal.ended else []
    return "; ".join([*strength, *marks(goal), *ended])


def marks(goal: GoalLine) -> list[str]:
    """What kind of goal it was, beside its strength: ``["own goal", "empty net"]``."""
    kinds = {
        "own goal": goal.own_goal,
        "penalty shot": goal.penalty_shot,
        "awarded": goal.awarded,
        "empty net": goal.empty_net,
    }
    return [mark for mark, holds in kinds.items() if holds]


def _ended(game: Game, seq: int, people: People) -> str:
    penalty = game.folded.penalties[seq]
    if penalty.player is None:
        return "the bench minor" if "bench_minor" in penalty.parts else "the minor of ?"
    return f"the minor of {people.called(penalty.team, penalty.player)}"


def _goalkeepers(game: Game, people: People, style: Style) -> list[str]:
    rows = [_goalkeeper(game, line, people) for line in game.goalies]
    heads = ("", "", "shots", "goals", "saves", "in net", "saves/shots by period")
    return columns(rows, "<<>>>><", style, heads) if rows else ["Nobody is named in net."]


def _goalkeeper(game: Game, line: GoalieLine, people: People) -> tuple[str, ...]:
    by_period = (f"{period_name(one.period, game.rules)}: {one.saves}/{one.shots}" for one in line.periods)
    return (
        line.team,
        "not named" if line.goalie is None else people.called(line.team, line.goalie),
        str(line.shots),
        str(line.goals),
        str(line.saves),
        format_reading(line.time),
        "  ".join(by_period),
    )


def _minutes(game: Game, people: People, team: Team) -> str:
    minutes = game.summary.penalty_minutes[team]
    players = sorted(minutes.players.items(), key=lambda item: (-item[1], item[0].zfill(3)))
    by_player = ", ".join(f"{people.called(team, number)}: {whole(amount)}" for number, amount in players)
    return f"{team}  {whole(minutes.total)}" + (f"  ({by_player})" if by_player else "")


def _power_plays(game: Game, team: Team) -> str:
    plays = game.summary.power_plays[team]
    return f"{team}  {plays.goals} for {plays.count}, other side short for {format_reading(plays.time)}"
