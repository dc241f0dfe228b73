"""An event at its place in the game."""

from __future__ import annotations

from attrs import frozen

from ..events import Event

__all__ = ["Placed"]


@frozen
class Placed:
    """An event that counts, with the instant at which it counts.

    Attributes:
        event: the event, with amendments applied.
        period: the period it belongs to.
        played: tenths played in that period when it happened, after clock corrections; ``None`` for an event that
            stands where it was written and has no instant of its own (a shot without a reading, a remark).
    """

    event: Event
    period: int
    played: int | None
