"""An event as an entry, in whole words; reading the entry gives the event."""

from __future__ import annotations

from ...timeline.clock import parse_reading
from ...timeline.events import WHEN, Event
from .context import EntryContext
from .grammar import print_fields
from .kinds import GRAMMARS
from .words import WHEN_WORDS

__all__ = ["is_late", "print_entry"]

_WRITTEN_ALONE = 100  # a period below this is a number before the reading


def print_entry(event: Event, context: EntryContext) -> str:
    """`event` as an entry that is read as `event` again in `context`, but for its `seq`.

    >>> from ...timeline.events import Goal
    >>> print_entry(Goal(seq=7, period=2, clock="8:50", team="away", scorer="17", assists=("16", "18")), EntryContext())
    '2 8:50 away goal 17 from 16 18'
    """
    grammar = next(each for each in GRAMMARS if each.kind == event.kind and each.prints(event))
    late = [WHEN_WORDS["late"]] if is_late(event, context) else []
    team = [getattr(event, "team")] if grammar.team else []  # noqa: B009 -- not every event has one
    return " ".join([*late, *_when(event), *team, *print_fields(event, grammar)])


def is_late(event: Event, context: EntryContext) -> bool:
    """Whether `event` must be told as late: it happened in the game before what was written last, with no `after`."""
    if event.period is None or event.after is not None or WHEN[event.kind] == "optional":
        return False
    return context.is_past(event.period, None if event.clock is None else parse_reading(event.clock))


def _when(event: Event) -> list[str]:
    if event.period is None:
        return []
    if event.clock is None or event.period >= _WRITTEN_ALONE:
        return [WHEN_WORDS["period"], str(event.period), *([event.clock] if event.clock else [])]
    return [str(event.period), event.clock]
