"""Long forms are run when they are asked for: ``pytest -m full``."""

from __future__ import annotations

from pathlib import Path

import pytest
from torture.games import short_game

from rinkfold.timeline.record import log_bytes


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if "full" in config.option.markexpr:
        return
    long = [item for item in items if item.get_closest_marker("full") is not None]
    config.hook.pytest_deselected(items=long)
    items[:] = [item for item in items if item not in long]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A short chained log in a folder of its own."""
    made = tmp_path / "game" / "game.jsonl"
    made.parent.mkdir()
    made.write_bytes(log_bytes(short_game()))
    return made
