"""What is wrong with a ruleset, or odd about it."""

from __future__ import annotations

from collections.abc import Sequence

from ... import rulesets
from ...timeline.problems import Problem, render
from ...timeline.rules import Ruleset
from ..answers.common import DECIDES
from ..paper import Style
from ..words import listed

__all__ = ["check_lines"]


def check_lines(name: str, rules: Ruleset | None, found: Sequence[Problem], style: Style) -> list[str]:
    """Every problem with its place and what to write, then how many, and what is applied where nothing is wrong."""
    lines = [render(problem) for problem in found]
    if found:
        lines.append("")
    lines.append(style.strong(f"{name}: {_counted(found)}"))
    if rules is not None:
        lines.append(rulesets.applied_line(rules))
    return [*lines, style.faint(DECIDES)]


def _counted(found: Sequence[Problem]) -> str:
    counts = [
        (sum(problem.severity == severity for problem in found), severity) for severity in ("error", "warning", "note")
    ]
    told = [f"{count} {severity}{'s' if count > 1 else ''}" for count, severity in counts if count]
    return f"{listed(told)}." if told else "nothing wrong with it."
