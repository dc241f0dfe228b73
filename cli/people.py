"""Who is on the rosters, and how people are called: by number, and by name only where that was asked for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import evolve, frozen

from ..timeline.events import Event, GameOpened, Player, RosterChange, Team, TeamSheet

__all__ = ["People", "people_of"]

_CHANGED = ("name", "position", "letter", "status")


@frozen
class People:
    """The rosters as they stand, by number, and whether names are shown."""

    home: Mapping[str, Player]
    away: Mapping[str, Player]
    names: bool = False

    def player(self, team: Team, number: str | None) -> Player | None:
        """The line of the roster, None where there is none."""
        return (self.home if team == "home" else self.away).get(number or "")

    def called(self, team: Team, number: str | None) -> str:
        """What somebody is called: the number, ``"?"`` for one still to come; with the name where names are shown."""
        if number is None:
            return "?"
        player = self.player(team, number)
        return f"{number} {player.name}" if self.names and player is not None and player.name else number

    def is_injured(self, team: Team, number: str | None) -> bool:
        """Whether the record says so."""
        player = self.player(team, number)
        return player is not None and player.status == "injured"


def people_of(header: GameOpened, events: Iterable[Event] = (), *, names: bool = False) -> People:
    """The rosters of the game that `header` opened, after the roster changes among `events`, in game order."""
    rosters: dict[Team, dict[str, Player]] = {"home": _numbered(header.home), "away": _numbered(header.away)}
    for event in events:
        if isinstance(event, RosterChange):
            _change(rosters[event.team], event)
    return People(rosters["home"], rosters["away"], names)


def _numbered(sheet: TeamSheet) -> dict[str, Player]:
    return {player.number: player for player in sheet.roster or ()}


def _change(roster: dict[str, Player], event: RosterChange) -> None:
    player = roster.pop(event.was or event.number, None) or Player(number=event.number)
    changes = {name: value for name in _CHANGED if (value := getattr(event, name)) is not None}
    roster[event.number] = evolve(player, number=event.number, **changes)
