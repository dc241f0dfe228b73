"""The line that is said after an entry: what was entered, when, what it does, and how many skate."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from ...timeline.events import (
    Amend,
    ClockSet,
    Event,
    Faceoff,
    Figures,
    GameClosed,
    Goal,
    GoalieChange,
    ObservedPlayer,
    ObservedStrength,
    PenaltyAssessed,
    PenaltyEnded,
    PenaltyShot,
    PeriodEnd,
    Remark,
    RosterChange,
    ShootoutAttempt,
    Shot,
    Stoppage,
    Timeout,
    Void,
)
from ..times import ordinal
from . import corrections, goals, penalties, play, table
from .entered import Entered

__all__ = ["Entered", "effect_line"]

Said = tuple[str, str]
"""What was entered, and what it does."""

SAYINGS: Mapping[type[Event], Callable[[Entered, Any], Said]] = {
    Faceoff: play.faceoff,
    Stoppage: play.stoppage,
    Timeout: play.timeout,
    PeriodEnd: play.period_end,
    ClockSet: play.clock_set,
    GoalieChange: play.goalie_change,
    Shot: goals.shot,
    Goal: goals.goal,
    PenaltyShot: goals.penalty_shot,
    ShootoutAttempt: goals.shootout_attempt,
    PenaltyAssessed: penalties.assessed,
    PenaltyEnded: penalties.ended,
    RosterChange: table.roster_change,
    ObservedStrength: table.observed_strength,
    ObservedPlayer: table.observed_player,
    Figures: table.figures,
    Remark: table.remark,
    GameClosed: table.game_closed,
    Void: corrections.void,
}
"""How each kind is said. An `amend` is said as what it amended."""


def effect_line(entered: Entered) -> str:
    """One line: ``"home 12, minor 2:00 tripping: 2nd 9:15 → out at 7:15 · home 4 on 5"``."""
    if isinstance(entered.event, Amend):
        if (first := corrections.first_line(entered, entered.event)) is not None:
            return first
        changed = corrections.as_amended(entered, entered.event)
        return (
            f"event {entered.event.target} changed: {effect_line(changed)}"
            if changed
            else "changes nothing that counts"
        )
    what, effect = SAYINGS[type(entered.event)](entered, entered.event)
    when = _when(entered)
    lead = f"{what}: {when}" if when else what
    consequence = f"{lead} → {effect}" if effect else lead
    return f"{consequence} · home {entered.instant.strength.label}"


def _when(entered: Entered) -> str:
    event = entered.event
    if event.period is None:
        return ""
    return f"{ordinal(event.period, entered.rules)} {event.clock or ''}".rstrip()
