"""The example game entered through the page: the log that comes of it has the example's events.

What is compared and what is not is said in game_events.compared. No entry of it needs a warning overridden.
"""

from __future__ import annotations

import pytest
from live_browser import by_keyboard, by_touch
from live_browser.conftest import Serve, Show
from live_browser.game_events import EXAMPLE, compared, example, example_lines
from live_browser.opening import fill_in

from rinkfold import rulesets
from rinkfold.timeline import read_log

pytestmark = pytest.mark.browser
STARTERS = {"home": "31", "away": "30"}


def test_with_the_keyboard_alone(serve: Serve, show: Show) -> None:
    """Opened on the page and entered key by key, the game is the example's, event by event, under the same rules."""
    program = serve()
    screen = show(program, path="opening")
    events = example_lines()
    fill_in(screen, events[0], STARTERS)
    screen.page.locator("#open").press("Enter")
    screen.wait_for_entry(3)
    for event in events[3:]:
        by_keyboard.enter(screen, event)
    assert compared(program.path) == example()
    assert rulesets.of(read_log(program.path)) == rulesets.of(read_log(EXAMPLE))


def test_by_touch_on_a_narrow_screen(serve: Serve, show: Show) -> None:
    """From the opening faceoff to the closing, entered by thumb at 390 pixels, the game is the example's."""
    program = serve(3)
    screen = show(program, width=390, height=844, touch=True)
    for event in example_lines()[3:]:
        by_touch.enter(screen, event)
    assert compared(program.path) == example()
