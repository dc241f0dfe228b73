"""Who sits, as the line of an entry says it."""

from __future__ import annotations

from ...timeline.events import PenaltyAssessed
from ...timeline.game import Instant
from ...timeline.views.box import Sitting
from ..tables.box import out_text, standing_text
from .entered import Entered

__all__ = ["leaves", "sitting_for"]


def sitting_for(entered: Entered, event: PenaltyAssessed) -> list[Sitting]:
    """Those whom a penalty is about.

    Who sits for it; where nobody does, its player, who was in the box already and serves it later.
    """
    box = entered.instant.box
    own = [one for one in box if one.penalty == event.seq]
    player = (event.team, event.player)
    return own or [one for one in box if event.player is not None and (one.team, one.player) == player]


def leaves(instant: Instant, one: Sitting) -> str:
    """When and how he may leave, and how his time stands where it does not simply run."""
    out = out_text(instant, one).removesuffix(" on the board")
    return f"{standing}, {out}" if (standing := standing_text(one)) else out
