"""The page of a game in a browser: quiet, alone, usable with a pointer, with keys, on paper, and by everybody."""

from __future__ import annotations

import importlib
import json
from pathlib import Path
from typing import Any

import pytest
from browser.conftest import ROOT, Shown, make

pytestmark = pytest.mark.browser
HOSTILE = '</title></g></svg></script><script>document.title = "taken"</script><img src=x onerror="document.title=1">'


def test_no_complaint_and_no_request(shown: Shown, html: Path) -> None:
    shown.page.locator(".item").first.focus()
    assert shown.complaints == []
    assert shown.requests == [html.as_uri()]


def test_pointing_tells_the_details(shown: Shown) -> None:
    item = shown.page.locator(".item.penalty.goal").first
    item.hover()
    assert shown.page.locator("#details").inner_text() == item.get_attribute("aria-label")
    assert "ended by goal" in shown.page.locator("#details").inner_text()
    assert shown.page.locator("#details").get_attribute("aria-live") == "polite"
    shown.page.locator("h1").hover()
    assert shown.page.locator("#details").inner_text().startswith("Point at anything")


def test_tab_reaches_every_item_in_order_and_tells_it(shown: Shown) -> None:
    names = shown.page.locator(".item").evaluate_all("items => items.map(item => item.getAttribute('aria-label'))")
    assert len(names) > 80
    shown.page.keyboard.press("Tab")
    assert shown.page.evaluate("document.activeElement.textContent") == "Skip the picture"
    told = []
    for _ in names:
        shown.page.keyboard.press("Tab")
        told.append(shown.page.locator("#details").text_content())
    assert told == names


def test_arrows_step_to_and_fro(shown: Shown) -> None:
    items = shown.page.locator(".item")
    items.first.focus()
    shown.page.keyboard.press("ArrowRight")
    assert shown.page.locator("#details").text_content() == items.nth(1).get_attribute("aria-label")
    shown.page.keyboard.press("ArrowLeft")
    assert shown.page.locator("#details").text_content() == items.first.get_attribute("aria-label")


def test_nothing_is_wider_than_the_screen(shown: Shown) -> None:
    assert shown.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_no_barrier_is_found(browser: Any, html: Path, axe: str, shown: Shown) -> None:
    """By axe-core, with all its rules; the page's own policy is passed over to let it in."""
    size = shown.page.viewport_size
    scheme = "dark" if shown.page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches") else "light"
    context = browser.new_context(viewport=size, color_scheme=scheme, bypass_csp=True)
    page = context.new_page()
    page.goto(html.as_uri())
    page.evaluate(axe)
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    context.close()
    assert found["passes"]
    assert [(one["id"], [node["html"][:120] for node in one["nodes"]]) for one in found["violations"]] == []


def test_a_hostile_name_runs_nothing(browser: Any, tmp_path: Path) -> None:
    log = tmp_path / "game.jsonl"
    log.write_text(_renamed((ROOT / "examples" / "sparse.jsonl").read_text(encoding="utf-8")), encoding="utf-8")
    page = browser.new_page()
    page.goto(make(log, tmp_path / "game.html").as_uri())
    assert HOSTILE in page.title()
    assert page.locator("img").count() == 0
    page.close()


def _renamed(text: str) -> str:
    """The log with another name for the home team, and without its chain, which the name would break."""
    events = [json.loads(line) for line in text.splitlines()]
    for event in events:
        event.pop("prev", None)
    events[0]["home"]["name"] = HOSTILE
    return "".join(json.dumps(event) + "\n" for event in events)


@pytest.mark.parametrize("by", ["browser", "program"])
def test_the_example_game_prints_on_two_pages(browser: Any, html: Path, tmp_path: Path, by: str) -> None:
    """Both as the browser prints it and as the program makes it; the head code stands on the last page."""
    target = tmp_path / "game.pdf"
    if by == "program":
        make(ROOT / "examples" / "game.jsonl", target)
    else:
        page = browser.new_page()
        page.goto(html.as_uri())
        page.pdf(path=target, prefer_css_page_size=True)
        page.close()
    pages = importlib.import_module("pypdf").PdfReader(target).pages
    assert len(pages) == 2
    assert "The game in time" in pages[0].extract_text()
    assert "757b-0390-4a1f-2608" in pages[1].extract_text()
