"""Opening a game on the page: what is understood of a roster, what one touch does, and what is put right later."""

from __future__ import annotations

from pathlib import Path

import pytest
from live_browser.conftest import EXAMPLE, Serve, Show
from live_browser.game_events import as_lines

pytestmark = pytest.mark.browser
ROSTER = "9 Ida Fern\n12, Per Millbrook, C\nthe goalie is new\n#31 goalie"


def test_a_game_with_the_least(serve: Serve, show: Show) -> None:
    """Two names are enough; what is missing is listed and stops nothing."""
    program = serve()
    screen = show(program)
    assert screen.page.url.endswith("/opening")
    screen.page.select_option("#ruleset", "youth-12u")
    screen.wait_for("#applied", "minor 2:00 · period 15:00 · board counts down")
    screen.page.fill("#home-name", "Elm Otters")
    screen.page.fill("#away-name", "Oak Badgers")
    screen.wait_for("#checklist", "a look at the line of rules")
    screen.wait_for("#checklist", "goalkeeper")
    screen.page.click("#open")
    screen.wait_for("#strength", "5 on 5")
    opening = as_lines(program.path)[0]
    assert (opening["ruleset"], opening["home"]["name"], opening["away"]["name"]) == (
        "youth-12u",
        "Elm Otters",
        "Oak Badgers",
    )


def test_without_a_name_it_says_so(serve: Serve, show: Show) -> None:
    """Nothing is written, and what is missing is said."""
    program = serve()
    screen = show(program)
    screen.wait_for("#applied", "minor")
    screen.page.click("#open")
    screen.page.wait_for_selector("#outcome .says")
    assert not program.path.exists()
    screen.page.fill("#home-name", "Elm")
    screen.until("document.querySelector('#outcome').textContent === ''")


def test_a_league_that_differs(serve: Serve, show: Show) -> None:
    """A length typed stands in the line at once, and a confirmation given before does not count for it."""
    program = serve()
    screen = show(program)
    screen.wait_for("#applied", "minor")
    screen.page.check("#confirmed")
    screen.page.click("summary")
    screen.page.fill("[id='setting-lengths.minor']", "1:30")
    screen.page.keyboard.press("Tab")
    screen.wait_for("#applied", "minor 1:30")
    assert not screen.page.is_checked("#confirmed")
    screen.page.fill("[id='setting-lengths.minor']", "soon")
    screen.page.keyboard.press("Tab")
    screen.page.wait_for_selector("#settings-problem:not(:empty)")


def test_a_pasted_roster(serve: Serve, show: Show) -> None:
    """Lines that are understood go on the roster; the others stay in the field, with what is wrong."""
    screen = show(serve())
    screen.page.fill("#home-paste", ROSTER)
    screen.page.click("#home-card button:has-text('Put on the roster')")
    screen.wait_for("#home-card", "3 on the roster, 3 playing")
    assert screen.page.input_value("#home-paste") == "the goalie is new"
    screen.wait_for("#home-card .says", "Line 3")
    assert screen.page.locator("#home-goalie option").all_inner_texts() == ["not known yet", "31"]
    assert screen.page.get_by_role("button", name="12 C", exact=True).get_attribute("aria-pressed") == "true"


@pytest.mark.parametrize(("words", "status"), [("scratched", "absent"), ("suspended", "suspended")])
def test_one_touch(words: str, status: str, serve: Serve, show: Show) -> None:
    """Scratched or suspended with one touch, and not offered in any form then."""
    program = serve()
    screen = show(program, width=390, height=844, touch=True)
    screen.page.fill("#home-name", "Elm")
    screen.page.fill("#away-name", "Oak")
    screen.page.fill("#home-paste", ROSTER)
    screen.page.tap("#home-card button:has-text('Put on the roster')")
    screen.page.get_by_role("button", name=f"9 {words}", exact=True).tap()
    screen.wait_for("#home-card", "3 on the roster, 2 playing")
    screen.page.tap("#open")
    screen.wait_for("#strength", "5 on 5")
    assert as_lines(program.path)[0]["home"]["roster"][0]["status"] == status
    screen.page.tap("[data-key=n]")
    screen.page.tap("#form .chip")
    screen.wait_for("#form .chips button", "12")
    assert screen.page.get_by_role("button", name="9", exact=True).count() == 0


def test_the_roster_of_a_former_game(serve: Serve, show: Show, tmp_path: Path) -> None:
    """A team that played before brings its name, colour, roster and bench."""
    (tmp_path / "former.jsonl").write_bytes(EXAMPLE.read_bytes())
    screen = show(serve())
    screen.page.select_option("#away-former", label="Larkmoor Lanterns, 2026-11-14 (17)")
    screen.wait_for("#away-card", "17 on the roster")
    assert screen.page.input_value("#away-name") == "Larkmoor Lanterns"
    assert screen.page.input_value("#away-colour") == "green"
    assert "Gudrun Pellwick, head coach" in screen.page.input_value("#away-staff")


def test_put_right_later(serve: Serve, show: Show) -> None:
    """What is changed in a game that runs is written as a correction of the first line."""
    program = serve(60)
    screen = show(program, path="opening")
    screen.wait_for("#home-card", "17 on the roster")
    screen.page.fill("#game-rink", "Upper Ice Hall")
    screen.page.click("#open")
    screen.wait_for_entry(61)
    last = as_lines(program.path)[-1]
    assert (last["kind"], last["target"], last["changes"]) == ("amend", 1, {"rink": "Upper Ice Hall"})
