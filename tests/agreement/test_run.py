"""The command that runs many games writes down what came of them, disagreements first of all."""

from __future__ import annotations

from pathlib import Path

import pytest

from rinkfold.timeline.fold import slots

from .run import main


def row(text: str, name: str) -> str:
    """The rest of the line that begins with `name`."""
    return next(line for line in text.splitlines() if line.strip().startswith(name)).strip()[len(name) :].strip()


def test_agreement_is_written_down(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Games, events and how often each rule fired; the status is 0."""
    result = tmp_path / "result.txt"
    assert main(["--games", "3", "--seed", "7", "--result", str(result)]) == 0
    text = result.read_text(encoding="utf-8")
    assert text == capsys.readouterr().out
    assert row(text, "games") == "3"
    assert row(text, "seed") == "7 (game i has the seed 7 + i)"
    assert row(text, "disagreements") == "0"
    assert int(row(text, "events")) > 30
    assert int(row(text, "return: on expiry")) > 0


def test_disagreement_is_written_down(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The seeds, and the first games shrunk; the status is 1."""
    monkeypatch.setattr(slots, "SLOTS", 3)
    result = tmp_path / "result.txt"
    assert main(["--games", "6", "--seed", "0", "--result", str(result)]) == 1
    text = result.read_text(encoding="utf-8")
    seeds = row(text, "seeds that disagree:").strip("[]").split(", ")
    assert len(seeds) == int(row(text, "disagreements")) > 0
    assert f"\nseed {seeds[0]}\nknobs {{" in text
