"""`rinkfold demo`: the example game, wherever the program is installed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest


def test_the_demo(rinkfold: Any, golden: Any) -> None:
    """Three boxes with why they are worth a look, every release, the summary."""
    ran = rinkfold("demo")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == golden("demo")


def test_from_any_folder(rinkfold: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The example is found by the package and not by the folder one is in."""
    monkeypatch.chdir(tmp_path)
    assert rinkfold("demo").code == 0
