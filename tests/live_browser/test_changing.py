"""Putting an entry right: its own form with what it says now, and only what was changed there is written."""

from __future__ import annotations

import json
from typing import Any

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.game_events import as_lines, example_lines
from live_browser.screen import Screen
from live_server.program import Program

pytestmark = pytest.mark.browser
TWO_SHORT = 153


def latest_of(kind: str, count: int = TWO_SHORT) -> dict[str, Any]:
    """The last entry of `kind` before `count`."""
    return next(line for line in reversed(example_lines()[:count]) if line["kind"] == kind)


def game_ending_with(kind: str) -> tuple[int, str]:
    """The example up to its first entry of `kind`."""
    seq = next(line["seq"] for line in example_lines() if line["kind"] == kind)
    return seq, lines_of_example(seq)


def opened(screen: Screen, seq: int) -> None:
    screen.page.click(f"[aria-label='change entry {seq}']")
    screen.wait_for("#form h2", f"#{seq}")


def values(screen: Screen) -> dict[str, str]:
    """What the fields of the form say, those behind a word too."""
    script = """[...document.querySelectorAll("#form input")].filter(one => one.type === "text" || one.checked)
        .map(one => [one.type === "radio" ? one.name : one.id, one.type === "checkbox" ? "yes" : one.value])"""
    return {name.rsplit("-", 1)[0]: value for name, value in screen.page.evaluate(script) if value}


def changes(program: Program) -> dict[str, Any]:
    """What the last line of the log changes."""
    last = as_lines(program.path)[-1]
    assert last["kind"] == "amend"
    return dict(last["changes"])


def test_a_penalty(serve: Serve, show: Show) -> None:
    """The form shows who, how long, what for and at what reading; what for is changed alone."""
    program = serve(TWO_SHORT)
    screen = show(program)
    opened(screen, 150)
    now = latest_of("penalty_assessed")
    assert values(screen) == {
        "side": "away",
        "reading": f"{now['period']} {now['clock']}",
        "player": now["player"],
        "parts": "2",
        "infraction": "delaying the game",
        "announced": now["announced"],
    }
    screen.page.fill("#form input[id^=infraction-]", "tripping")
    screen.wait_for("#form .draft", "amend #150 infraction tripping because corrected")
    screen.page.click("#form button[type=submit]")
    screen.wait_until_written(154)
    assert changes(program) == {"infraction": "tripping"}


def test_a_bench_minor_that_was_a_players(serve: Serve, show: Show) -> None:
    """Nobody's number, and the part of the bench; what was announced stays in view."""
    program = serve(TWO_SHORT)
    screen = show(program)
    opened(screen, 150)
    screen.page.fill("#form input[id^=player-]", "bench")
    screen.wait_for("#form .draft", "amend #150 player ? parts bench minor because corrected")
    screen.page.fill("#form input[id^=player-]", "staff")
    screen.page.fill("#form input[id^=staff-]", "Ann Tarn")
    screen.wait_for("#form .draft", "player")
    screen.wait_for("#form .draft", "Ann Tarn")


def test_a_goal(serve: Serve, show: Show) -> None:
    """A scorer misheard and an assist too many: the side, the reading and the rest are left alone."""
    seq, text = game_ending_with("goal")
    program = serve(text=text)
    screen = show(program)
    opened(screen, seq)
    goal = example_lines()[seq - 1]
    now = values(screen)
    assert (now["side"], now["scorer"], now["assists"]) == (goal["team"], goal["scorer"], " ".join(goal["assists"]))
    screen.page.fill("#form input[id^=scorer-]", "9")
    screen.page.fill("#form input[id^=assists-]", "unassisted")
    screen.page.fill("#form input[id^=because-]", "misheard")
    screen.page.press("#form input[id^=because-]", "Enter")
    screen.wait_until_written(seq + 1)
    assert changes(program) == {"scorer": "9", "assists": []}
    assert as_lines(program.path)[-1]["reason"] == "misheard"


def test_a_reading_that_was_misread(serve: Serve, show: Show) -> None:
    """Typed as everywhere: the period stays."""
    seq, text = game_ending_with("goal")
    program = serve(text=text)
    screen = show(program)
    opened(screen, seq)
    clock = example_lines()[seq - 1]["clock"]
    moved = f"{clock[:-1]}{(int(clock[-1]) + 1) % 10}"
    screen.page.fill("#form input.reading", moved)
    screen.page.press("#form input.reading", "Enter")
    screen.page.wait_for_selector("#form .anyway, #last .written")
    if screen.page.locator("#form .anyway").count():
        screen.page.keyboard.press("Enter")
    screen.wait_until_written(seq + 1)
    assert changes(program) == {"clock": moved}


@pytest.mark.parametrize(
    "kind",
    ["goal", "penalty_assessed", "shot", "stoppage", "faceoff", "goalie_change", "timeout", "period_end"],
)
def test_nothing_changed_is_nothing_written(kind: str, serve: Serve, show: Show) -> None:
    """Each kind shows what it says now, and is as it was until something else is typed."""
    seq, text = game_ending_with(kind)
    program = serve(text=text)
    screen = show(program)
    opened(screen, seq)
    line = example_lines()[seq - 1]
    if "clock" in line:
        assert line["clock"] in " ".join(values(screen).values())
    screen.page.click("#form button[type=submit]")
    screen.wait_for("#form .says", "Nothing is changed yet.")
    assert program.version == seq


def test_an_entry_that_has_no_form(serve: Serve, show: Show) -> None:
    """Its fields stand by their names, with what they say now."""
    program = serve(TWO_SHORT)
    assert program.client.post("api/enter", json=program.form("remark the ice is wet", TWO_SHORT)).json()["ok"]
    screen = show(program)
    opened(screen, 154)
    assert values(screen)["text"] == "the ice is wet"
    screen.page.fill("#form input[id^=text-]", "the ice was wet")
    screen.page.press("#form input[id^=text-]", "Enter")
    screen.wait_until_written(155)
    assert changes(program) == {"text": "the ice was wet"}


def test_what_never_happened(serve: Serve, show: Show) -> None:
    """One tick takes it back."""
    program = serve(TWO_SHORT)
    screen = show(program)
    opened(screen, 153)
    screen.page.check("#form input[id^=check-never-]")
    screen.wait_for("#form .effect", "taken back")
    screen.page.click("#form button[type=submit]")
    screen.wait_until_written(154)
    assert json.loads(program.path.read_text(encoding="utf-8").splitlines()[-1])["target"] == 153


def test_what_took_back_is_only_taken_back(serve: Serve, show: Show) -> None:
    """There is nothing in it to change: the one thing offered is that it counts no more."""
    program = serve(TWO_SHORT)
    assert program.client.post("api/enter", json=program.form("void 153", TWO_SHORT)).json()["ok"]
    screen = show(program)
    opened(screen, 154)
    assert screen.text("#form h2") == "Take it back: #154"
    assert values(screen) == {}
    assert screen.page.locator("#form input").count() == 1
    screen.page.click("#form button[type=submit]")
    screen.wait_until_written(155)
    last = as_lines(program.path)[-1]
    assert (last["kind"], last["target"]) == ("void", 154)
