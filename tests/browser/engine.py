"""The browser that tests share: started once, whoever asks first; ended when nobody needs it any more."""

from __future__ import annotations

import importlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from attrs import Factory, define

__all__ = ["NEEDED", "axe_text", "needed", "running_browser"]

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
NEEDED = "These tests need a browser (RINKFOLD_BROWSER), axe.min.js (RINKFOLD_AXE), playwright, weasyprint and pypdf."


def needed(variable: str) -> str:
    """What the environment says."""
    value = os.environ.get(variable)
    assert value, f"{variable} is not set. {NEEDED}"
    return value


def axe_text() -> str:
    """The script that looks for barriers."""
    return Path(needed("RINKFOLD_AXE")).read_text(encoding="utf-8")


@define
class _Shared:
    users: int = 0
    browser: Any = None
    ends: list[Any] = Factory(list)


_shared = _Shared()


@contextmanager
def running_browser() -> Iterator[Any]:
    """The one browser; Playwright cannot be started twice in a process."""
    if _shared.users == 0:
        driver = importlib.import_module("playwright.sync_api").sync_playwright()
        _shared.browser = driver.start().chromium.launch(executable_path=needed("RINKFOLD_BROWSER"), args=FLAGS)
        _shared.ends = [_shared.browser.close, driver.__exit__]
    _shared.users += 1
    try:
        yield _shared.browser
    finally:
        _shared.users -= 1
        if _shared.users == 0:
            close, stop = _shared.ends
            close()
            stop()
