"""The example game entered through the page: the log that comes of it has the example's events."""

from __future__ import annotations

import pytest
from live_browser import by_keyboard
from live_browser.conftest import Serve, Show
from live_browser.game_events import compared, example, example_lines
from live_browser.opening import fill_in

pytestmark = pytest.mark.browser
STARTERS = {"home": "31", "away": "30"}


def test_with_the_keyboard_alone(serve: Serve, show: Show) -> None:
    """Opened on the page and entered key by key, the game is the example's, event by event."""
    program = serve()
    screen = show(program, path="opening")
    events = example_lines()
    fill_in(screen, events[0], STARTERS)
    screen.page.locator("#open").press("Enter")
    screen.wait_for_entry(3)
    for event in events[3:]:
        by_keyboard.enter(screen, event)
    assert compared(program.path) == example()
