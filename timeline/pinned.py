"""The first line of a log as it counts, and the ruleset that the log carries in itself.

A log is opened with the whole resolved ruleset pinned in it, so that a later release of the library does not change
an old game. The form is plain data; `knobs.pinning` reads and writes it.
"""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from .events import Amend, Event, GameOpened
from .rules import Ruleset
from .script.corrections import Corrections

__all__ = ["OF_RULES", "effective_header", "pinned_rules"]

OF_RULES = ("ruleset", "settings", "pinned")
"""The fields of the first line that say by which rules the game is played."""


def effective_header(events: Sequence[Event]) -> GameOpened:
    """The first line, its amendments applied.

    `pinned` is ``None`` where the ruleset or the settings were amended and not pinned anew: what was pinned before
    is then no longer what the game is played by.
    """
    header = events[0]
    assert isinstance(header, GameOpened)
    amendments = [event for event in events if isinstance(event, Amend)]
    if not any(each.target == header.seq or "target" in each.changes for each in amendments):
        return header
    corrections = Corrections(events)
    amended = corrections.standing(header.seq).event
    if not isinstance(amended, GameOpened):
        return header
    stale = False
    for amendment in amendments:
        each = corrections.standing(amendment.seq).event
        if isinstance(each, Amend) and each.target == header.seq and not each.changes.keys().isdisjoint(OF_RULES):
            stale = each.changes.get("pinned") is None
    return evolve(amended, pinned=None) if stale else amended


def pinned_rules(events: Sequence[Event]) -> Ruleset | None:
    """The ruleset pinned in a log, ``None`` if there is none.

    Raises:
        ProblemsFound: what is pinned is not a ruleset; each problem names the field.
    """
    pinned = effective_header(events).pinned
    if pinned is None:
        return None
    from .knobs.pinning import unpin

    return unpin(pinned)
