"""Disks that are full, files that are not to be written, clocks that jump: a clear refusal, and the file as it was."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import BinaryIO

import pytest
from attrs import evolve
from strategies import header
from torture.games import files, refusal, remark, short_game, started, texts

from rinkfold.timeline.events import Event
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, create, log_bytes, parse_log, read_log, writer

TORN = b'{"seq": 7, "kind": "rem'


class Small:
    """A file on a disk with room for so many bytes; then it is full, and says so or takes a part only."""

    def __init__(self, file: BinaryIO, room: int, says: bool) -> None:
        self.file = file
        self.room = room
        self.says = says

    def __enter__(self) -> Small:
        return self

    def __exit__(self, *_: object) -> None:
        self.file.close()

    def write(self, data: bytes) -> int:
        taken = self.file.write(data[: self.room])
        if self.says and taken < len(data):
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return taken

    def __getattr__(self, name: str) -> object:
        return getattr(self.file, name)


@pytest.mark.parametrize("says", [True, False])
def test_a_disk_that_fills_up_within_a_line(path: Path, says: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """After however many bytes: the append is refused, and not one of them stays."""
    before = path.read_bytes()
    entry = [remark("x"), remark("y")]
    append(path, entry)
    length = path.stat().st_size - len(before)
    opened = writer._open_log
    path.write_bytes(before)
    for room in range(length):
        with monkeypatch.context() as patch:
            patch.setattr(writer, "_open_log", lambda real, room=room: Small(opened(real), room, says))
            assert refusal(lambda: append(path, entry)) == ["disk_full"]
        assert path.read_bytes() == before
    append(path, entry)
    assert path.stat().st_size == len(before) + length


@pytest.mark.parametrize("says", [True, False])
def test_a_disk_that_fills_up_within_the_torn_bytes(path: Path, says: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """They stay where they are until they are safe elsewhere, and no half of a copy is left behind."""
    path.write_bytes(path.read_bytes() + TORN)
    before = files(path.parent)
    for room in range(len(TORN)):
        with monkeypatch.context() as patch:
            patch.setattr(writer, "open", _opens_small(room, says), raising=False)
            assert refusal(lambda: append(path, [remark()])) == ["disk_full"]
        assert files(path.parent) == before
    append(path, [remark()])
    assert Path(f"{path}.torn-1").read_bytes() == TORN


def _opens_small(room: int, says: bool) -> Callable[..., object]:
    def small(name: Path, mode: str, **how: object) -> object:
        file = open(name, mode, **how)  # type: ignore[call-overload]  # noqa: SIM115  # the writer closes it
        return Small(file, room, says) if "x" in mode else file

    return small


def test_a_new_game_on_a_disk_that_fills_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No half of a header is left behind, so that the name can be used again."""
    for room in (0, 1, 40):
        with monkeypatch.context() as patch:
            patch.setattr(writer, "open", _opens_small(room, True), raising=False)
            assert refusal(lambda: create(tmp_path / "game.jsonl", header())) == ["disk_full"]
        assert files(tmp_path) == {}
    create(tmp_path / "game.jsonl", header())


