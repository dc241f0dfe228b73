"""The roster of one side as it changes through the game."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property

from attrs import frozen

from ...events import TEAMS, GameOpened, Player, RosterChange, Team
from .step import Step

__all__ = ["Roster", "rosters"]


@frozen(slots=False, eq=False)
class Roster:
    """The roster of one side through the game.

    Attributes:
        players: those it was opened with; empty where no roster was given.
        changes: what changed, each with its place in the game.
    """

    players: tuple[Player, ...]
    changes: tuple[tuple[Step, RosterChange], ...]

    @cached_property
    def numbers(self) -> frozenset[str]:
        """Every number that was on it at some time; empty where none was given, or one of goalkeepers alone."""
        if all(player.position == "goalkeeper" for player in self.players):
            return frozenset()
        return frozenset({player.number for player in self.players} | {change.number for _, change in self.changes})

    @cached_property
    def _opening(self) -> Mapping[str, str | None]:
        """What it said of each number when the game was opened; of two with one number, what it said of the first."""
        return {player.number: player.status for player in reversed(self.players)}

    def status(self, number: str, index: int) -> str | None:
        """What the roster says of `number` before the event at `index`.

        A late arrival that is written without a reading was there from the start.
        """
        found = self._opening.get(number)
        for step, change in self.changes:
            if change.number == number and change.status is not None:
                arrived = change.status == "playing" and change.clock is None
                found = change.status if step.index < index or arrived else found
        return found

    def given_up(self, number: str, index: int) -> RosterChange | None:
        """The change before the event at `index` that gave the wearer of `number` another, if nobody wears it since."""
        last: RosterChange | None = None
        for step, change in self.changes:
            if step.index < index:
                last = change if change.was == number else None if change.number == number else last
        return last


def rosters(header: GameOpened, changes: Iterable[tuple[Step, RosterChange]]) -> Mapping[Team, Roster]:
    """The rosters of both sides."""
    sheets = {"home": header.home, "away": header.away}
    written = tuple(changes)
    return {
        team: Roster(sheets[team].roster or (), tuple(pair for pair in written if pair[1].team == team))
        for team in TEAMS
    }
