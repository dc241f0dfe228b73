"""A browser that shows the page of a game. `.ci/full` installs what this needs and says where it is.

RINKFOLD_BROWSER is the program, RINKFOLD_AXE the file axe.min.js of the npm package axe-core.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from attrs import Factory, define
from browser.engine import axe_text, running_browser

from rinkfold.cli.main import app

ROOT = Path(__file__).resolve().parents[2]


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Take these tests out unless the marker was asked for: then all of them run, and fail without what they need."""
    if "browser" in config.option.markexpr:
        return
    asked_for = [item for item in items if item.get_closest_marker("browser") is not None]
    config.hook.pytest_deselected(items=asked_for)
    items[:] = [item for item in items if item not in asked_for]


@define
class Shown:
    """A page in the browser, with what it complained of and what it asked for."""

    page: Any
    complaints: list[str] = Factory(list)
    requests: list[str] = Factory(list)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    with running_browser() as started:
        yield started


@pytest.fixture(scope="session")
def axe() -> str:
    return axe_text()


def make(game: Path, target: Path) -> Path:
    """The page of a log, made by the program."""
    with pytest.raises(SystemExit) as end:
        app(["report", str(game), "-o", str(target), "--force"])
    assert end.value.code == 0
    return target


@pytest.fixture(scope="session")
def html(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example game's page."""
    return make(ROOT / "examples" / "game.jsonl", tmp_path_factory.mktemp("page") / "game.html")


@pytest.fixture(params=[(1280, "light"), (1280, "dark"), (390, "light"), (390, "dark")], ids=lambda p: f"{p[0]}-{p[1]}")
def shown(browser: Any, html: Path, request: pytest.FixtureRequest) -> Iterator[Shown]:
    """The example game's page on a wide and a narrow screen, light and dark."""
    width, scheme = request.param
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=False)
    one = Shown(context.new_page())
    one.page.on("console", lambda message: one.complaints.append(message.text))
    one.page.on("pageerror", lambda error: one.complaints.append(str(error)))
    one.page.on("request", lambda asked: one.requests.append(asked.url))
    one.page.goto(html.as_uri())
    yield one
    context.close()
