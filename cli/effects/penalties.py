"""Penalties: who is out when, what is not served, and what an official ended."""

from __future__ import annotations

from ...timeline.events import PenaltyAssessed, PenaltyEnded
from ...timeline.views.box import Sitting
from ...timeline.views.penalties import PartLife, PenaltyLife
from ..tables.box import who_sits
from ..times import shown
from ..words import PARTS, listed, offender, part_text, parts_text
from .entered import Entered
from .leaving import consequences
from .sitting import leaves, sitting_for

__all__ = ["assessed", "ended"]

Said = tuple[str, str]

NOT_SERVED = {
    "washed out": "not served: the goal washes it out",
    "replaced by penalty shot": "not served: a penalty shot in its place",
    "unserved": "written, nobody serves it",
    "ended by ruling": "ended by a ruling",
    "ended by ejection": "not served: the player is out of the game",
}


def assessed(entered: Entered, event: PenaltyAssessed) -> Said:
    """Who leaves when, for each who sits; what is not served."""
    infraction = f" {event.infraction}" if event.infraction else ""
    what = f"{event.team} {_who(entered, event)}, {parts_text(event.parts, entered.rules)}{infraction}"
    life = _life_of(entered, event.seq)
    effects = [*_sits(entered, event), *(_not_served(entered, life) if life else []), *consequences(entered)]
    return what, "; ".join(effects)


def _who(entered: Entered, event: PenaltyAssessed) -> str:
    return offender(event) or entered.people.called(event.team, event.player)


def _life_of(entered: Entered, seq: int) -> PenaltyLife | None:
    return next((life for life in entered.game.penalties if life.penalty == seq), None)


def _sits(entered: Entered, event: PenaltyAssessed) -> list[str]:
    """When each may leave; who it is only where that is not the penalized player, or where several sit."""
    sittings = sitting_for(entered, event)
    if len(sittings) < 2:
        return [_leaves(entered, one) for one in sittings]
    return [
        f"{who_sits(entered.instant, one, entered.people)}, {PARTS[one.part]}: {leaves(entered.instant, one)}"
        for one in sittings
    ]


def _leaves(entered: Entered, one: Sitting) -> str:
    text = leaves(entered.instant, one)
    return text if one.role == "player" else f"{who_sits(entered.instant, one, entered.people)}: {text}"


def _not_served(entered: Entered, life: PenaltyLife) -> list[str]:
    parts = [part for part in life.parts if part.fate in NOT_SERVED]
    if len(parts) == len(life.parts):
        return list(dict.fromkeys(NOT_SERVED[part.fate] for part in parts))
    return [f"{part_text(part.kind, entered.rules)} {NOT_SERVED[part.fate]}" for part in parts if _is_news(part)]


def _is_news(part: PartLife) -> bool:
    return part.kind != "game_misconduct"


def ended(entered: Entered, event: PenaltyEnded) -> Said:
    """A ruling and what it changes; or a door, and what the rules owe."""
    life = _life_of(entered, event.penalty)
    penalized = "?" if life is None else _who(entered, life.event)
    if event.cause == "ruling":
        return f"{event.team} {penalized}, penalty ended by an official", "; ".join(consequences(entered))
    return f"{event.team} {penalized}, door open", _owed(entered, event, life)


def _owed(entered: Entered, event: PenaltyEnded, life: PenaltyLife | None) -> str:
    """What the rules owe whoever sat, beside what happened."""
    sitting = [one for one in entered.instant.box if one.penalty == event.penalty]
    if sitting:
        return f"by the rules {_leaves(entered, sitting[0])}"
    if life is None or not life.returns:
        return "nobody sits for it"
    return f"by the rules out at {listed(shown(one.at, entered.rules) for one in life.returns)}"
