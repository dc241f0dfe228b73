"""Files that commands write: whole or not at all, whatever happens while they are written."""

from __future__ import annotations

import builtins
import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.files import replace_file
from rinkfold.timeline import ProblemsFound

KEPT = "what somebody wants to keep"
Writes = tuple[Path, Callable[[], Any]]


@pytest.fixture(params=["export", "report", "season"])
def writes(request: pytest.FixtureRequest, rinkfold: Any, example: Path, tmp_path: Path) -> Writes:
    """A file that is there, and the command that would put another in its place."""
    folder = tmp_path / "out"
    folder.mkdir()
    games = tmp_path / "games"
    games.mkdir()
    (games / "game.jsonl").write_bytes(example.read_bytes())
    target, arguments = {
        "export": (folder / "goals.csv", ["export", example, "goals", "-o", folder / "goals.csv", "--force"]),
        "report": (folder / "game.html", ["report", example, "-o", folder / "game.html", "--force"]),
        "season": (folder / "results.csv", ["season", games, "--csv", folder]),
    }[request.param]
    target.write_text(KEPT, encoding="utf-8")
    return target, lambda: rinkfold(*arguments)


def half_written(monkeypatch: pytest.MonkeyPatch, folder: Path, error: BaseException) -> None:
    """Let everything that is written below `folder` break off with `error` when half of it is there."""
    opened = builtins.open

    def breaks_off(file: Any, mode: str = "r", *rest: Any, **named: Any) -> Any:
        stream = opened(file, mode, *rest, **named)
        if isinstance(file, str | Path) and Path(file).parent == folder and mode[0] in "wx":
            write = stream.write

            def half(data: Any) -> int:
                write(data[: len(data) // 2])
                raise error

            return _Half(stream, half)
        return stream

    monkeypatch.setattr(builtins, "open", breaks_off)
    monkeypatch.setattr("io.open", breaks_off)  # what `Path.write_bytes` calls


class _Half:
    """A file that `half` writes to."""

    def __init__(self, stream: Any, half: Callable[[Any], int]) -> None:
        self.stream = stream
        self.write = half

    def __enter__(self) -> _Half:
        return self

    def __exit__(self, *_: object) -> None:
        self.stream.close()

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


def test_a_drive_that_is_full_leaves_what_was_there(writes: Writes, monkeypatch: pytest.MonkeyPatch) -> None:
    """The file is as it was, nothing lies beside it, and the reason is told."""
    target, run = writes
    half_written(monkeypatch, target.parent, OSError(errno.ENOSPC, "No space left on device"))
    ran = run()
    monkeypatch.undo()
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"{target}: The file cannot be written: the disk is full.")
    assert target.read_text(encoding="utf-8") == KEPT
    assert [path.name for path in target.parent.iterdir()] == [target.name]


def test_an_interrupt_leaves_what_was_there(writes: Writes, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C in the middle of it: the file is as it was."""
    target, run = writes
    half_written(monkeypatch, target.parent, KeyboardInterrupt())
    assert run().code == 130
    monkeypatch.undo()
    assert target.read_text(encoding="utf-8") == KEPT
    assert [path.name for path in target.parent.iterdir()] == [target.name]


def test_it_is_on_the_disk_before_it_takes_the_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Written, synced, and only then renamed: a power cut leaves the old file or the new one."""
    done: list[str] = []
    synced, replaced = os.fsync, os.replace

    def sync(number: int) -> None:
        done.append("sync")
        synced(number)

    def replace(one: Path, two: Path) -> None:
        done.append("replace")
        replaced(one, two)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(os, "replace", replace)
    replace_file(tmp_path / "x.csv", b"new")
    assert done == ["sync", "replace"]
    assert (tmp_path / "x.csv").read_bytes() == b"new"


def test_a_file_that_cannot_take_the_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As where another program holds it open on Windows: it is told, and nothing is left beside it."""

    def held(one: object, two: object) -> None:
        raise PermissionError(errno.EACCES, "in use")

    monkeypatch.setattr(os, "replace", held)
    (tmp_path / "x.csv").write_text(KEPT)
    with pytest.raises(ProblemsFound, match="permission is denied"):
        replace_file(tmp_path / "x.csv", b"new")
    assert [path.name for path in tmp_path.iterdir()] == ["x.csv"]
    assert (tmp_path / "x.csv").read_text() == KEPT


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs a system that has pipes in folders")
def test_a_device_is_never_replaced(rinkfold: Any, example: Path, tmp_path: Path) -> None:
    """Nor is a pipe, not even with --force."""
    pipe = tmp_path / "pipe.html"
    os.mkfifo(pipe)
    for arguments in (["export", example, "goals"], ["report", example]):
        ran = rinkfold(*arguments, "-o", pipe, "--force")
        assert (ran.code, ran.out) == (2, "")
        assert "is a pipe or a device." in ran.err
    assert pipe.is_fifo()
