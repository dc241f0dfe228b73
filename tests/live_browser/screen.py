"""A page of the live server in a browser, with what it complained of and what it asked for."""

from __future__ import annotations

import time
from typing import Any
from urllib.parse import urlsplit

from attrs import Factory, define
from live_server.program import Program

__all__ = ["SECONDS", "Screen", "opened"]

SECONDS = 10
EXPECTED = ("Failed to load resource: net::ERR_", "the server responded with a status of 4", "ERR_INCOMPLETE_CHUNKED")
"""What Chromium writes to its console of answers that tests provoke: a lost connection, a refused entry."""


@define
class Screen:
    """One page: `page` is Playwright's; `complaints` and `requests` grow with it."""

    page: Any
    host: str
    complaints: list[str] = Factory(list)
    requests: list[str] = Factory(list)

    @property
    def foreign_requests(self) -> list[str]:
        """What was asked of another host than the server."""
        return [url for url in self.requests if urlsplit(url).netloc != self.host]

    def text(self, selector: str) -> str:
        """The text that is seen there, in one line."""
        return " ".join(str(self.page.locator(selector).first.inner_text()).split())

    def wait_for(self, selector: str, text: str = "") -> None:
        """Until something that matches is seen, with `text` in it."""
        self.page.locator(selector).filter(has_text=text).first.wait_for(state="visible", timeout=SECONDS * 1000)

    def wait_for_entry(self, seq: int) -> None:
        """Until the entry `seq` stands on the page as the last."""
        self.page.wait_for_selector(f'#entries li:first-child .seq:text-is("#{seq}")', timeout=SECONDS * 1000)

    def wait_until_written(self, seq: int) -> None:
        """Until this page itself says that it wrote `seq`."""
        self.wait_for("#last .written", f"#{seq} ")
        self.wait_for_entry(seq)

    def until(self, script: str) -> None:
        """Until the script is true; asked from outside, since the page's policy forbids scripts made of text."""
        end = time.monotonic() + SECONDS
        while not self.page.evaluate(script):
            assert time.monotonic() < end, f"never true: {script}"
            self.page.wait_for_timeout(15)

    @property
    def focused(self) -> str:
        """What has the keyboard: the element's id, or its name, or its tag."""
        script = (
            "(e => e.id.replace(/-\\d+$/, '') || e.dataset?.key || e.tagName.toLowerCase())(document.activeElement)"
        )
        return str(self.page.evaluate(script))

    def tab_to(self, name: str) -> None:
        """Press Tab until the field `name` has the keyboard."""
        for _ in range(40):
            if self.focused == name:
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"Tab does not reach {name}")

    def barriers(self, axe: str) -> list[Any]:
        """What axe-core finds; needs a context that passes over the page's policy."""
        self.page.evaluate(axe)
        found = self.page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        assert found["passes"]
        return [(one["id"], [node["html"][:160] for node in one["nodes"]]) for one in found["violations"]]


def opened(
    browser: Any,
    program: Program,
    which: str,
    path: str,
    *,
    width: int = 1280,
    height: int = 900,
    scheme: str = "light",
    touch: bool = False,
    bypass_csp: bool = False,
    **options: Any,
) -> Screen:
    """The page `path` behind the address whose title has `which` in it, ready when it is connected."""
    context = browser.new_context(
        viewport={"width": width, "height": height},
        color_scheme=scheme,
        has_touch=touch,
        is_mobile=touch,
        bypass_csp=bypass_csp,
        reduced_motion="reduce",
        **options,
    )
    url = next(url for title, url in program.addresses.items() if which in title)
    screen = Screen(context.new_page(), urlsplit(url).netloc)
    screen.page.set_default_timeout(SECONDS * 1000)
    screen.page.on("console", lambda said: _note(screen, said.type, said.text))
    screen.page.on("pageerror", lambda error: screen.complaints.append(str(error)))
    screen.page.on("request", lambda asked: screen.requests.append(asked.url))
    screen.page.goto(url + path)
    if screen.page.locator("#link").count():
        screen.page.wait_for_selector("#link:not(.lost)")
    return screen


def _note(screen: Screen, kind: str, text: str) -> None:
    if kind in ("error", "warning") and not any(part in text for part in EXPECTED):
        screen.complaints.append(text)
