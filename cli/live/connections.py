"""How many connections others may hold open: never so many that this computer finds none."""

from __future__ import annotations

import asyncio
from collections import Counter

from uvicorn.protocols.http.h11_impl import H11Protocol

__all__ = ["Counted", "bounded"]

FROM_OTHERS = 150
FROM_ONE = 30
"""Open connections of all other devices, and of one of them; a page needs two or three."""


class Counted:
    """The open connections of other devices, by their number in the network."""

    def __init__(self) -> None:
        """None yet."""
        self.open: Counter[str] = Counter()

    def admit(self, host: str) -> bool:
        """Count one more of `host`; whether there is room for it."""
        if self.open.total() >= FROM_OTHERS or self.open[host] >= FROM_ONE:
            return False
        self.open[host] += 1
        return True

    def leave(self, host: str) -> None:
        """Count one less."""
        self.open[host] -= 1
        if self.open[host] <= 0:
            del self.open[host]


def _host(transport: asyncio.Transport, end: str) -> str:
    """The number of one end; with the network's address of this computer in its browser both are the same."""
    return str((transport.get_extra_info(end) or ("",))[0])


def bounded(counted: Counted) -> type[asyncio.Protocol]:
    """Uvicorn's protocol, which hangs up where `counted` has no room. This computer itself is not counted."""

    class Bounded(H11Protocol):
        """One connection."""

        counted_as: str | None = None

        def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
            super().connection_made(transport)
            host = _host(transport, "peername")
            if host.startswith("127.") or host == _host(transport, "sockname"):
                return
            if counted.admit(host):
                self.counted_as = host
            else:
                transport.close()

        def connection_lost(self, exc: Exception | None) -> None:
            if self.counted_as is not None:
                counted.leave(self.counted_as)
            super().connection_lost(exc)

    return Bounded
