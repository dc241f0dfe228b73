"""The engine: clock, events, log, fold, answers. It knows nothing of rulesets' files or of the command line.

What is listed in `__all__` is public. Each name is imported when it is first asked for, so that a program pays only for
what it uses.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .clock import BadReading
    from .events import (
        Amend,
        ClockSet,
        Event,
        Faceoff,
        Figures,
        GameClosed,
        GameOpened,
        Goal,
        GoalieChange,
        ObservedPlayer,
        ObservedStrength,
        Officials,
        PenaltyAssessed,
        PenaltyEnded,
        PenaltyShot,
        PeriodEnd,
        Player,
        Remark,
        RosterChange,
        ShootoutAttempt,
        Shot,
        StaffMember,
        Stoppage,
        TeamSheet,
        Timeout,
        Void,
    )
    from .game import Game, Instant, replay
    from .live import Feed, LiveGame, Recorded
    from .moment import Moment
    from .problems import Problem, ProblemsFound, render
    from .record import (
        Log,
        append,
        create,
        event_from_dict,
        event_to_dict,
        log_schema,
        parse_log,
        read_log,
    )
    from .rules import KNOBS, Knob, Ruleset
    from .views.strength import Segment, Strength

__all__ = [
    "KNOBS",
    "Amend",
    "BadReading",
    "ClockSet",
    "Event",
    "Faceoff",
    "Feed",
    "Figures",
    "Game",
    "GameClosed",
    "GameOpened",
    "Goal",
    "GoalieChange",
    "Instant",
    "Knob",
    "LiveGame",
    "Log",
    "Moment",
    "ObservedPlayer",
    "ObservedStrength",
    "Officials",
    "PenaltyAssessed",
    "PenaltyEnded",
    "PenaltyShot",
    "PeriodEnd",
    "Player",
    "Problem",
    "ProblemsFound",
    "Recorded",
    "Remark",
    "RosterChange",
    "Ruleset",
    "Segment",
    "ShootoutAttempt",
    "Shot",
    "StaffMember",
    "Stoppage",
    "Strength",
    "TeamSheet",
    "Timeout",
    "Void",
    "append",
    "create",
    "event_from_dict",
    "event_to_dict",
    "log_schema",
    "parse_log",
    "read_log",
    "render",
    "replay",
]

_PLACES = {
    "BadReading": "clock",
    "Amend": "events",
    "ClockSet": "events",
    "Event": "events",
    "Faceoff": "events",
    "Figures": "events",
    "GameClosed": "events",
    "GameOpened": "events",
    "Goal": "events",
    "GoalieChange": "events",
    "ObservedPlayer": "events",
    "ObservedStrength": "events",
    "Officials": "events",
    "PenaltyAssessed": "events",
    "PenaltyEnded": "events",
    "PenaltyShot": "events",
    "PeriodEnd": "events",
    "Player": "events",
    "Remark": "events",
    "RosterChange": "events",
    "ShootoutAttempt": "events",
    "Shot": "events",
    "StaffMember": "events",
    "Stoppage": "events",
    "TeamSheet": "events",
    "Timeout": "events",
    "Void": "events",
    "Feed": "live",
    "LiveGame": "live",
    "Recorded": "live",
    "Moment": "moment",
    "Problem": "problems",
    "ProblemsFound": "problems",
    "render": "problems",
    "Log": "record",
    "append": "record",
    "create": "record",
    "event_from_dict": "record",
    "event_to_dict": "record",
    "log_schema": "record",
    "parse_log": "record",
    "read_log": "record",
    "Game": "game",
    "Instant": "game",
    "replay": "game",
    "KNOBS": "rules",
    "Knob": "rules",
    "Ruleset": "rules",
    "Segment": "views.strength",
    "Strength": "views.strength",
}


def __getattr__(name: str) -> Any:
    """A public name, imported now."""
    if name not in _PLACES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(importlib.import_module(f".{_PLACES[name]}", __name__), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """The public names."""
    return __all__
