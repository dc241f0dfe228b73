"""What somebody saw, against what the rules owe."""

from __future__ import annotations

from collections.abc import Iterator

from ...events import ObservedPlayer, ObservedStrength
from ...fold.state import GameState
from ..strength import strength_of
from .checked import Checked
from .finding import Finding, Kind
from .seats import Seat, seats
from .step import Step

__all__ = ["CHECKS"]

STRENGTH_SEEN = Kind(
    "strength_seen",
    "warning",
    "Other numbers of skaters were seen on the ice than the rules owe.",
    "Tell the officials; look for a penalty, a door or an empty net that is not recorded or has a wrong reading.",
)
PLAYER_SEEN = Kind(
    "player_seen",
    "warning",
    "A player was seen on the ice who has to sit, or in the box although nobody of that number has to.",
    "Tell the officials; look for a penalty or a door that is not recorded or has a wrong reading.",
)

NEAR = 10
"""Tenths around a change in which either is right."""


def _around(checked: Checked, step: Step) -> Iterator[GameState]:
    """The game a little before, at, and a little after an observation; in a stoppage as if play resumed there."""
    if step.played is None:
        return
    yield step.arrived
    for played in (step.played - NEAR, step.played, step.played + NEAR):
        yield checked.folded.state_at(step.period, max(played, 0))


def check_strength(checked: Checked) -> Iterator[Finding]:
    """Check that as many skaters were seen as the rules owe."""
    for step, event in checked.of(ObservedStrength):
        owed = [strength_of(state) for state in _around(checked, step)]
        if owed and all((event.home, event.away) != (one.home, one.away) for one in owed):
            message = f"{event.home} on {event.away} was seen; the rules say {owed[2].label}."
            remedy = (
                f"Tell the officials; `rinkfold box` says who should sit. If miscounted: `void {event.seq} miscounted`."
            )
            yield STRENGTH_SEEN.of(step, message, remedy)


def check_players(checked: Checked) -> Iterator[Finding]:
    """Check that players were seen where they have to be."""
    for step, event in checked.of(ObservedPlayer):
        around = [[*seats(state.side(event.team), state.now)] for state in _around(checked, step)]
        where = [_where(checked, event, here) for here in around]
        side = step.after.side(event.team)
        if not where or event.where in where or None in where or side.record(event.player).ejected_at is not None:
            continue
        place, owed = ("on the ice", "has to sit") if event.where == "ice" else ("in the box", "does not have to sit")
        message = f"{event.team} {event.player} was seen {place}, but {owed}."
        remedy = f"Tell the officials; if it was another number: `amend {event.seq} player …`."
        yield PLAYER_SEEN.of(step, message, remedy)


def _where(checked: Checked, event: ObservedPlayer, here: list[Seat]) -> str | None:
    """Where the player has to be: ``ice`` or ``box``; ``None`` where the record does not tell."""
    own = [seat for seat in here if seat.who == event.player]
    if any(seat.left for seat in own) or (own and checked.whistles.kept):
        return "box"
    return None if own or any(seat.who is None for seat in here) else "ice"


CHECKS = (check_strength, check_players)
