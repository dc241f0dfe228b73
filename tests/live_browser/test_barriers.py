"""No state of the page has a barrier that axe-core finds, and nothing is wider than the screen."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.screen import Screen
from live_server.program import Program

pytestmark = pytest.mark.browser
WIDTHS = (360, 390, 640, 641, 760, 761, 899, 900, 1024, 1199, 1200, 1440, 1600)
QUIET, TWO_SHORT, PERIOD_OVER, GAME_OVER, CLOSED = 60, 153, 95, 319, 320
Act = Callable[[Screen], None]
Running = Callable[[int], Program]


def nothing(screen: Screen) -> None:
    """The page as it comes."""


def form(key: str) -> Act:
    def act(screen: Screen) -> None:
        screen.page.click(f"[data-key={key}]")
        screen.page.wait_for_selector("#form form")
        if screen.page.locator("#form .chip input[value=home]").count():
            screen.page.locator("#form .chip").first.click()

    return act


def line(text: str, shows: str) -> Act:
    def act(screen: Screen) -> None:
        screen.page.fill("#entry", text)
        screen.wait_for("#line-draft", shows)

    return act


def due(screen: Screen) -> None:
    """The page's clock stands five seconds before the reading of number 5."""
    screen.page.click("#clock-set")
    screen.page.fill("#board-reading", "5:40")
    screen.page.press("#board-reading", "Enter")
    screen.wait_for("#away-box .due", "watch for")


def warned(screen: Screen) -> None:
    screen.page.fill("#entry", "6:20 away goal 5")
    screen.page.press("#entry", "Enter")
    screen.wait_for("#line-draft button", "Write it anyway")


def dialog(opener: str) -> Act:
    def act(screen: Screen) -> None:
        screen.page.click(opener)
        screen.page.wait_for_selector("dialog[open]")

    return act


def change(seq: int) -> Act:
    def act(screen: Screen) -> None:
        screen.page.click(f"[aria-label='change entry {seq}']")
        screen.page.wait_for_selector("#form form")

    return act


def disclosed(screen: Screen) -> None:
    for summary in screen.page.locator("summary").all():
        summary.click()


WRITER: dict[str, tuple[int, str, Act]] = {
    "quiet": (QUIET, "", nothing),
    "two short and one waiting": (TWO_SHORT, "", nothing),
    "why": (TWO_SHORT, "", disclosed),
    **{f"form {key}": (TWO_SHORT, "", form(key)) for key in "gpsfktdlneu"},
    **{f"change #{seq}": (TWO_SHORT, "", change(seq)) for seq in (150, 153)},
    "line": (TWO_SHORT, "", line("615 home pen 12 2 trip", "out at")),
    "line not understood": (TWO_SHORT, "", line("615 home elephant", "Not understood")),
    "line past": (TWO_SHORT, "", line("14:40 home goal 10", "late 14:40 home goal 10")),
    "warned": (TWO_SHORT, "", warned),
    "more": (TWO_SHORT, "", dialog("[data-key=m]")),
    "help": (TWO_SHORT, "", dialog("#ask")),
    "board": (TWO_SHORT, "", dialog("#clock-set")),
    "end of period": (PERIOD_OVER, "", nothing),
    "game over": (GAME_OVER, "", nothing),
    "sign-off": (GAME_OVER, "signoff", nothing),
    "closed": (CLOSED, "signoff", nothing),
    "closed console": (CLOSED, "", nothing),
    "addresses": (QUIET, "addresses", nothing),
    "opening again": (QUIET, "opening", disclosed),
}


def check(screen: Screen, axe: str) -> None:
    assert screen.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert screen.barriers(axe) == []


@pytest.fixture(params=[(1280, 900, "light", False), (390, 844, "dark", True)], ids=["wide", "narrow"])
def look(request: pytest.FixtureRequest) -> dict[str, Any]:
    width, height, scheme, touch = request.param
    return {"width": width, "height": height, "scheme": scheme, "touch": touch, "bypass_csp": True}


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[int], Program]]:
    """One program for each point of the game, for states that change nothing of it."""
    programs: dict[int, Program] = {}

    def at(count: int) -> Program:
        if count not in programs:
            log = tmp_path_factory.mktemp("game") / "game.jsonl"
            log.write_text(lines_of_example(count), encoding="utf-8")
            programs[count] = Program(log)
        return programs[count]

    yield at
    for program in programs.values():
        program.__exit__(None, None, None)


@pytest.mark.parametrize("state", WRITER)
def test_the_writers_pages(state: str, running: Running, show: Show, look: dict[str, Any], axe: str) -> None:
    """Each view, form, dialog and message."""
    count, path, act = WRITER[state]
    screen = show(running(count), path=path, **look)
    act(screen)
    check(screen, axe)


def test_a_release_that_is_due(serve: Serve, show: Show, look: dict[str, Any], axe: str) -> None:
    """The page's clock stands just before a reading to watch for."""
    screen = show(serve(TWO_SHORT), **look)
    due(screen)
    check(screen, axe)


@pytest.mark.parametrize(
    ("which", "count"),
    [("away box", TWO_SHORT), ("home box", TWO_SHORT), ("reading only", TWO_SHORT), ("reading only", PERIOD_OVER)],
)
def test_pages_for_others(which: str, count: int, running: Running, show: Show, look: dict[str, Any], axe: str) -> None:
    """The doors' pages and the one to read."""
    screen = show(running(count), which, **look)
    check(screen, axe)


def test_the_door_form(running: Running, show: Show, look: dict[str, Any], axe: str) -> None:
    """The one form that a door has."""
    screen = show(running(TWO_SHORT), "away box", **look)
    screen.page.locator("button.door").first.click()
    screen.page.wait_for_selector("#form form")
    check(screen, axe)


def test_an_empty_opening(serve: Serve, show: Show, look: dict[str, Any], axe: str) -> None:
    """Before anything is filled in."""
    screen = show(serve(), path="opening", **look)
    screen.wait_for("#checklist", "None of this stops the game")
    check(screen, axe)


def test_refused(running: Running, show: Show, look: dict[str, Any], axe: str) -> None:
    """A wrong address says what to do."""
    screen = show(running(QUIET), **look)
    screen.page.goto(f"http://{screen.host}/no-such-secret/")
    screen.wait_for("main", "Ask the person at the clock")
    check(screen, axe)


def test_not_connected(serve: Serve, show: Show, look: dict[str, Any], axe: str) -> None:
    """While the server is away."""
    program = serve(TWO_SHORT)
    screen = show(program, **look)
    program.kill()
    screen.wait_for("#lost", "Not connected")
    check(screen, axe)


@pytest.mark.parametrize(
    ("path", "count"), [("", TWO_SHORT), ("", PERIOD_OVER), ("signoff", GAME_OVER), ("opening", QUIET)]
)
def test_it_fits(path: str, count: int, running: Running, show: Show) -> None:
    """Nothing is wider than the screen, from 360 to 1,600 pixels and on both sides of each edge of the layout."""
    screen = show(running(count), path=path)
    for width in WIDTHS:
        screen.page.set_viewport_size({"width": width, "height": 760})
        assert screen.page.evaluate("[innerWidth, document.documentElement.scrollWidth <= innerWidth]") == [width, True]
