"""`penalties --json`: the life of every penalty."""

from __future__ import annotations

from typing import Any

from ...timeline.clock import format_reading
from ...timeline.game import Game
from ...timeline.views.penalties import PartLife, PenaltyLife, Return
from ..names import staff_word
from .common import head, seconds, time

__all__ = ["penalties_answer"]


def penalties_answer(game: Game, *, names: bool = False) -> dict[str, Any]:
    """``{"penalties": [...]}``, in game order; somebody on the bench by name only if `names`."""
    return {**head(game.header), "penalties": [_penalty(life, names=names) for life in game.penalties]}


def _penalty(life: PenaltyLife, *, names: bool) -> dict[str, Any]:
    event = life.event
    return {
        "penalty": life.penalty,
        "team": event.team,
        "player": event.player,
        "staff": staff_word(event.staff, names=names),
        "served_by": event.served_by,
        "infraction": event.infraction,
        "at": time(life.at),
        "announced": event.announced,
        "parts": [_part(part) for part in life.parts],
        "returns": [_return(one) for one in life.returns],
    }


def _part(part: PartLife) -> dict[str, Any]:
    return {
        "kind": part.kind,
        "length": format_reading(part.length),
        "start": time(part.start),
        "end": time(part.end),
        "served_s": seconds(part.served),
        "fate": part.fate,
    }


def _return(one: Return) -> dict[str, Any]:
    return {"who": one.who, "at": time(one.at), "how": one.how}
