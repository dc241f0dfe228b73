"""All that a game answers, as rows of plain values, so that two answers can be compared after a change of names.

A time is a period and the tenths played in it, which say the same whichever way the board counts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from rinkfold.timeline.clock import parse_reading, played_in_period
from rinkfold.timeline.events import Team
from rinkfold.timeline.fold.changes import Ejected
from rinkfold.timeline.game import Game, Instant
from rinkfold.timeline.moment import Moment
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.views.strength import Strength

__all__ = ["Answers", "Row", "Time", "answers", "box_rows", "mirrored", "renumbered", "shifted", "strength_row"]

Row = dict[str, Any]
Answers = dict[str, list[Row]]


class Time(NamedTuple):
    """An instant; `played` are tenths of its period."""

    period: int
    played: int


def time_of(moment: Moment | None, rules: Ruleset) -> Time | None:
    """The instant of a moment."""
    if moment is None:
        return None
    length = rules.period_length(moment.period)
    return Time(moment.period, played_in_period(parse_reading(moment.clock), length, rules.game.reading))


def answers(game: Game) -> Answers:
    """Everything `game` says of the past, and of its last instant."""
    found = {
        "segments": segment_rows(game),
        "parts": part_rows(game),
        "returns": return_rows(game),
        "goals": goal_rows(game),
        "goalies": goalie_rows(game),
        "ejected": ejected_rows(game),
        "power plays": power_play_rows(game),
        "last": [strength_row(game.now.strength) | {"over": game.over, "in_play": game.in_play}],
        "box": box_rows(game.now),
    }
    return {name: in_order(rows) for name, rows in found.items()}


def in_order(rows: Iterable[Row]) -> list[Row]:
    """Rows in an order that does not depend on where they come from."""
    return sorted((dict(sorted(row.items())) for row in rows), key=repr)


def strength_row(strength: Strength) -> Row:
    """Skaters and goalkeepers."""
    return {
        "home": strength.home,
        "away": strength.away,
        "home_goalie": strength.home_goalie,
        "away_goalie": strength.away_goalie,
        "home_short": strength.home_short,
        "away_short": strength.away_short,
    }


def segment_rows(game: Game) -> list[Row]:
    """The stretches of one strength."""
    starts = {span.period: span.start for span in game.periods}
    return [
        {
            "start": Time(segment.period, segment.start - starts[segment.period]),
            "end": Time(segment.period, segment.end - starts[segment.period]),
            **strength_row(segment.strength),
        }
        for segment in game.strength_segments
    ]


def part_rows(game: Game) -> list[Row]:
    """The life of every part."""
    return [
        {
            "team": life.team,
            "penalty": life.penalty,
            "index": index,
            "kind": part.kind,
            "length": part.length,
            "start": time_of(part.start, game.rules),
            "end": time_of(part.end, game.rules),
            "served": part.served,
            "fate": part.fate,
            "rule": part.rule.name if part.rule else None,
            "ended_by": part.ended_by,
        }
        for life in game.penalties
        for index, part in enumerate(life.parts)
    ]


def return_rows(game: Game) -> list[Row]:
    """Everybody who went back."""
    return [
        {
            "team": life.team,
            "penalty": life.penalty,
            "who": one.who,
            "role": one.role,
            "at": time_of(one.at, game.rules),
            "how": one.how,
        }
        for life in game.penalties
        for one in life.returns
    ]


def goal_rows(game: Game) -> list[Row]:
    """Every goal."""
    return [
        {
            "seq": goal.seq,
            "team": goal.team,
            "at": time_of(goal.at, game.rules),
            "strength": goal.strength,
            "empty_net": goal.empty_net,
            "ended": goal.ended,
        }
        for goal in game.goals
    ]


def goalie_rows(game: Game) -> list[Row]:
    """Every goalkeeper's periods."""
    return [
        {
            "team": line.team,
            "goalie": line.goalie,
            "time": line.time,
            "periods": [(one.period, one.shots, one.goals, one.saves) for one in line.periods],
        }
        for line in game.goalies
    ]


def ejected_rows(game: Game) -> list[Row]:
    """Whose game was ended."""
    starts = {span.period: span.start for span in game.periods}
    return [
        {"team": change.team, "who": change.player, "at": Time(change.period, change.at - starts[change.period])}
        for changes in game.changes
        for change in changes
        if isinstance(change, Ejected)
    ]


def power_play_rows(game: Game) -> list[Row]:
    """The power plays of both sides."""
    return [
        {"team": team, "count": one.count, "goals": one.goals, "time": one.time}
        for team, one in game.summary.power_plays.items()
    ]


def box_rows(instant: Instant) -> list[Row]:
    """Who sits at an instant, and when he may leave."""
    rules = instant.game.rules
    return [
        {
            "team": one.team,
            "who": one.sits,
            "role": one.role,
            "player": one.player,
            "penalty": one.penalty,
            "part": one.part,
            "state": one.state,
            "remaining": one.remaining,
            "out": time_of(one.out.at, rules),
            "how": one.out.how,
            "ends_on_goal": one.ends_on_goal,
        }
        for one in instant.box
    ]


def _changed(found: Answers, change: Callable[[str, Any], tuple[str, Any]]) -> Answers:
    return {
        section: in_order(dict(change(name, value) for name, value in row.items()) for row in rows)
        for section, rows in found.items()
    }


_OTHER: Mapping[Any, Team] = {"home": "away", "away": "home"}


def mirrored(found: Answers) -> Answers:
    """The answers with home and away swapped."""

    def swap(name: str, value: Any) -> tuple[str, Any]:
        for side, other in _OTHER.items():
            if name == side or name.startswith(f"{side}_"):
                return other + name.removeprefix(side), value
        return name, _OTHER[value] if name == "team" else value

    return _changed(found, swap)


def renumbered(found: Answers, numbers: Mapping[int, int]) -> Answers:
    """The answers with other numbers of events."""

    def number(name: str, value: Any) -> tuple[str, Any]:
        if name in {"penalty", "seq", "ended_by"} and value is not None:
            return name, numbers[value]
        return name, tuple(numbers[one] for one in value) if name == "ended" else value

    return _changed(found, number)


def shifted(found: Answers, by: int) -> Answers:
    """The answers with all times `by` tenths later in their period."""

    def later(name: str, value: Any) -> tuple[str, Any]:
        return name, Time(value.period, value.played + by) if isinstance(value, Time) else value

    return _changed(found, later)
