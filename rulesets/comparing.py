"""Rulesets side by side, and in one line for people."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..timeline.clock import format_reading
from ..timeline.knobs.values import written
from ..timeline.rules import KNOBS, Ruleset, knob_value
from .library import with_settings

__all__ = ["applied_line", "diff", "overrides"]

_BOARDS = {"remaining": "board counts down", "elapsed": "board counts up"}


def diff(a: Ruleset, b: Ruleset) -> tuple[tuple[str, Any, Any], ...]:
    """The knobs that `a` and `b` set differently: dotted name, value in `a`, value in `b`, as files write them.

    >>> from rinkfold import rulesets
    >>> younger, older = rulesets.load("youth-10u"), rulesets.load("youth-12u")
    >>> [each for each in diff(younger, older) if each[0] == "lengths.minor"]
    [('lengths.minor', '1:30', '2:00')]
    """
    pairs = ((name, knob_value(a, name), knob_value(b, name)) for name in KNOBS)
    return tuple((name, written(x, name), written(y, name)) for name, x, y in pairs if x != y)


def overrides(rules: Ruleset, settings: Mapping[str, Any] | None) -> tuple[tuple[str, Any, Any], ...]:
    """What `settings` change in `rules`: dotted name, the ruleset's value, the game's, as files write them.

    Raises:
        ProblemsFound: a setting is not right.
    """
    return diff(rules, with_settings(rules, settings))


def applied_line(rules: Ruleset) -> str:
    """What the table checks first about `rules`, in one line.

    >>> from rinkfold import rulesets
    >>> applied_line(with_settings(rulesets.load("youth-10u"), {"game.period_length": "12:00"}))
    'minor 1:30 · period 12:00 · board counts down · overtime 5:00, 5 on 5'
    """
    parts = [
        f"minor {format_reading(rules.lengths.minor)}",
        f"period {format_reading(rules.game.period_length)}",
        _BOARDS[rules.game.reading],
    ]
    if not rules.ice.plays_short:
        parts.append("no side plays short")
    if rules.game.clock == "running":
        parts.append("running clock")
    elif rules.game.running_clock.starts_at_lead:
        parts.append(_lead(rules))
    skaters = rules.overtime.skaters
    return " · ".join([*parts, f"overtime {format_reading(rules.overtime.length)}, {skaters} on {skaters}"])


def _lead(rules: Ruleset) -> str:
    running = rules.game.running_clock
    return f"running clock from period {running.from_period} at a lead of {running.starts_at_lead}"
