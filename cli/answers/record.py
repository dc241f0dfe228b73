"""`record --json`: what was written, or would be."""

from __future__ import annotations

from typing import Any

from ...timeline.record import event_to_dict
from ..closing import head_code_of
from ..recording import Recording, Taken
from .check import finding_answer
from .common import head

__all__ = ["record_answer"]


def record_answer(recording: Recording, *, dry_run: bool) -> dict[str, Any]:
    """``{"written": bool, "recorded": [{"seq", "entry", "effect", "event", "warnings", "hints"}]}``.

    `entry` is in whole words; `warnings` and `hints` are what `check` newly finds. A correction or a late entry has
    ``"differences"`` too, as in `whatif`; where the record is closed and something was written there is its new
    ``"head_code"``.
    """
    code = None if dry_run else head_code_of(recording)
    return {
        **head(recording.game.header),
        "written": not dry_run,
        "recorded": [_recorded(one, written=not dry_run) for one in recording.taken],
        **({"head_code": code} if code else {}),
    }


def _recorded(one: Taken, *, written: bool) -> dict[str, Any]:
    warned = one.warned(written=written)
    answer = {
        "seq": one.event.seq,
        "entry": one.understood,
        "effect": one.effect,
        "event": event_to_dict(one.event),
        "warnings": [finding_answer(found) for found in warned.warnings],
        "hints": [finding_answer(found) for found in warned.hints],
    }
    if one.different is None:
        return answer
    from .differences import differences_answer

    return {**answer, "differences": differences_answer(one.different)}
