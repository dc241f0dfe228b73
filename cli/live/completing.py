"""What a page completes entries with: teams, numbers on the rosters, infractions, words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from ...timeline.events import Player, Team, TeamSheet
from ...timeline.game import Game
from ..entries.kinds import GRAMMARS
from ..entries.words import OPTIONS, TEAMS, VERBS
from ..people import People, people_of
from .answers import Refusal
from .keys import Role

if TYPE_CHECKING:
    from .room import Room

__all__ = ["player_object", "setup"]

PARTS = (
    *("minor", "double minor", "major", "misconduct", "match", "game misconduct", "bench minor"),
    *("2", "2+2", "5", "5+game", "2+10", "10"),
)
"""Parts of a penalty as they are announced."""

_SHORT = 2  # letters


def setup(room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """``{"roster_stamp", "teams", "infractions", "parts", "verbs", "options"}``; names only for who is shown names."""
    game = room.table.game
    if game is None:
        raise Refusal(409, "not_open", "No game is opened yet.", "Open it first.")
    names = room.shows_names(role)
    people = people_of(game.header, (one.event for one in game.folded.placed), names=names)
    return {
        "roster_stamp": room.state(role)["roster_stamp"],
        "teams": {"home": _team(game, "home", people), "away": _team(game, "away", people)},
        "infractions": list(game.rules.infractions),
        "parts": list(PARTS),
        "verbs": _verbs(),
        "options": list(dict.fromkeys(words[0] for words in OPTIONS.values())),
    }


def _team(game: Game, team: Team, people: People) -> dict[str, Any]:
    sheet: TeamSheet = getattr(game.header, team)
    players = (people.home if team == "home" else people.away).values()
    return {
        "called": [name for name in (*TEAMS[team], sheet.short, sheet.colour, sheet.name) if name],
        "roster": [player_object(one, names=people.names) for one in sorted(players, key=_by_number)],
        "staff": [{"name": one.name, "role": one.role} for one in sheet.staff or ()] if people.names else [],
    }


def _by_number(player: Player) -> tuple[int, str]:
    return int(player.number) if player.number.isdecimal() else 1000, player.number


def player_object(player: Player, *, names: bool = True) -> dict[str, Any]:
    """One line of a roster; without its name unless `names`."""
    return {
        "number": player.number,
        "name": player.name if names else None,
        "position": player.position,
        "letter": player.letter,
        "status": player.status,
    }


def _verbs() -> list[dict[str, Any]]:
    """Every verb with its short form and an example; two of a kind that takes a team or not stand twice."""
    return [
        {
            "words": VERBS[grammar.verb][0],
            "short": next((word for word in VERBS[grammar.verb] if len(word) <= _SHORT), None),
            "team": grammar.team,
            "example": grammar.example,
        }
        for grammar in GRAMMARS
        if grammar.kind != "game_opened"
    ]
