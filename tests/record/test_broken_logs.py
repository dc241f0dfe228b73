"""Broken logs, each with the exact text that people see."""

from __future__ import annotations

from pathlib import Path

import pytest

from rinkfold.timeline.events import Remark
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, parse_log

FOLDER = Path(__file__).resolve().parents[1] / "data" / "broken_logs"
BROKEN = sorted(FOLDER.glob("*.jsonl"))


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_each_broken_log_is_refused_with_its_text(path: Path) -> None:
    """Every problem of the file is told at once, with its place, what was found and expected, and the remedy."""
    with pytest.raises(ProblemsFound) as caught:
        parse_log(path.read_bytes(), path.name)
    assert f"{caught.value}\n" == path.with_suffix(".expected").read_text(encoding="utf-8")
    assert all(problem.file == path.name and problem.line for problem in caught.value.problems)


def test_each_expected_text_belongs_to_a_log() -> None:
    """No expectation stands there unread."""
    assert len(BROKEN) >= 25
    assert {path.stem for path in FOLDER.glob("*.expected")} == {path.stem for path in BROKEN}


@pytest.mark.parametrize("name", ["empty_file", "crlf", "only_a_torn_header", "no_header", "newer_format", "utf16"])
def test_nothing_is_appended_to_what_is_no_log(name: str, tmp_path: Path) -> None:
    """An append leaves such a file as it was."""
    path = tmp_path / "game.jsonl"
    broken = (FOLDER / f"{name}.jsonl").read_bytes()
    path.write_bytes(broken)
    with pytest.raises(ProblemsFound):
        append(path, [Remark(seq=0, text="x")])
    assert path.read_bytes() == broken
