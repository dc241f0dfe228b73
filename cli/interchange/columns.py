"""The columns of the table of events: every field of every kind, each once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import attrs

from ...timeline.events import EVENT_CLASSES, Event, GameOpened
from ...timeline.record import event_to_dict
from .cells import write_cell

__all__ = ["COLUMNS", "ENTRY", "WITH_AN_ENTRY", "event_rows"]

ENTRY = "entry"
"""A short entry that says the whole event."""
FIRST = ("seq", "kind", "period", "clock", "team", "player")
LAST = ("after", "recorded_at", "by", "note")
WITH_AN_ENTRY = frozenset({"seq", "recorded_at", "by", "note"})
"""What may stand beside a short entry."""
NOT_IN_IT = frozenset({"prev"})
"""The chain is made anew when a log is written."""


def _columns() -> tuple[str, ...]:
    in_a_game = [cls for cls in EVENT_CLASSES if cls is not GameOpened]
    names = [attribute.name for cls in (*in_a_game, GameOpened) for attribute in attrs.fields(cls)]
    own = [name for name in dict.fromkeys(names) if name not in (*FIRST, *LAST, *NOT_IN_IT)]
    return (*FIRST, *own, *LAST)


COLUMNS = _columns()


def event_rows(events: Iterable[Event]) -> tuple[list[str], list[list[str]]]:
    """The heads that these events need, and a row for each of them."""
    written = [_cells(event) for event in events]
    used = {name for cells in written for name, cell in cells.items() if cell}
    heads = [name for name in COLUMNS if name in used or name in FIRST]
    return heads, [[cells.get(head, "") for head in heads] for cells in written]


def _cells(event: Event) -> Mapping[str, str]:
    fields: dict[str, Any] = event_to_dict(event)
    kind = fields.pop("kind")
    cells = {name: write_cell(kind, name, value) for name, value in fields.items() if name not in NOT_IN_IT}
    return {**cells, "kind": kind}
