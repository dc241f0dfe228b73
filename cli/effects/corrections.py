"""Voids and amendments."""

from __future__ import annotations

from attrs import evolve

from ...timeline.events import Amend, Void
from ...timeline.record import event_to_dict
from ...timeline.script.corrections import effective
from ..names import said
from ..standing import context_of
from .entered import Entered

__all__ = ["as_amended", "first_line", "void"]


def void(entered: Entered, event: Void) -> tuple[str, str]:
    """What no longer counts."""
    target = effective(entered.before.events, event.target)
    if target is None:
        return f"event {event.target} taken back", "it did not count before"
    if isinstance(target, (Void, Amend)):
        return f"event {event.target} taken back", f"event {target.target} counts as it did"
    gone = said(target, context_of(entered.game), names=entered.names)
    return f"event {event.target} taken back", f"gone: {gone}"


def as_amended(entered: Entered, event: Amend) -> Entered | None:
    """The event that was amended, as it counts now; None where it does not count, or opened the game."""
    target = effective(entered.game.events, event.target)
    return None if target is None or target.seq == 1 else evolve(entered, event=target)


def first_line(entered: Entered, event: Amend) -> str | None:
    """What counts of the game's first line since it was amended; None where something else was amended."""
    if event.target != 1:
        return None
    if entered.game.rules == entered.before.rules:
        fields = event_to_dict(entered.game.header)
        each = (f"{name} {_shown(fields.get(name))}" for name in event.changes if name != "pinned")
        return f"event 1 changed: {', '.join(each)}"
    from ... import rulesets

    what = ", ".join(name for name in event.changes if name != "pinned")
    return f"event 1 changed: {what} → {rulesets.applied_line(entered.game.rules)}"


def _shown(value: object) -> str:
    """A value of the first line, where it can be said in a word."""
    if isinstance(value, dict):
        return str(value.get("name", "changed"))
    return str(value) if isinstance(value, str) else "none" if value is None else "changed"
