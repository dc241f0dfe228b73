"""The findings: what was found on a line, what to do below it."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

from ...timeline.game import Game
from ...timeline.problems import Severity
from ...timeline.views.findings import Finding
from ..paper import Style
from ..times import shown
from ..words import footer, listed

__all__ = ["check_lines"]

WIDTH = 110
_QUOTED = re.compile(r"`[^`]*`")
_NO_BREAK = "\u00a0"
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")


def check_lines(game: Game, found: Sequence[Finding], style: Style) -> list[str]:
    """Every finding with what to do, and how many there are; nothing at all where all is well."""
    if not found:
        return []
    heads = [_head(game, finding) for finding in found]
    widths = [max(map(len, column)) for column in zip(*heads, strict=True)]
    lines: list[str] = []
    for finding, cells in zip(found, heads, strict=True):
        lead = "  ".join((cells[0].ljust(widths[0]), cells[1].rjust(widths[1]), cells[2].rjust(widths[2]))) + "  "
        lines += _wrapped(finding.message, lead, " " * len(lead))
        lines += [style.faint(line) for line in _wrapped(finding.fix, " " * len(lead), " " * len(lead))]
    return [*lines, "", _counted(found), style.faint(footer(game.header))]


def _head(game: Game, finding: Finding) -> tuple[str, str, str]:
    """Severity, time and event."""
    at = "" if finding.at is None else shown(finding.at, game.rules)
    return finding.severity, at, "" if finding.seq is None else f"#{finding.seq}"


def _wrapped(text: str, first: str, further: str) -> list[str]:
    """`text` in lines of at most `WIDTH`; what stands in backquotes, which somebody may copy, is never broken."""
    kept = _QUOTED.sub(lambda found: found[0].replace(" ", _NO_BREAK), text)
    lines = textwrap.wrap(
        kept, WIDTH, initial_indent=first, subsequent_indent=further, break_long_words=False, break_on_hyphens=False
    )
    return [line.replace(_NO_BREAK, " ") for line in lines]


def _counted(found: Sequence[Finding]) -> str:
    counts = {severity: sum(finding.severity == severity for finding in found) for severity in SEVERITIES}
    return (
        f"{listed(f'{n} {name}{s}' for name, n in counts.items() if n for s in ['s' if n > 1 else '']).capitalize()}."
    )
