"""Two rulesets side by side: what they set differently, and where each value comes from."""

from __future__ import annotations

from collections.abc import Sequence

from ... import rulesets
from ...timeline.rules import KNOBS, Ruleset
from ..answers.common import DECIDES
from ..answers.rules import words_apart
from ..paper import Style
from ..words import yes_or_no
from .layout import columns

__all__ = ["diff_lines"]


def diff_lines(a: Ruleset, b: Ruleset, style: Style) -> list[str]:
    """Both in one line, then each rule that differs with its two values and sources, then the words for infractions."""
    differing = rulesets.diff(a, b)
    heads = columns([(one.name, rulesets.applied_line(one)) for one in (a, b)], "<<", style)
    lines = [*heads, ""]
    for name, mine, theirs in differing:
        lines.append(f"{style.strong(name)}  {style.faint(KNOBS[name].meaning)}")
        rows = [
            (f"  {one.name}", yes_or_no(value), one.sources.get(name, "")) for one, value in ((a, mine), (b, theirs))
        ]
        lines += columns(rows, "<<<", style)
    words = words_apart(a, b)
    for one, only in zip((a, b), words, strict=True):
        if only:
            lines.append(f"infractions offered by {one.name} alone: {', '.join(only)}")
    return [*lines, *_verdict(len(differing), words), style.faint(DECIDES)]


def _verdict(count: int, words: Sequence[Sequence[str]]) -> list[str]:
    if count:
        return ["", f"{count} rule{'s differ' if count > 1 else ' differs'}."]
    return ["", "The rules are the same; only the words for infractions differ."] if any(words) else ["The same."]
