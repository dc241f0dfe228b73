"""What changed, sent to every page that listens (server-sent events)."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from typing import Any

from attrs import define, field

from .answers import Refusal, json_bytes
from .keys import RoleName
from .limits import LISTENERS

__all__ = ["Hub", "Listener", "Stamps"]

PING_SECONDS = 5.0
LISTENERS_AT_WORK = 10
"""As `LISTENERS`, of the writer's pages, and of those at the doors."""

Stamps = tuple[int, int]
"""Of the table and of the clock copy."""


@define
class Hub:
    """Those who listen. `ring` may be called from any thread.

    Attributes:
        bells: one for each listener, which is set when there may be something new; with the name of its role.
        closing: the server is being quit.
    """

    bells: dict[asyncio.Event, RoleName] = field(factory=dict)
    closing: bool = False
    _loop: asyncio.AbstractEventLoop | None = None

    def ring(self) -> None:
        """Tell all listeners to look."""
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._ring)

    def _ring(self) -> None:
        for bell in self.bells:
            bell.set()

    def close(self) -> None:
        """Tell all listeners that the server is being quit."""
        self.closing = True
        self.ring()

    def check_room(self, role: RoleName) -> None:
        """Make sure that one more of `role` may listen: readers, however many, keep out neither writer nor doors.

        Raises:
            Refusal: there are as many as there may be.
        """
        if sum(one == role for one in self.bells.values()) >= (LISTENERS if role == "read" else LISTENERS_AT_WORK):
            raise Refusal(503, "too_many", "Too many pages are open.", "Close some of them.")

    def join(self, role: RoleName) -> asyncio.Event:
        """A bell for one more listener, which rings at once."""
        self._loop = asyncio.get_running_loop()
        bell = asyncio.Event()
        bell.set()
        self.bells[bell] = role
        return bell


@define
class Listener:
    """One page that listens.

    Attributes:
        stamps: what it was sent last.
    """

    hub: Hub
    role: RoleName
    look: Callable[[], Stamps]
    state: Callable[[], Any]
    clock: Callable[[], Any]
    stamps: Stamps = (-1, -1)

    async def events(self) -> AsyncIterator[bytes]:
        """The events for it, for as long as it listens."""
        bell = self.hub.join(self.role)
        try:
            while not self.hub.closing:
                try:
                    await asyncio.wait_for(bell.wait(), PING_SECONDS)
                except TimeoutError:
                    yield _event("ping", {})
                    continue
                bell.clear()
                async for event in self._news():
                    yield event
            yield _event("bye", {})
        finally:
            self.hub.bells.pop(bell, None)

    async def _news(self) -> AsyncIterator[bytes]:
        before, self.stamps = self.stamps, self.look()
        if self.stamps[0] != before[0]:
            yield _event("state", await asyncio.to_thread(self.state))
        elif self.stamps != before:
            yield _event("clock", await asyncio.to_thread(self.clock))


def _event(name: str, data: Any) -> bytes:
    return b"event: %s\ndata: %s\n\n" % (name.encode(), json_bytes(data))
