"""The examples for developers need libraries that rinkfold does not: the extras `examples` and `cluster`.

`.ci/full` installs them and asks for these tests by their marker. Elsewhere they are taken out, not skipped: whoever
runs `pytest` needs no pandas.
"""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Take these tests out unless the marker was asked for: then all of them run, and fail without what they need."""
    if "examples" in config.option.markexpr:
        return
    asked_for = [item for item in items if item.get_closest_marker("examples") is not None]
    config.hook.pytest_deselected(items=asked_for)
    items[:] = [item for item in items if item not in asked_for]


@pytest.fixture
def example(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], ModuleType]:
    """Import an example by its path below `examples`, in the folder from which it is meant to be run."""

    def load(path: str) -> ModuleType:
        monkeypatch.chdir(ROOT)
        file = ROOT / "examples" / path
        spec = importlib.util.spec_from_file_location(file.stem, file)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        monkeypatch.setitem(sys.modules, file.stem, module)
        spec.loader.exec_module(module)
        return module

    return load
