"""The power is cut at every call that the writer makes, on a disk that forgets what was not synced."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from strategies import header
from torture.disk import KEEPS, Disk, PowerCut
from torture.games import remark, texts

from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, create, read_log, writer

TORN = b'{"seq": 3, "kind": "remark", "te'


def evening(path: Path, acknowledged: list[str]) -> None:
    """A game is opened and entered, with a crash's leavings in the middle; what is acknowledged is noted."""
    create(path, header())
    acknowledged.append("opened")
    append(path, [remark("one")])
    acknowledged.append("one")
    with path.open("ab") as file:
        file.write(TORN)
        file.flush()
        os.fsync(file.fileno())
    acknowledged.append("torn")
    append(path, [remark("two"), remark("three")])
    acknowledged += ["two", "three"]
    append(path, [remark("four")])
    acknowledged.append("four")


def run(folder: Path, last: int | None) -> tuple[Disk, list[str]]:
    """The evening up to the call number `last`, and what was acknowledged by then."""
    acknowledged: list[str] = []
    with pytest.MonkeyPatch.context() as patch:
        disk = Disk(folder, patch, last)
        try:
            evening(folder / "game.jsonl", acknowledged)
        except PowerCut:
            assert last is not None
    return disk, acknowledged


def kept(folder: Path) -> bytes:
    """Every byte in the folder, to look for the torn ones."""
    return b"".join(file.read_bytes() for file in folder.iterdir())


def check(path: Path, acknowledged: list[str]) -> None:
    """Everything acknowledged is there, at most one entry more, and the log goes on; torn bytes are not deleted."""
    if "opened" not in acknowledged:
        return
    there = texts(path)
    expected = [text for text in acknowledged if text not in ("opened", "torn")]
    assert "torn" not in acknowledged or TORN in kept(path.parent)
    assert there[: len(expected)] == expected
    assert len(there) <= len(expected) + 2  # the entry that was under way holds two events at the most
    append(path, [remark("after")])
    assert texts(path) == [*there, "after"]
    assert read_log(path).notes == ()
    assert "torn" not in acknowledged or TORN in kept(path.parent)


CALLS = 20


def test_the_evening_without_a_power_cut(tmp_path: Path) -> None:
    """Each entry is written, then synced, then acknowledged; a new file's name is synced too."""
    disk, acknowledged = run(tmp_path, None)
    log, aside = "game.jsonl", "game.jsonl.torn-1"
    opened = [f"open {log}", f"write {log}", f"sync {log}", "sync folder"]
    entry = [f"open {log}", f"write {log}", f"sync {log}"]
    set_aside = [f"open {log}", f"open {aside}", f"write {aside}", f"sync {aside}", "sync folder", f"truncate {log}"]
    assert disk.calls == [*opened, *entry, entry[-1], *set_aside, *entry[1:], *entry]
    assert len(disk.calls) + 1 == CALLS
    assert acknowledged == ["opened", "one", "torn", "two", "three", "four"]


def test_nothing_is_acknowledged_before_it_is_on_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When an append returns, no file of the folder would lose anything."""
    disk, path = Disk(tmp_path, monkeypatch), tmp_path / "game.jsonl"
    create(path, header())
    assert disk.not_certain() == set()
    for number in range(5):
        if number == 3:
            path.write_bytes(path.read_bytes() + TORN)
        append(path, [remark(str(number))])
        assert disk.not_certain() == set()


@pytest.mark.parametrize("keep", KEEPS)
@pytest.mark.parametrize("last", range(1, CALLS + 1))
def test_a_power_cut_loses_nothing_acknowledged(last: int, keep: str, tmp_path: Path) -> None:
    """Whatever the disk keeps of what was not synced."""
    for seed in range(4):
        folder = tmp_path / str(seed)
        folder.mkdir()
        disk, acknowledged = run(folder, last)
        disk.start_again(KEEPS[keep], random.Random(seed))
        check(folder / "game.jsonl", acknowledged)


@pytest.mark.parametrize("forgotten", ["log", "folder"])
def test_a_writer_that_forgets_to_sync_is_found_out(
    forgotten: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk really forgets: the same evening is lost where the log, or its name, is not synced."""
    if forgotten == "log":
        monkeypatch.setattr(writer, "_write", lambda file, data: file.write(data))
    else:
        monkeypatch.setattr(writer, "sync_folder", lambda _: None)
    disk, acknowledged = run(tmp_path, None)
    disk.start_again(KEEPS["only_synced"], random.Random(0))
    with pytest.raises((ProblemsFound, AssertionError, FileNotFoundError)):
        check(tmp_path / "game.jsonl", acknowledged)
