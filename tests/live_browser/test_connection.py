"""The server goes away and comes back: the page says so, keeps what was typed, and takes no key meanwhile."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlsplit

import pytest
from live_browser.conftest import Serve, Show
from live_browser.game_events import as_lines
from live_server.program import Program

pytestmark = pytest.mark.browser
TWO_SHORT = 153


def test_cut_and_restored(serve: Serve, show: Show) -> None:
    """Killed in the middle of an entry and started again: the entry is still there and can be written."""
    program = serve(TWO_SHORT)
    screen = show(program)
    screen.page.keyboard.type("600 home goal 10")
    screen.wait_for("#line-draft .effect", "goal, home 10")
    program.kill()
    screen.wait_for("#lost", "Not connected")
    assert screen.text("#link") == "not connected"
    screen.page.keyboard.press("Enter")
    assert screen.page.input_value("#entry") == "600 home goal 10"
    with Program(program.path, "--port", str(urlsplit(screen.page.url).port)):
        screen.wait_for("#link:not(.lost)", "connected")
        assert len(as_lines(program.path)) == TWO_SHORT
        assert not screen.page.locator("#lost").is_visible()
        assert screen.page.input_value("#entry") == "600 home goal 10"
        screen.page.press("#entry", "Enter")
        screen.wait_until_written(154)
        assert as_lines(program.path)[-1]["scorer"] == "10"


def test_no_key_counts_while_it_is_away(serve: Serve, show: Show) -> None:
    """Shots pressed while the server is away are not stored up and written later."""
    program = serve(TWO_SHORT)
    screen = show(program)
    program.kill()
    screen.wait_for("#lost", "Not connected")
    for key in "hag":
        screen.page.keyboard.press(key)
    assert screen.page.locator("#form form").count() == 0
    with Program(program.path, "--port", str(urlsplit(screen.page.url).port)):
        screen.wait_for("#link:not(.lost)", "connected")
        screen.page.keyboard.press("a")
        screen.wait_until_written(154)
        assert [line["kind"] for line in as_lines(program.path)[TWO_SHORT:]] == ["shot"]


def test_sent_while_it_went_away(serve: Serve, show: Show) -> None:
    """An entry that was sent and not acknowledged is sent again when the server is back, and written once."""
    program = serve(TWO_SHORT)
    screen = show(program)

    def go_away(route: Any) -> None:
        program.kill()
        route.abort()

    screen.page.route("**/api/enter", go_away)
    screen.page.keyboard.press("h")
    screen.wait_for("#lost", "not acknowledged")
    screen.page.unroute("**/api/enter")
    with Program(program.path, "--port", str(urlsplit(screen.page.url).port)):
        screen.wait_until_written(154)
        assert [line["kind"] for line in as_lines(program.path)[TWO_SHORT:]] == ["shot"]
