"""The game as one ledger: what happened and what was owed, in the order of the game."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ...timeline.clock import format_reading
from ...timeline.events import PenaltyShot, ShootoutAttempt, Team, Timeout
from ...timeline.game import Game
from ...timeline.moment import Moment
from ...timeline.views.goals import GoalLine
from ...timeline.views.penalties import PartLife, PenaltyLife, Return
from ..people import People
from ..tables.summary import goal_text, scorers
from ..times import on_board, ordinal
from ..words import PARTS, part_text, parts_text
from .bars import fate_of, penalized

__all__ = ["Chapter", "Row", "ledger"]


@frozen
class Row:
    """One line: on whose side it stands, when, and how many skate afterwards.

    Attributes:
        kind: ``goal``, ``penalty``, ``return``, ``shot``, ``timeout`` or ``attempt``.
        what: the word for it, `text` the rest, `notes` what became of it, part by part.
        skaters: home and away once play goes on, empty where no play follows.
        score: after a goal.
    """

    kind: str
    seq: int
    team: Team
    at: str
    what: str
    text: str
    notes: tuple[str, ...] = ()
    skaters: str = ""
    score: str = ""


@frozen
class Chapter:
    """The lines of a period."""

    title: str
    rows: tuple[Row, ...]


@frozen
class _Entry:
    period: int
    tenth: int
    place: int
    row: Row


def ledger(game: Game, people: People) -> tuple[Chapter, ...]:
    """Goals, penalties, releases, time-outs and shots of both sides, period by period."""
    places = {placed.event.seq: number for number, placed in enumerate(game.folded.placed)}
    found = [*_goals(game, people, places), *_penalties(game, people, places), *_others(game, people)]
    found.sort(key=lambda entry: (entry.period, entry.tenth, entry.place))
    periods = sorted({span.period for span in game.periods} | {entry.period for entry in found})
    return tuple(
        Chapter(_title(game, period), tuple(entry.row for entry in found if entry.period == period))
        for period in periods
    )


def _title(game: Game, period: int) -> str:
    return ordinal(period, game.rules) + (" period" if period <= game.rules.game.periods else "")


def _skaters(game: Game, period: int, tenth: int) -> str:
    """Skaters from `tenth` on, as far as play followed."""
    for segment in game.strength_segments:
        if segment.period == period and segment.start <= tenth < segment.end:
            return f"{segment.strength.home} on {segment.strength.away}"
    return ""


def _goals(game: Game, people: People, places: dict[int, int]) -> Iterator[_Entry]:
    score = {"home": 0, "away": 0}
    for goal in game.goals:
        score[goal.team] += 1
        yield _Entry(
            goal.at.period,
            goal.tenth,
            places[goal.seq],
            _goal(game, goal, people, f"{score['home']}–{score['away']}"),
        )


def _goal(game: Game, goal: GoalLine, people: People, score: str) -> Row:
    text = goal_text(game, goal, people)
    skaters = _skaters(game, goal.at.period, goal.tenth)
    notes = (text,) if text else ()
    return Row("goal", goal.seq, goal.team, goal.at.clock, "Goal", scorers(goal, people), notes, skaters, score)


def _penalties(game: Game, people: People, places: dict[int, int]) -> Iterator[_Entry]:
    tenths = {placed.event.seq: state.now for placed, state in zip(game.folded.placed, game.folded.states, strict=True)}
    for life in game.penalties:
        place, tenth = places[life.penalty], tenths[life.penalty]
        yield _Entry(life.at.period, tenth, place, _penalty(game, life, people, tenth))
        for one in life.returns:
            yield _Entry(one.at.period, one.tenth, len(places) + place, _return(game, life, one, people))


def _penalty(game: Game, life: PenaltyLife, people: People, tenth: int) -> Row:
    event = life.event
    infraction = f" {event.infraction}" if event.infraction else ""
    sits = f"; {people.called(event.team, event.served_by)} sits" if event.served_by else ""
    text = f"{penalized(life, people)}, {parts_text(event.parts, game.rules)}{infraction}{sits}"
    notes = tuple(_became(game, life.at, part, alone=len(life.parts) == 1) for part in life.parts)
    skaters = _skaters(game, life.at.period, tenth)
    return Row("penalty", life.penalty, life.team, life.at.clock, "Penalty", text, notes, skaters)


def _became(game: Game, at: Moment, part: PartLife, *, alone: bool) -> str:
    """What became of a part: when it ran, how much was served, how it ended."""
    lead = "" if alone else f"{part_text(part.kind, game.rules)}: "
    if part.start is None or part.kind == "game_misconduct":
        return f"{lead}{fate_of(part)}"
    until = f" to {on_board(part.end, at, game.rules)}" if part.end is not None else " on"
    served = "" if part.served == part.length else f", {format_reading(part.served)} served"
    fate = part.fate if part.end is not None else f"{part.fate} when the record ends"
    return f"{lead}{on_board(part.start, at, game.rules)}{until}, {fate}{served}"


def _return(game: Game, life: PenaltyLife, one: Return, people: People) -> Row:
    who = "a team-mate" if one.who is None else people.called(life.team, one.who)
    for_whom = f" for {penalized(life, people)}" if one.role != "player" else ""
    how = "time over" if one.how == "on expiry" else "at a whistle"
    what = PARTS[life.event.parts[0]] + (f" {life.event.infraction}" if life.event.infraction else "")
    skaters = _skaters(game, one.at.period, one.tenth)
    text = f"{who}{for_whom}, {how} ({what})"
    return Row("return", life.penalty, life.team, one.at.clock, "May leave", text, (), skaters)


def _others(game: Game, people: People) -> Iterator[_Entry]:
    for place, (placed, state) in enumerate(zip(game.folded.placed, game.folded.states, strict=True)):
        event = placed.event
        period, clock = state.ice.period, game.folded.moment(state.ice.period, state.now).clock
        if isinstance(event, Timeout):
            row = Row("timeout", event.seq, event.team, clock, "Time-out", "")
        elif isinstance(event, PenaltyShot) and event.result != "scored":
            text = f"{people.called(event.team, event.player)}, {event.result}"
            row = Row("shot", event.seq, event.team, clock, "Penalty shot", text)
        elif isinstance(event, ShootoutAttempt):
            text = f"{people.called(event.team, event.player)}, {event.result}"
            row = Row("attempt", event.seq, event.team, clock, "Shootout", text)
        else:
            continue
        yield _Entry(period, state.now, place, row)
