"""Answers that cannot be written: the exit code still says whether anything was entered."""

from __future__ import annotations

import sys
from collections.abc import Callable
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.commands import record as module
from rinkfold.cli.main import app
from rinkfold.timeline import read_log


class Full(StringIO):
    """A stream to a drive that is full."""

    def write(self, text: str) -> int:
        raise OSError(28, "No space left on device")


@pytest.fixture
def into_full(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str]]:
    """Run the program with its standard output on a full drive; exit code and what it says on standard error."""

    def run(*arguments: object) -> tuple[int, str]:
        capsys.readouterr()
        with monkeypatch.context() as patched:
            patched.setattr(sys, "stdout", Full())
            with pytest.raises(SystemExit) as end:
                app([str(argument) for argument in arguments])
        assert isinstance(end.value.code, int)
        return end.value.code, capsys.readouterr().err

    return run


FULL = "its answer could not be shown. The answer cannot be written: No space left on device.\n"


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_an_entry_that_was_written_is_not_told_as_refused(more: tuple[str, ...], into_full: Any, fresh: Path) -> None:
    """Exit code 2 would say that nothing was written, and a script would enter it twice."""
    assert into_full("record", fresh, "9:15 h goal 9", *more) == (1, f"#2 was written; {FULL}")
    assert len(read_log(fresh).events) == 2
    assert into_full("record", fresh, "9:00 h goal 9", "8:00 h goal 9", *more) == (1, f"#3 to #4 were written; {FULL}")


def test_a_dry_run_that_is_not_shown_wrote_nothing(into_full: Any, fresh: Path) -> None:
    """Exit code 2, as for every question whose answer cannot be written."""
    told = "The answer cannot be written: No space left on device.\n"
    assert into_full("record", fresh, "9:15 h goal 9", "--dry-run") == (2, told)
    assert into_full("summary", fresh) == (2, told)
    assert len(read_log(fresh).events) == 1


def test_a_fault_after_the_entry_was_written(rinkfold: Any, fresh: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is told with the entry's number: whatever fails in the answer, the entry is in the log."""
    monkeypatch.delenv("RINKFOLD_TRACEBACK", raising=False)
    monkeypatch.setattr(module, "_after", lambda *_, **__: 1 / 0)
    ran = rinkfold("record", fresh, "9:15 h goal 9")
    assert ran.code == 1
    assert ran.err.startswith("#2 was written; its answer could not be shown. A fault in rinkfold itself: ZeroDiv")


def test_nothing_can_be_said_at_all(into_full: Any, fresh: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With standard error on a full drive too the exit code says it alone."""
    monkeypatch.setattr(sys, "stderr", Full())
    assert into_full("record", fresh, "9:15 h goal 9")[0] == 1


def test_every_command_that_writes_a_file(into_full: Any, fresh: Path, example: Path, tmp_path: Path) -> None:
    """A file that was made is told to be there."""
    made = [tmp_path / name for name in ("new.jsonl", "table.csv", "page.html", "back.jsonl")]
    new, table, page, back = made
    runs: list[tuple[Path, list[object]]] = [
        (new, ["new", new, "--ruleset", "adult", "--home", "Elm", "--away", "Oak"]),
        (table, ["export", example, "events", "-o", table]),
        (page, ["report", example, "-o", page]),
        (back, ["import", table, "-o", back]),
    ]
    for target, arguments in runs:
        done = "was opened" if target is new else "was written"
        assert into_full(*arguments) == (1, f"{target} {done}; {FULL}")
        assert target.stat().st_size > 0
