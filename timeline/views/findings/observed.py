"""What somebody saw, against what the rules owe."""

from __future__ import annotations

from collections.abc import Iterator

from ...events import ObservedPlayer, ObservedStrength
from ...fold.state import GameState
from ..strength import strength_of
from .checked import Checked
from .finding import Finding, Kind
from .seats import seats
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
    """The game at, a little before, and a little after an observation; in a stoppage as if play resumed there."""
    if step.played is None:
        return
    yield step.arrived
    for played in (step.played, step.played - NEAR, step.played + NEAR):
        yield checked.folded.state_at(step.period, max(played, 0))


def check_strength(checked: Checked) -> Iterator[Finding]:
    """Check that as many skaters were seen as the rules owe."""
    for step, event in checked.of(ObservedStrength):
        if step.played is None or any(_agrees(event, state) for state in _around(checked, step)):
            continue
        owed = strength_of(checked.folded.state_at(step.period, step.played))
        message = f"{event.home} on {event.away} was seen; the rules say {owed.label}."
        remedy = (
            f"Tell the officials; `rinkfold box` says who should sit. If miscounted: `void {event.seq} miscounted`."
        )
        yield STRENGTH_SEEN.of(step, message, remedy)


def _agrees(event: ObservedStrength, state: GameState) -> bool:
    owed = strength_of(state)
    return (event.home, event.away) == (owed.home, owed.away)


def check_players(checked: Checked) -> Iterator[Finding]:
    """Check that players were seen where they have to be."""
    for step, event in checked.of(ObservedPlayer):
        if step.played is None or step.after.side(event.team).record(event.player).ejected_at is not None:
            continue
        if any(_where(checked, event, state) in (event.where, None) for state in _around(checked, step)):
            continue
        place, owed = ("on the ice", "has to sit") if event.where == "ice" else ("in the box", "does not have to sit")
        message = f"{event.team} {event.player} was seen {place}, but {owed}."
        remedy = f"Tell the officials; if it was another number: `amend {event.seq} player …`."
        yield PLAYER_SEEN.of(step, message, remedy)


def _where(checked: Checked, event: ObservedPlayer, state: GameState) -> str | None:
    """Where the player has to be: ``ice`` or ``box``; ``None`` where the record does not tell."""
    sitting = [*seats(state.side(event.team), state.now)]
    own = [seat for seat in sitting if seat.who == event.player]
    if any(seat.left for seat in own) or (own and checked.whistles.kept):
        return "box"
    return None if own or any(seat.who is None for seat in sitting) else "ice"


CHECKS = (check_strength, check_players)
