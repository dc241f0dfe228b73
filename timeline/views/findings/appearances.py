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

__all__ = ["PENALIZED", "SEEN_IN_THE_BOX", "WENT_IN_GOAL", "Appearance", "Doing", "appearances"]


@frozen
class Doing:
    """What a player is named for.

    Attributes:
        field: the field that holds the number.
        says: what the player did, as in ``"home 12 scored"``.
        plays: the player takes part, and is not only penalized, counted, or seen in the box.
        on_ice: it takes somebody who is on the ice.
    """

    field: str
    says: str
    plays: bool = True
    on_ice: bool = False


SCORED = Doing("scorer", "scored", on_ice=True)
ASSISTED = Doing("assists", "assisted", on_ice=True)
PENALIZED = Doing("player", "was penalized", plays=False)
NAMED_TO_SERVE = Doing("served_by", "was named to serve")
SHOT = Doing("player", "shot", on_ice=True)
TOOK_A_PENALTY_SHOT = Doing("player", "took a penalty shot", on_ice=True)
SHOT_IN_THE_SHOOTOUT = Doing("player", "shot in the shootout")
WENT_IN_GOAL = Doing("goalie", "went in goal", on_ice=True)
SEEN_ON_THE_ICE = Doing("player", "was seen on the ice")
SEEN_IN_THE_BOX = Doing("player", "was seen in the box", plays=False)
HAS_FIGURES = Doing("goalie", "has figures as a goalkeeper", plays=False)


@frozen
class Appearance:
    """A number that an event names.

    Attributes:
        doing: what for.
        amended: what to type for another number: the field and ``…``.
    """

    team: Team
    number: str
    doing: Doing
    amended: str

    @property
    def says(self) -> str:
        """``"home 12 scored"``."""
        return f"{self.who} {self.doing.says}"

    @property
    def who(self) -> str:
        """``"home 12"``."""
        return f"{self.team} {self.number}"

    def corrected(self, seq: int) -> str:
        """The short entry that puts another number there."""
        return f"`amend {seq} {self.amended}`"


def _one(team: Team, number: str | None, doing: Doing) -> list[Appearance]:
    return [] if number is None else [Appearance(team, number, doing, f"{doing.field} …")]


def _goal(event: Goal) -> list[Appearance]:
    found = _one(event.team, event.scorer, SCORED)
    assists = event.assists or ()
    for place, number in enumerate(assists):
        amended = " ".join(("assists", *assists[:place], "…", *assists[place + 1 :]))
        found.append(Appearance(event.team, number, ASSISTED, amended))
    return found


def _penalty(event: PenaltyAssessed) -> list[Appearance]:
    return _one(event.team, event.player, PENALIZED) + _one(event.team, event.served_by, NAMED_TO_SERVE)


def _seen(event: ObservedPlayer) -> list[Appearance]:
    return _one(event.team, event.player, SEEN_ON_THE_ICE if event.where == "ice" else SEEN_IN_THE_BOX)


_APPEARANCES: Mapping[type[Any], Callable[[Any], list[Appearance]]] = {
    Goal: _goal,
    PenaltyAssessed: _penalty,
    Shot: lambda event: _one(event.team, event.player, SHOT),
    PenaltyShot: lambda event: _one(event.team, event.player, TOOK_A_PENALTY_SHOT),
    ShootoutAttempt: lambda event: _one(event.team, event.player, SHOT_IN_THE_SHOOTOUT),
    GoalieChange: lambda event: _one(event.team, event.goalie, WENT_IN_GOAL),
    ObservedPlayer: _seen,
    Figures: lambda event: _one(event.team, event.goalie, HAS_FIGURES),
}


def appearances(event: Event) -> list[Appearance]:
    """The numbers that `event` names."""
    named = _APPEARANCES.get(type(event))
    return named(event) if named else []
