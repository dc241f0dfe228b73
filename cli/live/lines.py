"""The entries written last, as text."""

from __future__ import annotations

from typing import Any

from attrs import evolve

from ...timeline.events import Amend, Event, Figures, PenaltyAssessed
from ...timeline.game import Game
from ...timeline.record.amendments import voided_by
from ..entries import EntryContext
from ..names import said
from ..standing import context_of
from .keys import Role

__all__ = ["last_lines", "line_text"]

FOR_WRITER = 30
FOR_OTHERS = 8


def last_lines(game: Game, role: Role, *, names: bool) -> list[dict[str, Any]]:
    """The last entries, the newest first. Free text, which may hold names, is shown to the writer, or with `names`."""
    free = names or role.name == "write"
    gone = voided_by(game.events)
    changed = {one.target for one in game.events if isinstance(one, Amend) and one.seq not in gone}
    context = context_of(game)
    last = game.events[1:][-(FOR_WRITER if role.name == "write" else FOR_OTHERS) :]
    return [
        {
            "seq": one.seq,
            "kind": one.kind,
            "text": line_text(one, context, free=free),
            "at": None if one.clock is None else {"period": one.period, "clock": one.clock},
            "voided": one.seq in gone,
            "amended": one.seq in changed,
            "by": one.by if free else None,
            "note": one.note if free else None,
        }
        for one in reversed(last)
    ]


def line_text(event: Event, context: EntryContext, *, free: bool) -> str:
    """`event` as a short entry; without `free` text only that there was a remark, figures or a correction."""
    if not free and isinstance(event, Figures):  # figures say whose they are
        return event.kind
    if not free and isinstance(event, PenaltyAssessed):
        event = evolve(event, rule=None)
    return said(event, context, names=free)
