"""A season of random games, made once, and the program run in this process."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.summaries import GameSummary

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
GAMES = 70
"""Enough for more than one process to be started."""


@pytest.fixture(scope="session")
def generator() -> Iterator[Any]:
    """The module that makes random games."""
    examples = str(ROOT / "examples")
    sys.path.insert(0, examples)
    yield importlib.import_module("random_games")
    sys.path.remove(examples)


@pytest.fixture(scope="session")
def season_folder(generator: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of random games."""
    folder = tmp_path_factory.mktemp("season")
    generator.write_games(folder, 7, range(GAMES))
    return Path(folder)


@pytest.fixture(scope="session")
def rows(season_folder: Path) -> tuple[GameSummary, ...]:
    """The summaries of the random games, each made by itself."""
    return tuple(game_row(path, path.name, names=True) for path in sorted(season_folder.glob("*.jsonl")))


@pytest.fixture
def tiny() -> Path:
    """A season of four games that can be added up by hand, and a file that cannot be read."""
    return HERE / "data"
