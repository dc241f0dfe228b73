"""The program run in this process, and the files that its tests need."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import frozen

from rinkfold.cli.main import app

ROOT = Path(__file__).resolve().parents[2]


@frozen
class Ran:
    """How a run of the program ended, and what it wrote."""

    code: int
    out: str
    err: str

    @property
    def answer(self) -> Any:
        """What it answered as JSON."""
        return json.loads(self.out)


@pytest.fixture
def rinkfold(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """Run the program with these arguments."""

    def run(*arguments: object) -> Ran:
        capsys.readouterr()
        with pytest.raises(SystemExit) as end:
            app([str(argument) for argument in arguments])
        assert isinstance(end.value.code, int)
        return Ran(end.value.code, *capsys.readouterr())

    return run


@pytest.fixture
def example() -> Path:
    """The example game."""
    return ROOT / "examples" / "game.jsonl"


@pytest.fixture
def started(tmp_path: Path, example: Path) -> Path:
    """The example game up to the faceoff at 11:22 of the second period, as a file that may be written to."""
    path = tmp_path / "started.jsonl"
    path.write_bytes(b"".join(example.read_bytes().splitlines(keepends=True)[:120]))
    return path


@pytest.fixture
def fresh(tmp_path: Path, rinkfold: Callable[..., Ran]) -> Path:
    """A game that was just opened."""
    path = tmp_path / "fresh.jsonl"
    arguments = ("--ruleset", "youth-14u", "--home", "Elm Owls", "--away", "Oak Otters", "--date", "2026-01-10")
    assert rinkfold("new", path, *arguments).code == 0
    return path


@pytest.fixture
def golden() -> Callable[[str], str]:
    """The text that is expected."""

    def read(name: str) -> str:
        return Path(__file__).with_name("golden").joinpath(f"{name}.txt").read_text(encoding="utf-8")

    return read


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
