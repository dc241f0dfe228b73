"""The reading that a form begins with: one that somebody typed or a clock gives, else none."""

from __future__ import annotations

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.screen import Screen
from live_server.program import Program

pytestmark = pytest.mark.browser
FORMS = "gpsfdkt"
CALL = ("1 15:00 go", "13:30 home penalty 12 2 tripping")


def begun(serve: Serve, *entries: str) -> Program:
    """A game in which `entries` were written a while ago."""
    program = serve(text=lines_of_example(1))
    for text in entries:
        assert program.client.post("api/enter", json=program.form(text, program.version)).json()["ok"], text
    return program


def board(screen: Screen, reading: str) -> None:
    """Set the page's clock with B."""
    screen.page.keyboard.press("b")
    screen.page.keyboard.type(reading)
    screen.page.keyboard.press("Enter")
    screen.page.wait_for_selector("#board", state="hidden")
    screen.wait_for("#about", f"about {reading[:2]}:{reading[2:]}")


def offered(screen: Screen, key: str) -> str:
    """The reading with which the form of `key` begins."""
    screen.page.keyboard.press(key)
    screen.page.wait_for_selector("#form form")
    value = str(screen.page.input_value("#form input.reading"))
    screen.page.keyboard.press("Escape")
    return value


def test_a_clock_that_runs_is_followed(serve: Serve, show: Show) -> None:
    """Set and started after the last entry it is the better witness, though no faceoff is written."""
    screen = show(begun(serve, *CALL))
    board(screen, "1202")
    screen.page.keyboard.press("Space")
    screen.wait_for("#clock-toggle", "Stop")
    assert {offered(screen, key) for key in FORMS} <= {"12:02", "12:01", "12:00", "11:59", "11:58", "11:57"}


@pytest.mark.parametrize("entries", [CALL, CALL[:1]], ids=["stopped long ago", "in play"])
@pytest.mark.parametrize("key", "gp")
def test_what_nobody_knows_is_not_offered(key: str, entries: tuple[str, ...], serve: Serve, show: Show) -> None:
    """Enter writes no goal and no penalty at an old reading: it asks for the reading."""
    program = begun(serve, *entries)
    screen = show(program)
    before = program.version
    screen.page.keyboard.press(key)
    screen.page.keyboard.press("a")
    screen.page.keyboard.press("Enter")
    screen.wait_for("#form .says", "Type what the board shows.")
    assert screen.focused == "reading"
    assert program.version == before
    screen.page.keyboard.type("1130")
    screen.wait_for("#form .effect", "1st 11:30")
    assert not screen.page.locator("#form .says").is_visible()
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(before + 1)


def test_two_penalties_at_one_whistle(serve: Serve, show: Show) -> None:
    """The second begins with the reading of the first; a goal does not, since none is scored at a whistle."""
    screen = show(begun(serve, CALL[0]))
    screen.page.keyboard.type("1330 home penalty 12 2 tripping")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(3)
    assert offered(screen, "p") == "13:30"
    assert offered(screen, "g") == ""


def test_at_a_whistle_that_was_just_written(serve: Serve, show: Show) -> None:
    """Everything has its reading, though the page's clock was forgotten and runs on."""
    screen = show(begun(serve, CALL[0]))
    board(screen, "1332")
    screen.page.keyboard.press("Space")
    screen.wait_for("#clock-toggle", "Stop")
    screen.page.keyboard.type("1330 stop offside")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(3)
    screen.page.wait_for_timeout(2500)
    assert {offered(screen, key) for key in "gpdkft"} == {"13:30"}


def test_a_whistle_is_not_for_ever(serve: Serve, show: Show) -> None:
    """After some minutes only the faceoff still has its reading; in play again nothing has."""
    screen = show(begun(serve, CALL[0]))
    screen.page.clock.install()
    screen.page.keyboard.type("1330 stop offside")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(3)
    screen.page.clock.fast_forward(200_000)
    assert [offered(screen, key) for key in "gpf"] == ["", "", "13:30"]
    screen.page.keyboard.type("1330 go")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(4)
    assert [offered(screen, key) for key in FORMS] == [""] * 7