def test_a_disk_that_dies_while_it_is_written_to(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where not even the half line can be taken back, it is a torn tail, and the next append sets it aside."""
    before = path.read_bytes()
    opened = writer._open_log

    class Dying(Small):
        def truncate(self, _: int) -> int:
            raise OSError(errno.EIO, os.strerror(errno.EIO))

    with monkeypatch.context() as patch:
        patch.setattr(writer, "_open_log", lambda real: Dying(opened(real), 30, True))
        assert refusal(lambda: append(path, [remark()])) == ["disk_full"]
    assert path.read_bytes()[:-30] == before
    assert [note.code for note in read_log(path).notes] == ["torn_tail"]
    append(path, [remark()])
    assert texts(path)[-1:] == ["x"]


def test_what_another_program_wrote_is_not_taken_back(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An append that fails cuts off its own bytes only."""
    before = path.read_bytes()

    def fails_late(_: int) -> None:
        with path.open("ab") as other:
            other.write(b"by a program that takes no lock\n")
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    monkeypatch.setattr(os, "fsync", fails_late)
    assert refusal(lambda: append(path, [remark()])) == ["file_trouble"]
    assert path.read_bytes().startswith(before)
    assert path.read_bytes().endswith(b"by a program that takes no lock\n")


def test_a_folder_that_vanished(path: Path) -> None:
    """The drive was taken out between two entries: it is missed and not made anew, and goes on when it is back."""
    before = files(path.parent)
    away = path.parent.with_name("away")
    path.parent.rename(away)
    for act in (lambda: append(path, [remark()]), lambda: read_log(path), lambda: create(path, header())):
        assert refusal(act) == ["no_file"]
    assert not path.parent.exists()
    assert files(away) == before
    away.rename(path.parent)
    append(path, [remark()])


def test_a_path_that_is_a_folder(path: Path) -> None:
    """It is no log, and nothing in it is touched."""
    before = files(path.parent)
    assert refusal(lambda: read_log(path.parent)) == ["no_file"]
    assert refusal(lambda: append(path.parent, [remark()])) == ["no_file"]
    assert refusal(lambda: create(path.parent, header())) == ["file_exists"]
    assert refusal(lambda: append(path / "game.jsonl", [remark()])) != []
    assert files(path.parent) == before


def test_a_clock_that_jumped_back(path: Path) -> None:
    """`recorded_at` may go backwards: the order of writing is that of seq and of the chain."""
    times = ["2026-01-10T18:30:05Z", "2026-01-10T18:30:04.999Z", "1970-01-01T00:00:00Z", "2099-12-31T23:59:59Z"]
    for time in times:
        append(path, [evolve(remark(time), recorded_at=time)])
    log = read_log(path)
    assert [event.recorded_at for event in log.events[-4:]] == times
    assert all(note.severity == "note" for note in log.notes)


def test_a_lock_that_another_program_holds(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever waits too long is told so; when the other lets go, or is killed, the entry is taken."""
    monkeypatch.setattr(writer, "LOCK_SECONDS", 0.2)
    before = path.read_bytes()
    for end in ("lets go", "is killed"):
        with started("holding", path) as holder:
            assert holder.stdout is not None
            assert holder.stdout.readline() == "held\n"
            assert refusal(partial(append, path, [remark(end)])) == ["log_busy"]
            assert path.read_bytes() == before
            assert len(read_log(path).events) == 6
            if end == "is killed":
                holder.kill()
            holder.communicate("let go\n" if end == "lets go" else None, timeout=30)
        append(path, [remark(end)])
        assert texts(path)[-1:] == [end]
        path.write_bytes(before)


def test_values_that_are_nested_without_end(path: Path) -> None:
    """They are refused on the way in and on the way out, and never end in a crash."""
    before = path.read_bytes()
    for levels in (65, 400, 900, 100_000):
        deep: object = []
        for _ in range(levels):
            deep = [deep]
        made = header(pinned={"deep": deep})
        assert refusal(partial(create, path.with_name("deep.jsonl"), made)) == ["not_json"]
        line = b'{"seq": 7, "kind": "amend", "target": 1, "reason": "x", "changes": {"pinned": {"x": %s}}}\n'
        data = log_bytes(short_game(), chained=False) + line % (b"[" * levels + b"]" * levels)
        assert "not_json" in refusal(partial(parse_log, data))
    assert files(path.parent) == {path.name: before}


def test_a_value_that_is_nested_as_deep_as_may_be(path: Path) -> None:
    """What is read can be written again."""
    deep: object = 1
    for _ in range(60):
        deep = [deep]
    events: list[Event] = [header(pinned={"deep": deep}), *short_game()[1:]]
    log = parse_log(log_bytes(events))
    assert log_bytes(log.events) == log_bytes(events)


def test_a_last_line_with_half_of_a_windows_line_end(path: Path) -> None:
    """A file that was cut between CR and LF is refused by reader and writer alike."""
    cut = path.read_bytes()[:-1] + b"\r"
    path.write_bytes(cut)
    assert refusal(partial(read_log, path)) == ["crlf"]
    assert refusal(partial(append, path, [remark()])) == ["crlf"]
    assert path.read_bytes() == cut


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        (
            b'{"seq": 2, "kind": "remark", "text": "x", "te\\nxt\\u001b[2J": 1}',
            r"2: te\nxt\x1b[2J: There is no such field",
        ),
        (b'{"seq": 2, "kind": "remark", "text": "x", "a\\r": 1, "a\\r": 1}', r"2: a\r: The key "),
        (b'{"seq": 2, "kind": "remark", "text": "x", "prev": "\\n"}', r'found "\n".'),
        (b'{"seq": 2, "kind": "timeout", "period": 1, "clock": "1:00", "team": "\xc2\x9b2J"}', r'found "\x9b2J".'),
    ],
)
def test_nothing_in_a_file_moves_the_cursor_of_a_terminal(line: bytes, shown: str) -> None:
    """A problem is one line, whatever the names and values in the file are."""
    with pytest.raises(ProblemsFound) as caught:
        parse_log(log_bytes([header()]) + line + b"\n")
    lines = str(caught.value).split("\n")
    assert len(lines) == len(caught.value.problems)
    assert all(text.isprintable() for text in lines)
    assert shown in str(caught.value)
