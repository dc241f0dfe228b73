"""A log as it was read: everything that stands in the file, in the order written."""

from __future__ import annotations

from attrs import frozen

from ..events import Event, GameOpened
from ..problems import Problem
from .chain import head_code

__all__ = ["Log"]


@frozen(kw_only=True)
class Log:
    """All events of one game, as written: nothing voided, amended or moved yet.

    Attributes:
        name: where it came from, for messages.
        header: line 1.
        events: every event, the header among them; ``events[n]`` has the seq ``n + 1``.
        notes: what is worth saying and no error: a torn tail, no chain.
        chained: whether the lines carry the chain.
        head: SHA-256 (hex) of the last whole line, which the next line's `prev` will be.
    """

    name: str
    header: GameOpened
    events: tuple[Event, ...]
    notes: tuple[Problem, ...] = ()
    chained: bool
    head: str

    @property
    def head_code(self) -> str:
        """The first 16 digits of `head` in groups of four, to be written down when the record is signed."""
        return head_code(self.head)
