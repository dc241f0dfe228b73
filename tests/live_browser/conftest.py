"""The live page in a browser, over a server that runs as a program of its own.

Asked for by the marker `browser`, with the environment that tests/browser/conftest.py describes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from browser.conftest import pytest_collection_modifyitems  # noqa: F401 -- left out unless asked for, as there
from browser.engine import axe_text, running_browser
from live_browser.screen import Screen, opened
from live_server.program import Program

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "game.jsonl"
Serve = Callable[..., Program]
Show = Callable[..., Screen]


def lines_of_example(count: int) -> str:
    """The example game up to the event `count`."""
    lines = EXAMPLE.read_text(encoding="utf-8").splitlines(keepends=True)
    return "".join(lines[:count])


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    with running_browser() as started:
        yield started


@pytest.fixture(scope="session")
def axe() -> str:
    return axe_text()


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Serve]:
    """Starts `rinkfold live` over the example up to an event, over a text, or over a log that is not there yet."""
    running: list[Program] = []

    def start(count: int | None = None, *options: str, text: str | None = None) -> Program:
        log = tmp_path / f"game-{len(running)}.jsonl"
        content = text if text is not None else lines_of_example(count) if count else None
        if content is not None:
            log.write_text(content, encoding="utf-8")
        running.append(Program(log, *options))
        return running[-1]

    yield start
    for program in running:
        program.__exit__(None, None, None)


@pytest.fixture
def show(browser: Any) -> Iterator[Show]:
    """Opens a page of a program; at the end none may have complained or asked another host."""
    screens: list[Screen] = []

    def page(program: Program, which: str = "may write", path: str = "", **options: Any) -> Screen:
        screens.append(opened(browser, program, which, path, **options))
        return screens[-1]

    yield page
    for screen in screens:
        screen.page.context.close()
    for screen in screens:
        assert screen.complaints == []
        assert screen.foreign_requests == []
