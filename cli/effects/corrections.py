"""Voids and amendments."""

from __future__ import annotations

from attrs import evolve

from ...timeline.events import Amend, Void
from ...timeline.script.corrections import effective
from ..entries import print_entry
from ..standing import context_of
from .entered import Entered

__all__ = ["as_amended", "void"]


def void(entered: Entered, event: Void) -> tuple[str, str]:
    """What no longer counts."""
    target = effective(entered.before.events, event.target)
    if target is None:
        return f"event {event.target} taken back", "it did not count before"
    if isinstance(target, (Void, Amend)):
        return f"event {event.target} taken back", f"event {target.target} counts as it did"
    plain = evolve(target, recorded_at=None, by=None, prev=None)
    return (
        f"event {event.target} taken back",
        f"gone: {print_entry(plain, context_of(entered.game)).removeprefix('late ')}",
    )


def as_amended(entered: Entered, event: Amend) -> Entered | None:
    """The event that was amended, as it counts now; None where it does not count, or opened the game."""
    target = effective(entered.game.events, event.target)
    return None if target is None or target.seq == 1 else evolve(entered, event=target)
