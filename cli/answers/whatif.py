"""`whatif --json`: what was supposed, and what would have been different."""

from __future__ import annotations

from typing import Any

from ...timeline.record import event_to_dict
from ..supposing import Supposed
from ..two_games import TwoGames
from .common import head
from .differences import differences_answer

__all__ = ["whatif_answer"]


def whatif_answer(supposed: Supposed, two: TwoGames) -> dict[str, Any]:
    """``{"supposed": [{"entry", "event"}]}`` and the differences; `entry` is in whole words."""
    return {
        **head(supposed.after.header),
        "supposed": [{"entry": one.understood, "event": event_to_dict(one.event)} for one in supposed.taken],
        **differences_answer(two),
    }
