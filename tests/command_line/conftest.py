"""The files that tests of the program need."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def started(tmp_path: Path, example: Path) -> Path:
    """The example game up to the faceoff at 11:22 of the second period, as a file that may be written to."""
    path = tmp_path / "started.jsonl"
    path.write_bytes(b"".join(example.read_bytes().splitlines(keepends=True)[:120]))
    return path


@pytest.fixture
def fresh(tmp_path: Path, rinkfold: Callable[..., Any]) -> Path:
    """A game that was just opened."""
    path = tmp_path / "fresh.jsonl"
    arguments = ("--ruleset", "youth-14u", "--home", "Elm Owls", "--away", "Oak Otters", "--date", "2026-01-10")
    assert rinkfold("new", path, *arguments).code == 0
    return path


@pytest.fixture
def broken() -> list[Path]:
    """Every broken log of the test data."""
    return sorted((ROOT / "tests" / "data" / "broken_logs").glob("*.jsonl"))


@pytest.fixture
def copied(tmp_path: Path) -> Callable[[Path], Path]:
    """A copy of a file, which a test may let the program write to."""

    def copy(path: Path) -> Path:
        return Path(shutil.copy(path, tmp_path / path.name))

    return copy
