"""The marker `full`: what takes minutes runs only when it is asked for, by ``pytest -m full``."""

from __future__ import annotations

from pathlib import Path

import pytest

HERE = Path(__file__).parent


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "full: takes minutes; runs with -m full and not otherwise")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if "full" in config.option.markexpr:
        return
    left = [item for item in items if item.path.is_relative_to(HERE) and item.get_closest_marker("full")]
    if left:
        config.hook.pytest_deselected(items=left)
        items[:] = [item for item in items if item not in left]
