"""Answers as tables: goals, penalties, goalkeepers, and skaters by stretches.

Numbers stand for people; names stand in columns of their own, where they are wanted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from attrs import frozen

from ...timeline.clock import format_reading
from ...timeline.events import Team
from ...timeline.game import Game
from ...timeline.moment import Moment, moment_at
from ...timeline.views.penalties import PartLife, PenaltyLife
from ..answers.common import seconds
from ..people import People, people_of
from .csv_text import csv_text
from .formulas import defused

__all__ = ["TABLES", "Table", "as_csv"]

Cell = str | int | float | bool | None
Rows = Iterator[tuple[Cell, ...]]


@frozen
class Table:
    """A table: its heads, and rows of values."""

    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def as_csv(table: Table) -> str:
    """The table as CSV; what is not known is empty, and nothing in it is a formula."""
    return csv_text(table.heads, [[_cell(value) for value in row] for row in table.rows])


def _cell(value: Cell) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else defused(value) if isinstance(value, str) else str(value)


def _when(moment: Moment | None) -> tuple[int | None, str | None]:
    return (None, None) if moment is None else (moment.period, moment.clock)


class _Names:
    """The name for a number, where names are wanted."""

    def __init__(self, game: Game, wanted: bool) -> None:
        self.wanted = wanted
        self._people: People = people_of(game.header, (one.event for one in game.folded.placed))

    def heads(self, *names: str) -> tuple[str, ...]:
        return names if self.wanted else ()

    def of(self, team: Team, *numbers: str | None) -> tuple[str | None, ...]:
        """A cell for each number, none where names are not wanted."""
        if not self.wanted:
            return ()
        players = (self._people.player(team, number) for number in numbers)
        return tuple(None if player is None else player.name for player in players)


def goals(game: Game, names: bool) -> Table:
    """A row for each goal, with the score after it and the skaters on the ice when it was scored."""
    who = _Names(game, names)
    heads = (
        *("seq", "period", "clock", "team", "scorer", "assist_1", "assist_2"),
        *who.heads("scorer_name", "assist_1_name", "assist_2_name"),
        *("home_score", "away_score", "strength", "home_skaters", "away_skaters", "ended"),
        *("empty_net", "penalty_shot", "awarded", "own_goal"),
    )
    return Table(heads, tuple(_goals(game, who)))


def _goals(game: Game, who: _Names) -> Rows:
    score: dict[Team, int] = {"home": 0, "away": 0}
    for goal in game.goals:
        score[goal.team] += 1
        first, second, *_ = (*goal.assists, None, None)
        home, _, away = goal.label.split()
        yield (
            *(goal.seq, *_when(goal.at), goal.team, goal.scorer, first, second),
            *who.of(goal.team, goal.scorer, first, second),
            *(score["home"], score["away"], goal.strength, int(home), int(away), _numbers(goal.ended)),
            *(goal.empty_net, goal.penalty_shot, goal.awarded, goal.own_goal),
        )


def _numbers(seqs: Sequence[int]) -> str | None:
    return " ".join(map(str, seqs)) or None


def penalties(game: Game, names: bool) -> Table:
    """A row for each part of each penalty: when it was served, how much of it, and what became of it."""
    who = _Names(game, names)
    heads = (
        *("seq", "period", "clock", "team", "player", "staff", "served_by"),
        *who.heads("player_name", "staff_name", "served_by_name"),
        *("infraction", "announced", "part", "kind", "length", "start_period", "start", "end_period", "end"),
        *("served_s", "fate", "out_period", "out", "how"),
    )
    return Table(heads, tuple(row for life in game.penalties for row in _parts(life, who)))


def _parts(life: PenaltyLife, who: _Names) -> Rows:
    event = life.event
    for number, part in enumerate(life.parts, 1):
        player, staff, server = (event.player, event.staff, event.served_by)
        called = who.of(event.team, player, server)
        yield (
            *(life.penalty, *_when(life.at), event.team, player, staff is not None, server),
            *((called[0], staff, called[1]) if called else ()),
            *(event.infraction, event.announced, number, part.kind, _length(part)),
            *(*_when(part.start), *_when(part.end), seconds(part.served), part.fate),
            *_back(life),
        )


def _length(part: PartLife) -> str | None:
    return format_reading(part.length) if part.length else None


def _back(life: PenaltyLife) -> tuple[Cell, ...]:
    """When the last one who sat for it could go back."""
    if not life.returns:
        return (None, None, None)
    last = life.returns[-1]
    return (*_when(last.at), last.how)


def goalies(game: Game, names: bool) -> Table:
    """A row for each goalkeeper and period, and one for the game with the time in net."""
    who = _Names(game, names)
    heads = (*("team", "goalie"), *who.heads("goalie_name"), *("period", "shots", "goals", "saves", "time_s"))
    return Table(heads, tuple(_goalies(game, who)))


def _goalies(game: Game, who: _Names) -> Rows:
    for line in game.goalies:
        called = (line.team, line.goalie, *who.of(line.team, line.goalie))
        for one in line.periods:
            yield (*called, one.period, one.shots, one.goals, one.saves, None)
        yield (*called, "game", line.shots, line.goals, line.saves, seconds(line.time))


def segments(game: Game, names: bool) -> Table:
    """A row for each stretch of one strength: skaters with extra attackers, and who is in net."""
    who = _Names(game, names)
    heads = (
        *("period", "from", "to", "start_s", "end_s", "home", "away", "home_goalie", "away_goalie"),
        *who.heads("home_goalie_name", "away_goalie_name"),
        "label",
    )
    return Table(heads, tuple(_segments(game, who)))


def _segments(game: Game, who: _Names) -> Rows:
    starts = {span.period: span.start for span in game.periods}
    for one in game.strength_segments:
        begins, strength = starts[one.period], one.strength
        ends = [moment_at(game.rules, one.period, tenth - begins).clock for tenth in (one.start, one.end)]
        yield (
            *(one.period, *ends, seconds(one.start), seconds(one.end)),
            *(strength.home, strength.away, strength.home_goalie, strength.away_goalie),
            *(*who.of("home", strength.home_goalie), *who.of("away", strength.away_goalie)),
            strength.label,
        )


TABLES: Mapping[str, Callable[[Game, bool], Table]] = {
    "goals": goals,
    "penalties": penalties,
    "goalies": goalies,
    "segments": segments,
}
