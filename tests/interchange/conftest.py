"""The program run in this process, and the example game."""

from __future__ import annotations

import json
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
