"""What the boxes say of those who sit, and how many of them are seen."""

from __future__ import annotations

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.screen import Screen
from live_server.program import Program

pytestmark = pytest.mark.browser


def written(program: Program, *entries: str) -> None:
    """Write `entries`, whatever is said against them."""
    for text in entries:
        form = program.form(text, program.version)
        answer = program.client.post("api/enter", json=form).json()
        if not answer["ok"]:
            form["override"] = [one["code"] for one in answer["warnings"]]
            answer = program.client.post("api/enter", json=form).json()
        assert answer["ok"], answer


def with_box(serve: Serve, show: Show, *entries: str, **options: int) -> Screen:
    program = serve(text=lines_of_example(1))
    written(program, *entries)
    return show(program, **options)


def test_no_whistle_lets_out_whose_time_is_not_over(serve: Serve, show: Show) -> None:
    """Where his time is over only when the place opens, a whistle before that is none for him."""
    calls = ("1330 home pen 12 2 tripping", "1330 home pen 9 5 holding served 17", "1330 home pen 10 2 hooking")
    screen = with_box(serve, show, "1500 go", *calls)
    first = screen.text("#home-box li:has-text('Brightmere')")
    assert "out at 11:30 on the board or at a whistle once its time is over" in first
    assert "whistle before" not in screen.text("#home-box")


FIVE = (
    "13:30 home penalty 12 2 tripping",
    "13:30 home penalty 9 2 hooking",
    "13:30 home penalty 10 2 holding",
    "13:30 home penalty 8 2+2 high-sticking",
    "13:30 home penalty 6 10 arguing",
)


def test_everybody_who_sits_is_seen(serve: Serve, show: Show) -> None:
    """Five in one box of a small screen: how many, each number and reading in the window, who comes out next first."""
    screen = with_box(serve, show, "1500 go", *FIVE, width=1024, height=768)
    assert screen.text("#home-box-title") == "Home box 5 sit"
    cards = screen.page.locator("#home-box > li")
    assert [card.locator(".number").inner_text() for card in cards.all()] == ["12", "9", "10", "8", "6"]
    for card in cards.all():
        edge = card.bounding_box()
        assert edge["y"] + edge["height"] <= 768
    readings = [card.locator(".big").all_inner_texts() for card in cards.all()]
    assert readings[:3] == [["9:30"], ["7:30"], ["9:30"]]


def test_one_who_sits_alone_is_not_counted(serve: Serve, show: Show) -> None:
    """The card says it."""
    screen = with_box(serve, show, "1500 go", FIVE[0])
    assert screen.text("#home-box-title") == "Home box"
