"""A folded game written out line by line, for a failing case.

What the engine did up to where it parts from what was expected.
"""

from __future__ import annotations

from rinkfold.timeline.fold.changes import Change, PlayResumed, PlayStopped
from rinkfold.timeline.folded import FoldedGame

SILENT = (PlayResumed, PlayStopped)


def told(game: FoldedGame, until: int) -> str:
    """Every change up to the played tenth `until`, one a line, with its reason."""
    lines = [
        f"  {game.moment_of(change)!s:>8}  {_words(change)}  [{change.rule.name}; event {change.seq}]"
        for change in game.all_changes()
        if change.at <= until and not isinstance(change, SILENT)
    ]
    return "\n".join(lines)


def _words(change: Change) -> str:
    own = [name for name in change._fields if name not in {"at", "period", "seq", "rule"}]
    return " ".join([type(change).__name__, *(f"{name}={getattr(change, name)}" for name in own)])
