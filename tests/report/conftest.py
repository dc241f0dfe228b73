"""Pages made by the program itself, and logs made for them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
Run = Callable[..., tuple[int, str]]
Write = Callable[..., Path]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the program: its exit code and all it wrote."""

    def run(*arguments: object) -> tuple[int, str]:
        with pytest.raises(SystemExit) as end:
            app([str(argument) for argument in arguments])
        assert isinstance(end.value.code, int)
        captured = capsys.readouterr()
        return end.value.code, captured.out + captured.err

    return run


@pytest.fixture
def example() -> Path:
    return ROOT / "examples" / "game.jsonl"


@pytest.fixture
def made(tmp_path: Path, run: Run) -> Callable[..., str]:
    """The page of a log, as text."""

    def make(game: Path, *options: str) -> str:
        target = tmp_path / "made.html"
        code, said = run("report", game, "-o", target, "--force", *options)
        assert code == 0, said
        return target.read_text(encoding="utf-8")

    return make


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """A log of a game with these events; `header` overrides what the first line says."""

    def write(*events: dict[str, Any], **header: Any) -> Path:
        opened = {
            "kind": "game_opened",
            "format": 1,
            "game": "g",
            "ruleset": "youth-14u",
            "home": {"name": "Elm Owls"},
            "away": {"name": "Oak Otters"},
            **header,
        }
        lines = [{"seq": seq, **event} for seq, event in enumerate((opened, *events), 1)]
        path = tmp_path / "written.jsonl"
        path.write_text("".join(json.dumps(line) + "\n" for line in lines), encoding="utf-8")
        return path

    return write
