"""`box --json`: who sits on each side."""

from __future__ import annotations

from typing import Any

from ...timeline.clock import format_reading
from ...timeline.game import Instant
from ...timeline.views.box import Because, Sitting
from ..words import TEAMS
from .common import head, time

__all__ = ["box_answer"]


def box_answer(instant: Instant) -> dict[str, Any]:
    """``{"at", "home": [sitting], "away": [sitting]}``."""
    answer = {**head(instant.game.header), "at": time(instant.at)}
    for team in TEAMS:
        answer[team] = [sitting_answer(one) for one in instant.box if one.team == team]
    return answer


def sitting_answer(one: Sitting) -> dict[str, Any]:
    """One person in the box; `remaining` is a reading, `out` assumes no further goal or penalty."""
    return {
        "player": one.player,
        "sits": one.sits,
        "penalty": one.penalty,
        "infraction": one.infraction,
        "part": one.part,
        "state": one.state,
        "remaining": format_reading(one.remaining),
        "serves": [{"penalty": seq, "part": kind} for seq, kind in one.serves],
        "out": time(one.out.at),
        "how": one.out.how,
        "time_up": time(one.out.time_up),
        "ends_on_goal": one.ends_on_goal,
        "assumed": one.assumed,
        "because": [reason_answer(reason) for reason in one.because],
    }


def reason_answer(reason: Because) -> dict[str, Any]:
    """A rule, where it stands, the event behind it, and a sentence."""
    return {"rule": reason.rule, "source": reason.source, "seq": reason.seq, "text": reason.text}
