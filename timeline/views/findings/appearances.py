"""Who is named by an event, and as what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import frozen

from ...events import (
    Event,
    Figures,
    Goal,
    GoalieChange,
    ObservedPlayer,
    PenaltyAssessed,
    PenaltyShot,
    ShootoutAttempt,
    Shot,
    Team,
)

__all__ = ["Appearance", "appearances"]


@frozen
class Appearance:
    """A number that an event names.

    Attributes:
        field: the field that holds it.
        doing: what the player did, as in ``"home 12 scored"``.
        plays: the player takes part, and is not only penalized, counted, or seen in the box.
        on_ice: it takes somebody who is on the ice.
        amended: what to type for another number: the field and ``…``.
    """

    team: Team
    number: str
    field: str
    doing: str
    plays: bool
    on_ice: bool
    amended: str

    @property
    def who(self) -> str:
        """``"home 12"``."""
        return f"{self.team} {self.number}"

    def corrected(self, seq: int) -> str:
        """The short entry that puts another number there."""
        return f"`amend {seq} {self.amended}`"


def _one(
    team: Team, number: str | None, field: str, doing: str, *, plays: bool = True, on_ice: bool = False
) -> list[Appearance]:
    return [] if number is None else [Appearance(team, number, field, doing, plays, on_ice, f"{field} …")]


def _goal(event: Goal) -> list[Appearance]:
    found = _one(event.team, event.scorer, "scorer", "scored", on_ice=True)
    assists = event.assists or ()
    for place, number in enumerate(assists):
        amended = " ".join(("assists", *assists[:place], "…", *assists[place + 1 :]))
        found.append(Appearance(event.team, number, "assists", "assisted", True, True, amended))
    return found


def _penalty(event: PenaltyAssessed) -> list[Appearance]:
    player = _one(event.team, event.player, "player", "was penalized", plays=False)
    return player + _one(event.team, event.served_by, "served_by", "was named to serve")


def _seen(event: ObservedPlayer) -> list[Appearance]:
    on_ice = event.where == "ice"
    doing = "was seen on the ice" if on_ice else "was seen in the box"
    return _one(event.team, event.player, "player", doing, plays=on_ice)


_APPEARANCES: Mapping[type[Any], Callable[[Any], list[Appearance]]] = {
    Goal: _goal,
    PenaltyAssessed: _penalty,
    Shot: lambda event: _one(event.team, event.player, "player", "shot", on_ice=True),
    PenaltyShot: lambda event: _one(event.team, event.player, "player", "took a penalty shot", on_ice=True),
    ShootoutAttempt: lambda event: _one(event.team, event.player, "player", "shot in the shootout"),
    GoalieChange: lambda event: _one(event.team, event.goalie, "goalie", "went in goal", on_ice=True),
    ObservedPlayer: _seen,
    Figures: lambda event: _one(event.team, event.goalie, "goalie", "has figures as a goalkeeper", plays=False),
}


def appearances(event: Event) -> list[Appearance]:
    """The numbers that `event` names."""
    named = _APPEARANCES.get(type(event))
    return named(event) if named else []
