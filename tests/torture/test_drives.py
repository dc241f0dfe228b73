"""Drives and permissions of the machine itself: really full, really not to be written."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import stat
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from strategies import header
from torture.games import files, refusal, remark, short_game, texts

from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, create, log_bytes, read_log

resource = pytest.importorskip("resource", reason="limits and permissions are set the POSIX way")

TORN = b'{"seq": 7, "kind": "rem'
NOBODY = 65534
"""The user of that name, on the systems that have one."""


@contextlib.contextmanager
def small_disk(folder: Path) -> Iterator[Path]:
    """A disk of 64 KiB: mounted where that is allowed, else a limit on the size of this program's files."""
    folder.mkdir()
    options = ["-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    mounted = shutil.which("mount") is not None and (
        subprocess.run(["mount", *options], capture_output=True, check=False).returncode == 0
    )
    limits, handler = resource.getrlimit(resource.RLIMIT_FSIZE), signal.getsignal(signal.SIGXFSZ)
    if not mounted:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (1 << 16, limits[1]))
    try:
        yield folder
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, handler)
        if mounted:
            subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.full
def test_a_disk_that_is_really_full(tmp_path: Path) -> None:
    """Appends go well until it is; then each is refused and changes nothing, and when there is room they go on."""
    with small_disk(tmp_path / "disk") as disk:
        path = disk / "game.jsonl"
        create(path, header())
        written = 0
        with contextlib.suppress(ProblemsFound):
            for written in range(200):
                append(path, [remark(f"{written} " + "x" * 1000)])
        full = files(disk)
        assert 30 < written < 70
        assert refusal(lambda: append(path, [remark("y" * 9000)])) == ["disk_full"]
        assert files(disk) == full
        assert len(read_log(path).events) == 1 + written
        path.write_bytes(full[path.name][: full[path.name].rindex(b"\n", 0, -5000) + 1])
        append(path, [remark("there is room again")])
        assert texts(path)[-1:] == ["there is room again"]


@pytest.mark.full
def test_torn_bytes_on_a_disk_that_is_really_full(tmp_path: Path) -> None:
    """They stay in the log, since there is no room to keep them beside it."""
    with small_disk(tmp_path / "disk") as disk:
        path = disk / "game.jsonl"
        whole = log_bytes(short_game())
        path.write_bytes(whole + b'{"seq": 7, "text": "' + b"x" * 60_000)
        before = files(disk)
        if shutil.disk_usage(disk).total == 1 << 16:
            assert refusal(lambda: append(path, [remark()])) == ["disk_full"]
            assert files(disk) == before
        assert len(read_log(path).events) == 6


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user of the machine reaches."""
    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o755)
        yield Path(name)


@contextlib.contextmanager
def somebody() -> Iterator[None]:
    """Be a user whom permissions bind, which root is not."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def owned(path: Path, mode: int) -> None:
    """Give `path` these permissions, and to the user whom they bind."""
    path.chmod(mode)
    if os.geteuid() == 0:
        os.chown(path, NOBODY, NOBODY)


def test_a_file_that_is_not_to_be_written(open_folder: Path) -> None:
    """It is read and not written, and the remedy is named."""
    path = open_folder / "game.jsonl"
    path.write_bytes(log_bytes(short_game()))
    owned(path, stat.S_IRUSR)
    owned(open_folder, 0o755)
    before = files(open_folder)
    with somebody():
        assert len(read_log(path).events) == 6
        assert refusal(lambda: append(path, [remark()])) == ["not_permitted"]
    assert files(open_folder) == before


def test_a_file_that_is_not_to_be_read(open_folder: Path) -> None:
    """It is neither read nor written."""
    path = open_folder / "game.jsonl"
    path.write_bytes(log_bytes(short_game()))
    owned(path, 0)
    owned(open_folder, 0o755)
    with somebody():
        assert refusal(lambda: read_log(path)) == ["not_permitted"]
        assert refusal(lambda: append(path, [remark()])) == ["not_permitted"]


@pytest.mark.parametrize("torn", [b"", TORN])
@pytest.mark.parametrize("locked_before", [True, False])
def test_a_folder_that_is_not_to_be_written(open_folder: Path, torn: bytes, locked_before: bool) -> None:
    """No lock can be made in it, and torn bytes cannot be kept in it: the log stays as it was."""
    path = open_folder / "game.jsonl"
    path.write_bytes(log_bytes(short_game()) + torn)
    owned(path, 0o644)
    if locked_before:
        Path(f"{path}.lock").touch()
        owned(Path(f"{path}.lock"), 0o644)
    owned(open_folder, 0o555)
    before = files(open_folder)
    with somebody():
        assert refusal(lambda: create(open_folder / "new.jsonl", header())) == ["not_permitted"]
        if locked_before and not torn:
            append(path, [remark("nothing new is needed")])
        else:
            assert refusal(lambda: append(path, [remark()])) == ["not_permitted"]
    if locked_before and not torn:
        assert texts(path)[-1:] == ["nothing new is needed"]
    else:
        assert files(open_folder) == before
