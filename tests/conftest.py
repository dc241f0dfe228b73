"""What holds for every test."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import frozen
from hypothesis import HealthCheck, settings

# Whether the tests pass depends on the code alone, not on luck and not on how busy the machine is. To search further,
# set RINKFOLD_SEARCH: other examples are then tried at each run.
settings.register_profile(
    "the same each time", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("search", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("search" if os.environ.get("RINKFOLD_SEARCH") else "the same each time")


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

    from rinkfold.cli.main import app

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
    return Path(__file__).resolve().parents[1] / "examples" / "game.jsonl"


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str], str]:
    """The text that is expected: a file in the folder `golden` beside the test."""

    def read(name: str) -> str:
        return request.path.with_name("golden").joinpath(f"{name}.txt").read_text(encoding="utf-8")

    return read
