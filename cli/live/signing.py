"""What the referee looks through before signing: who is out of the game, what has to be reported, then the goals."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from ...timeline.events import PartKind
from ...timeline.fold.changes import Ejected
from ...timeline.game import Game
from ...timeline.views.findings.completeness import lacking
from ...timeline.views.penalties import PenaltyLife
from ..answers.check import finding_answer
from ..answers.summary import final_answer, goalie_answer, minutes_answer
from ..people import People
from ..times import shown
from ..words import TEAMS, offender, parts_text
from .horn import goal_row, open_game_of, people_in
from .keys import Role

if TYPE_CHECKING:
    from .room import Room

__all__ = ["signoff"]

_REPORTED: frozenset[PartKind] = frozenset({"major", "match", "misconduct", "game_misconduct"})


def signoff(room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """``{"checklist", "missing", "ejections", "majors", "goals", "final", "penalty_minutes", "goalies", …}``."""
    game = open_game_of(room)
    people = people_in(game, names=True)
    totals = game.summary
    return {
        "version": room.table.version,
        "checklist": [finding_answer(one) for one in room.table.findings if one.code != "still_open"],
        "missing": lacking(game),
        "ejections": list(_ejections(game, people)),
        "majors": [
            _penalty(game, life, people) for life in game.penalties if not _REPORTED.isdisjoint(life.event.parts)
        ],
        "goals": [{**goal_row(game, goal, people), "when": shown(goal.at, game.rules)} for goal in game.goals],
        "final": final_answer(totals),
        "penalty_minutes": {team: minutes_answer(totals.penalty_minutes[team]) for team in TEAMS},
        "goalies": [goalie_answer(line) for line in totals.goalies],
        "closed": game.folded.last.ice.closed,
        "head_code": room.table.head_code,
    }


def _ejections(game: Game, people: People) -> Iterator[dict[str, Any]]:
    """Everybody whose game is over, each with the penalty that ended it."""
    ended_by = {life.penalty: life for life in game.penalties}
    for change in game.folded.all_changes():
        if isinstance(change, Ejected):
            who = people.called(change.team, change.player)
            at = shown(game.folded.moment_of(change), game.rules)
            life = ended_by.get(change.seq or 0)
            text = "" if life is None else _what(game, life)
            yield {"team": change.team, "who": who, "when": at, "text": text, "seq": change.seq}
    for life in game.penalties:
        if life.event.staff is not None and not {"game_misconduct", "match"}.isdisjoint(life.event.parts):
            yield _penalty(game, life, people)


def _what(game: Game, life: PenaltyLife) -> str:
    return " ".join(filter(None, (parts_text(life.event.parts, game.rules), life.event.infraction)))


def _penalty(game: Game, life: PenaltyLife, people: People) -> dict[str, Any]:
    """A penalty in a line; a member of the staff by name, for who signs."""
    event = life.event
    who = event.staff or offender(event) or people.called(event.team, event.player)
    when = shown(life.at, game.rules)
    return {"team": event.team, "who": who, "when": when, "text": _what(game, life), "seq": event.seq}
