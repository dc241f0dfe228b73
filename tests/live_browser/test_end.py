"""The end of a period and of the game: what is read aloud, what the referee is shown, closing and the head code."""

from __future__ import annotations

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.game_events import as_lines

from rinkfold.timeline import read_log

pytestmark = pytest.mark.browser
PERIOD_OVER, NEXT_PERIOD, GAME_OVER = 95, 96, 319


def test_read_aloud_at_the_horn(serve: Serve, show: Show) -> None:
    """The goals of the period, and each goalkeeper's shots and saves; gone when play goes on."""
    screen = show(serve(PERIOD_OVER))
    screen.wait_for("#horn", "To read aloud: 1st period")
    aloud = screen.text("#horn")
    assert "8:52" in aloud
    assert "17 shots, 16 saves" in aloud
    screen.page.keyboard.press("f")
    assert screen.page.input_value("#form input.reading") == "2 15:00"
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(NEXT_PERIOD)
    screen.page.wait_for_selector("#horn", state="hidden")


def test_what_is_read_aloud_is_in_view(serve: Serve, show: Show) -> None:
    """On a small screen too, all of it; while a form is open it makes room."""
    screen = show(serve(PERIOD_OVER), width=1024, height=768)
    screen.wait_for("#horn", "To read aloud")
    edge = screen.page.locator("#horn").bounding_box()
    assert edge["y"] + edge["height"] <= 768
    screen.page.keyboard.press("f")
    screen.page.wait_for_selector("#form form")
    assert not screen.page.locator("#horn").is_visible()
    screen.page.keyboard.press("Escape")
    screen.wait_for("#horn", "To read aloud")


def test_overtime_is_proposed_with_its_own_length(serve: Serve, show: Show) -> None:
    """The faceoff after the third period stands at the length of overtime."""
    screen = show(serve(294))
    screen.page.keyboard.press("f")
    assert screen.page.input_value("#form input.reading") == "4 5:00"


def test_the_gravest_first(serve: Serve, show: Show) -> None:
    """Ejections before majors and misconducts, each once, then the goals."""
    screen = show(serve(GAME_OVER), path="signoff")
    screen.wait_for("#grave", "spearing")
    grave = screen.page.locator("#grave .text").all_inner_texts()
    assert len(grave) == len(set(grave)) == 5
    assert [text.split()[0] for text in grave[:2]] == ["18", "23"]
    assert grave[-1].startswith("14")
    assert screen.text("#final").startswith("Larkmoor Lanterns 5 – 4 Copperfell Pikes")
    assert screen.page.locator("#goals li").count() == 9


def test_a_correction_from_there(serve: Serve, show: Show) -> None:
    """The referee says that the assist was another's: put right on the same page."""
    program = serve(GAME_OVER)
    screen = show(program, path="signoff")
    screen.page.locator("#goals button").first.click()
    screen.page.fill("#form input[id^=assists-]", "19 12")
    screen.page.fill("#form input[id^=because-]", "the referee")
    screen.wait_for("#form .effect", "12")
    screen.page.press("#form input[id^=because-]", "Enter")
    screen.wait_for("#last", "#320")
    screen.wait_for("#goals li", "12 Lukas Brightmere")
    assert as_lines(program.path)[-1]["changes"] == {"assists": ["19", "12"]}


def test_a_goalkeeper_whom_nobody_named(serve: Serve, show: Show) -> None:
    """Is not named, as in the summary, and no empty net; one save is one save."""
    program = serve(text=lines_of_example(1))
    for text in ("1 15:00 home goalie 31", "1 15:00 go", "home shot", "home shot", "14:00 home goal 12", "away shot"):
        assert program.client.post("api/enter", json=program.form(text, program.version)).json()["ok"]
    totals = show(program, path="signoff")
    totals.wait_for("#totals", "Away not named: 3 shots, 2 saves")
    assert "Home 31: 1 shot, 1 save" in totals.text("#totals")
    assert "empty net" not in totals.text("#totals")


def test_closing_shows_the_head_code(serve: Serve, show: Show) -> None:
    """Closed with the names of those who sign; the code on the page is the log's."""
    program = serve()
    opening = show(program, path="opening")
    opening.wait_for("#applied", "minor")
    opening.page.fill("#home-name", "Elm Otters")
    opening.page.fill("#away-name", "Oak Badgers")
    opening.page.click("#open")
    opening.wait_for("#strength", "5 on 5")
    screen = show(program, path="signoff")
    screen.page.fill("#closing input[id^=signed-]", "Noor Halvestrand, Pim Tollgate")
    screen.wait_for("#closing .draft", "Will be written: close played signed")
    screen.page.click("#closing button[type=submit]")
    screen.page.click("#closing .anyway")
    screen.page.wait_for_selector("#closing .code")
    assert as_lines(program.path)[-1]["signed"] == ["Noor Halvestrand", "Pim Tollgate"]
    assert screen.text("#closing .code") == read_log(program.path).head_code


def test_a_log_without_a_chain_has_no_code(serve: Serve, show: Show) -> None:
    """As another program may have written it: said, not left blank."""
    screen = show(serve(320), path="signoff")
    screen.wait_for("#closing", "not chained, so it has no head code")


def test_a_closed_record_says_so(serve: Serve, show: Show) -> None:
    """On every page; the keys are gone, the line takes corrections and remarks."""
    program = serve(320)
    writer, reader = show(program), show(program, "reading only")
    assert writer.text("#trouble").startswith("The record is closed: corrections and remarks only.")
    assert reader.text("#trouble") == "The record is closed."
    assert not writer.page.locator("#keys").is_visible()
    writer.page.fill("#entry", "remark the ice was resurfaced")
    writer.page.press("#entry", "Enter")
    writer.wait_until_written(321)
