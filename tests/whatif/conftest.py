"""The program, games to suppose something of, and the texts that are expected."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from command_line.conftest import example, fresh, rinkfold, started

__all__ = ["example", "fresh", "rinkfold", "started"]


@pytest.fixture
def golden() -> Callable[[str], str]:
    """The text that is expected."""

    def read(name: str) -> str:
        return Path(__file__).with_name("golden").joinpath(f"{name}.txt").read_text(encoding="utf-8")

    return read
