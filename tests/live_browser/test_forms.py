"""The small forms: what of them is in reach on small screens, and what a correction shows before it is written."""

from __future__ import annotations

from typing import Any

import pytest
from live_browser.conftest import Serve, Show
from live_browser.screen import Screen

pytestmark = pytest.mark.browser
TWO_SHORT, STOPPED = 153, 61
PHONE = {"width": 390, "height": 844, "touch": True}
PHONE_ON_ITS_SIDE = {"width": 844, "height": 390, "touch": True}
SMALL = {"width": 1024, "height": 768}


def in_reach(screen: Screen, selector: str) -> bool:
    """Whether everything that matches is in the window, and nothing lies over it."""
    script = """selector => [...document.querySelectorAll(selector)].every(one => {
        const {left, top, right, bottom, width, height} = one.getBoundingClientRect();
        const points = [[left + 2, top + 2], [right - 2, bottom - 2], [left + width / 2, top + height / 2]];
        return width && top >= 0 && left >= 0 && bottom <= innerHeight + 1 && right <= innerWidth + 1 &&
            points.every(([x, y]) => one.contains(document.elementFromPoint(x, y)) ||
                document.elementFromPoint(x, y)?.contains(one));
    })"""
    assert screen.page.locator(selector).count()
    return bool(screen.page.evaluate(script, selector))


def begun(screen: Screen, key: str) -> None:
    """The form of `key` with its side and its reading, and what it would do."""
    screen.page.tap(f"[data-key={key}]")
    screen.page.tap("#form .chip:has(input[value=home])")
    screen.page.fill("#form input.reading", "6:00")
    screen.wait_for("#form .effect", "2nd 6:00")


def test_the_penalty_form_on_a_phone(serve: Serve, show: Show) -> None:
    """Everybody's number, every length and the commonest infractions are touched without scrolling."""
    screen = show(serve(TWO_SHORT), **PHONE)
    begun(screen, "p")
    for fields in ("player", "infraction"):
        assert in_reach(screen, f"#form .field:has(input[id^={fields}-]) .head input")
    assert in_reach(screen, "#form .field:has(input[id^=player-]) .chips button")
    assert in_reach(screen, "#form .chip")
    assert in_reach(screen, "#form .field:has(input[id^=infraction-]) .chips button:nth-child(-n+5)")
    assert in_reach(screen, "#form button[type=submit]")


def test_the_goal_form_on_a_phone(serve: Serve, show: Show) -> None:
    """The scorer and the assists are in reach together."""
    screen = show(serve(TWO_SHORT), **PHONE)
    begun(screen, "g")
    for field in ("scorer", "assists"):
        assert in_reach(screen, f"#form .field:has(input[id^={field}-]) .chips button")


@pytest.mark.parametrize("size", [PHONE, PHONE_ON_ITS_SIDE], ids=["phone", "on its side"])
def test_a_form_has_the_small_screen_for_itself(size: dict[str, Any], serve: Serve, show: Show) -> None:
    """Its preview is one line until all of it is asked for; boxes and links come back when it is closed."""
    screen = show(serve(TWO_SHORT), **size)
    begun(screen, "p")
    for place in (".strip", "#away-box", "#entries", "#last"):
        assert not screen.page.locator(place).is_visible()
    assert screen.page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    assert screen.page.locator("#form .draft").bounding_box()["height"] < 30
    screen.page.tap("#form .unfold")
    assert in_reach(screen, "#form .draft, #form button[type=submit]")
    assert screen.page.locator("#form .draft").bounding_box()["height"] > 60
    assert "Will be written" in screen.text("#form .draft")
    screen.page.tap("#form header button")
    for place in (".strip", "#away-box", "#entries"):
        assert screen.page.locator(place).is_visible()


@pytest.mark.parametrize("size", [SMALL, PHONE, PHONE_ON_ITS_SIDE], ids=["small", "phone", "on its side"])
def test_before_and_now_stand_side_by_side(size: dict[str, Any], serve: Serve, show: Show) -> None:
    """Who sits is unfolded, the rest folded; the title, the reason and both buttons stay in reach."""
    program = serve(STOPPED)
    entry = program.form("5:00 home penalty 12 2 tripping", STOPPED)
    assert program.client.post("api/enter", json=entry).json()["ok"]
    screen = show(program, **size)
    screen.page.keyboard.press("u")
    screen.wait_for("#form .two-games")
    heads = screen.page.locator("#form .two-games").first.locator("thead th").all_inner_texts()
    assert heads == ["Who sits", "before", "now"]
    cells = screen.page.locator("#form .two-games").first.locator("tbody tr").all_inner_texts()
    assert [cell.split("\t") for cell in cells] == [["home 12 #62", "12 at 1 3:00", "nobody sits for it"]]
    assert not screen.page.locator("#form .others table").first.is_visible()
    assert "in net" not in screen.page.locator("#form .draft").text_content()
    for unfolded in (False, True):
        assert in_reach(screen, "#form h2, #form header button, #form input, #form button[type=submit]"), unfolded
        screen.page.locator("#form .others summary").evaluate("one => one.click()")
        screen.page.locator("#form .others table").first.wait_for(state="attached")


@pytest.mark.parametrize("leave", ["Escape", "Enter"])
def test_after_a_form_the_shots_are_in_view(leave: str, serve: Serve, show: Show) -> None:
    """However far it was scrolled: written or closed, the column begins at its top again."""
    screen = show(serve(TWO_SHORT), **SMALL)
    screen.page.keyboard.press("p")
    screen.page.keyboard.press("h")
    screen.page.keyboard.type("600")
    screen.wait_for("#form .effect", "2nd 6:00")
    screen.page.evaluate("document.querySelector('.middle').scrollTo(0, 10000)")
    screen.page.keyboard.press(leave)
    screen.page.wait_for_selector("#form form", state="detached")
    if leave == "Enter":
        screen.wait_until_written(TWO_SHORT + 1)
    assert in_reach(screen, "#entry, [data-key=h], [data-key=a]")
