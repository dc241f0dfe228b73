"""Open connections: other devices have their share, and this computer always finds one."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from typing import Any

import pytest
import uvicorn
from attrs import define
from uvicorn.server import ServerState

from rinkfold.cli.live.connections import FROM_ONE, FROM_OTHERS, Counted, bounded

OWN = "192.168.7.254"
"""This computer's number in the network, at which others reach it."""


@define(eq=False)
class Line:
    """The other end of a connection from `host`."""

    host: str
    closed: bool = False

    def get_extra_info(self, name: str, default: Any = None) -> Any:
        """Its address."""
        return {"peername": (self.host, 50_000), "sockname": (OWN, 8723)}.get(name, default)

    def close(self) -> None:
        """Hang up."""
        self.closed = True

    def resume_reading(self) -> None:
        """Nothing is read here."""


@pytest.fixture
def connect() -> Iterator[Any]:
    """Connect from a host; the protocol and the line."""
    loop = asyncio.new_event_loop()
    made = bounded(Counted())
    config = uvicorn.Config(lambda: None, log_config=None)

    def connected(host: str) -> tuple[Any, Line]:
        protocol: Any = made(config=config, server_state=ServerState(), app_state={}, _loop=loop)  # type: ignore[call-arg]
        line = Line(host)
        protocol.connection_made(line)
        return protocol, line

    yield connected
    loop.close()


def test_one_device_holds_no_more_than_its_share(connect: Any) -> None:
    """Beyond it is hung up; another device, and this computer, are not."""
    lines = [connect("192.168.7.20")[1] for _ in range(FROM_ONE + 3)]
    assert [line.closed for line in lines] == [False] * FROM_ONE + [True] * 3
    assert not connect("192.168.7.21")[1].closed
    assert not connect("127.0.0.1")[1].closed


def test_all_others_together_leave_room_for_this_computer(connect: Any) -> None:
    """However many devices they are; its own browser has the network's address of it, which is printed and opened."""
    lines = [connect(f"192.168.7.{number % 200}")[1] for number in range(FROM_OTHERS + 10)]
    assert sum(not line.closed for line in lines) == FROM_OTHERS
    for own in ("127.0.0.1", OWN):
        assert not any(connect(own)[1].closed for _ in range(50)), own


def test_a_connection_that_ends_makes_room(connect: Any) -> None:
    """Once, however it ends; one that was refused makes none."""
    held = [connect("192.168.7.20") for _ in range(FROM_ONE)]
    refused, line = connect("192.168.7.20")
    assert line.closed
    refused.connection_lost(None)
    assert connect("192.168.7.20")[1].closed
    held[0][0].connection_lost(None)
    assert not connect("192.168.7.20")[1].closed
    assert connect("192.168.7.20")[1].closed
