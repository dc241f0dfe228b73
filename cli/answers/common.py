"""What all answers share: the head, times, and seconds."""

from __future__ import annotations

from typing import Any

from ...timeline.events import GameOpened
from ...timeline.moment import Moment
from ...timeline.problems import Problem
from ...timeline.rules import Ruleset

__all__ = ["ANSWER_FORMAT", "DECIDES", "head", "problem_answer", "reading", "seconds", "time"]

ANSWER_FORMAT = 1
DECIDES = "The league's own rules and the officials on the ice decide."


def head(header: GameOpened) -> dict[str, Any]:
    """What every answer begins with: the format of answers, the game, and whose rules were applied."""
    return {
        "rinkfold": ANSWER_FORMAT,
        "game": header.game,
        "ruleset": {"name": header.ruleset, "overridden": dict(header.settings or {}), "note": DECIDES},
    }


def time(moment: Moment | None) -> dict[str, Any] | None:
    """``{"period": 2, "clock": "7:42"}``, None for a time that is not known."""
    return None if moment is None else {"period": moment.period, "clock": moment.clock}


def seconds(tenths: int) -> int | float:
    """Seconds: whole ones as an integer, else with tenths."""
    return tenths // 10 if tenths % 10 == 0 else tenths / 10


def reading(rules: Ruleset, period: int, played: int) -> str:
    """What the board shows when `played` tenths of `period` are over."""
    from ...timeline.moment import moment_at

    return moment_at(rules, period, played).clock


def problem_answer(problem: Problem) -> dict[str, Any]:
    """``{"code", "severity", "file", "line", "seq", "field", "message", "fix"}``; null for what is not known."""
    names = ("code", "severity", "file", "line", "seq", "field", "message", "fix")
    return {name: getattr(problem, name) for name in names}
