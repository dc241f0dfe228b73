"""Several pages over one log: they see each other's entries, and nobody writes on top of what they have not seen."""

from __future__ import annotations

import json
from typing import Any

import pytest
from live_browser.conftest import Serve, Show
from live_browser.game_events import as_lines

pytestmark = pytest.mark.browser
TWO_SHORT = 153


def test_they_see_each_others_entries(serve: Serve, show: Show) -> None:
    """What one page writes comes to the others by itself (how soon: benchmarks/bench_live_page.py)."""
    program = serve(TWO_SHORT)
    writer, reader, door = show(program), show(program, "reading only"), show(program, "away box")
    writer.page.keyboard.press("h")
    reader.wait_for_entry(154)
    writer.page.keyboard.type("600 away pen 8 2 hooking")
    writer.page.keyboard.press("Enter")
    door.wait_for("#away-box .number", "8")


def test_the_door_writes_doors(serve: Serve, show: Show) -> None:
    """Its one entry: who sat, at the reading that it shows; the writer sees it."""
    program = serve(TWO_SHORT)
    writer, door = show(program), show(program, "away box")
    door.page.locator("button.door").first.click()
    door.page.fill("#form input.reading", "5:35")
    door.wait_for("#form .effect", "away 5, door open: 2nd 5:35")
    door.page.click("#form button[type=submit]")
    writer.wait_for_entry(154)
    assert as_lines(program.path)[-1]["penalty"] == 140
    assert door.page.locator("#entry").count() == 0


def test_the_door_takes_its_own_entry_back(serve: Serve, show: Show) -> None:
    """With one touch, and only what it wrote itself."""
    program = serve(TWO_SHORT)
    door = show(program, "away box", width=390, height=844, touch=True)
    door.page.locator("button.door").first.tap()
    door.page.fill("#form input.reading", "5:35")
    door.page.tap("#form button[type=submit]")
    door.page.tap("#last button:has-text('Take it back')")
    door.wait_for("#last .written", "#154 taken back")
    assert as_lines(program.path)[-1]["target"] == 154


def test_readers_and_doors_get_no_names(serve: Serve, show: Show) -> None:
    """Numbers suffice for them; the writer has the names."""
    program = serve(TWO_SHORT)
    writer, reader, door = show(program), show(program, "reading only"), show(program, "away box")
    assert "Mossgarth" in writer.text("#away-box")
    for screen in (reader, door):
        assert "Mossgarth" not in screen.page.content()
        assert "5" in screen.text("#away-box")


def test_what_others_wrote_while_a_form_is_open_is_shown(serve: Serve, show: Show) -> None:
    """It stands in the form before the entry is written; seen, it costs no further key."""
    program = serve(TWO_SHORT)
    slow, other = show(program), show(program)
    slow.page.keyboard.type("600 home goal 10")
    slow.wait_for("#line-draft .effect", "goal, home 10")
    other.page.keyboard.press("a")
    slow.wait_for("#line-draft .says", "Meanwhile somebody else wrote")
    assert "#154 2 away shot" in slow.text("#line-draft .says").replace("period ", "")
    slow.page.wait_for_timeout(1200)
    slow.page.keyboard.press("Enter")
    slow.wait_until_written(155)


def test_an_entry_on_an_outdated_state_is_shown_what_changed(serve: Serve, show: Show) -> None:
    """A page that has not heard of the last entry is told of it, and writes at the second Enter."""
    program = serve(TWO_SHORT)
    deaf, other = show(program), show(program)
    deaf.page.keyboard.type("600 home goal 10")
    deaf.wait_for("#line-draft .effect", "goal, home 10")
    other.page.keyboard.press("a")
    deaf.wait_for("#line-draft .says", "Meanwhile")
    deaf.page.keyboard.press("Enter")
    deaf.wait_for("#line-draft .anyway", "Write it anyway")
    assert "Meanwhile somebody else wrote" in deaf.text("#line-draft")
    assert len(as_lines(program.path)) == 154
    deaf.page.keyboard.press("Enter")
    deaf.wait_until_written(155)
    assert as_lines(program.path)[-1]["kind"] == "goal"


def test_an_answer_that_is_lost_writes_nothing_twice(serve: Serve, show: Show) -> None:
    """The server wrote the entry and its answer did not arrive: the page sends it again under the same id."""
    program = serve(TWO_SHORT)
    screen = show(program)
    sent: list[str] = []

    def lose_the_first(route: Any) -> None:
        sent.append(json.loads(route.request.post_data)["id"])
        if len(sent) == 1:
            route.fetch()
            route.abort()
        else:
            route.continue_()

    screen.page.route("**/api/enter", lose_the_first)
    screen.page.keyboard.press("h")
    screen.wait_until_written(154)
    screen.page.wait_for_timeout(300)
    assert len(sent) == 2
    assert sent[0] == sent[1]
    assert len(as_lines(program.path)) == 154
