"""The rulesets, and every rule of one of them."""

from __future__ import annotations

from collections.abc import Sequence

from ... import rulesets
from ...timeline.rules import KNOBS, Ruleset, knob_value
from ..answers.common import DECIDES
from ..paper import Style
from ..words import yes_or_no
from .layout import columns

__all__ = ["list_lines", "show_lines"]


def list_lines(known: Sequence[Ruleset], style: Style) -> list[str]:
    """A line for each ruleset."""
    rows = [(one.name, rulesets.applied_line(one)) for one in known]
    return [*columns(rows, "<<", style), "", style.faint(f"One of them whole: rinkfold rules show NAME. {DECIDES}")]


def show_lines(rules: Ruleset, style: Style) -> list[str]:
    """Each knob with its value and source, and its meaning below."""
    title = f"{rules.name}: {rules.title}" if rules.title else rules.name
    lines = [*style.ruled(title), rulesets.applied_line(rules), ""]
    rows = [(name, yes_or_no(rulesets.written(knob_value(rules, name), name)), _source(rules, name)) for name in KNOBS]
    for row, knob in zip(columns(rows, "<<<", style), KNOBS.values(), strict=True):
        lines += [row, style.faint(f"  {knob.meaning}")]
    return [*lines, "", style.faint(DECIDES)]


def _source(rules: Ruleset, name: str) -> str:
    return rules.sources.get(name, "")
