"""`record --json`: what was written, or would be."""

from __future__ import annotations

from typing import Any

from ...timeline.record import event_to_dict
from ..recording import Recording
from .common import head

__all__ = ["record_answer"]


def record_answer(recording: Recording, *, dry_run: bool) -> dict[str, Any]:
    """``{"written": bool, "recorded": [{"seq", "entry", "effect", "event"}]}``; `entry` is in whole words."""
    recorded = [
        {"seq": one.event.seq, "entry": one.understood, "effect": one.effect, "event": event_to_dict(one.event)}
        for one in recording.taken
    ]
    return {**head(recording.game.header), "written": not dry_run, "recorded": recorded}
