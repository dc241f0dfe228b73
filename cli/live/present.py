"""An entry as it counts now, for the form that puts it right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from ...timeline.events import Event, names_of
from ...timeline.record import event_to_dict
from ...timeline.script.corrections import effective
from ..standing import context_of
from .answers import Refusal
from .horn import open_game_of
from .keys import Role
from .lines import line_text

if TYPE_CHECKING:
    from .room import Room

__all__ = ["present_entry"]

_BOOKKEEPING = frozenset({"seq", "after", "recorded_at", "by", "prev", "pinned"})
"""What is no part of what happened."""


def present_entry(room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """``{"seq", "kind", "text", "fields"}`` of the entry `seq`, amendments applied; a field not known is null.

    Raises:
        Refusal: there is no such entry, or it was taken back.
    """
    game = open_game_of(room)
    seq = str(body.get("seq"))
    known = seq.isascii() and seq.isdecimal() and len(seq) < 8 and 1 <= int(seq) <= len(game.events)
    event = effective(game.events, int(seq)) if known else None
    if event is None:
        message = f"There is no entry #{seq[:8]} that counts."
        raise Refusal(404, "not_found", message, "Look whether it was taken back.")
    text = line_text(event, context_of(game), free=True)
    return {"seq": event.seq, "kind": event.kind, "text": text, "fields": _fields(event)}


def _fields(event: Event) -> dict[str, Any]:
    """Every field of what happened, by its name."""
    known = event_to_dict(event)
    return {name: known.get(name) for name in names_of(type(event)) if name not in _BOOKKEEPING}
