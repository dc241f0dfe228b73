"""A server over a log in a folder of its own: in this process, or as a program of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from live_server.desk import LOGS, At, in_process
from live_server.program import Program

from rinkfold.cli.live.keys import Role
from rinkfold.cli.live.room import Room


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A game with one entry: home 12 sits from 9:15 of the second period."""
    made = tmp_path / "game.jsonl"
    made.write_bytes(LOGS["short"]())
    return made


@pytest.fixture
def room(path: Path) -> Room:
    """What the server has in hand."""
    return in_process(path)


@pytest.fixture
def at(room: Room) -> Callable[..., At]:
    """The page of a role: ``at("write")``, ``at("door", "home")``."""

    def page(name: str = "write", side: str | None = None) -> At:
        return At(room, Role(name, side))  # type: ignore[arg-type]

    return page


@pytest.fixture
def write(at: Callable[..., At]) -> At:
    """The page of the person at the clock."""
    return at("write")


@pytest.fixture
def program(path: Path) -> Iterator[Program]:
    """The server as a program of its own, ended with the test."""
    with Program(path) as running:
        yield running
