"""Appending: what it leaves on the disk when it goes well, when it fails, and when two do it at once."""

from __future__ import annotations

import errno
import os
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, BinaryIO

import pytest
from filelock import FileLock
from strategies import header

from rinkfold.timeline.events import Amend, Event, Faceoff, GameClosed, Goal, Remark, Void
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, create, line_hash, log_bytes, parse_log, read_log, writer
from rinkfold.timeline.record.tail import read_tail

FACEOFF = Faceoff(seq=0, period=1, clock="12:00")
GOAL = Goal(seq=0, period=1, clock="8:50", team="away", scorer="17")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A chained log of a header and a faceoff."""
    made = tmp_path / "game.jsonl"
    create(made, header())
    append(made, [FACEOFF])
    return made


def refusal(act: Callable[[], object]) -> list[str]:
    with pytest.raises(ProblemsFound) as caught:
        act()
    return [problem.code for problem in caught.value.problems]


def remark(text: str = "x") -> Remark:
    return Remark(seq=0, text=text)


class Recorded:
    """A file that writes down what is done with it, and fails where it is told to."""

    def __init__(self, file: BinaryIO, calls: list[str], fails: Callable[[bytes], int] = len) -> None:
        self.file = file
        self.calls = calls
        self.fails = fails

    def __enter__(self) -> Recorded:
        return self

    def __exit__(self, *_: object) -> None:
        self.calls.append("close")
        self.file.close()

    def write(self, data: bytes) -> int:
        self.calls.append(f"write {len(data)}")
        whole = self.fails(data)
        return self.file.write(data[:whole])

    def __getattr__(self, name: str) -> Any:
        return getattr(self.file, name)


def recorded(monkeypatch: pytest.MonkeyPatch, fails: Callable[[bytes], int] = len) -> list[str]:
    """Have each call on the log's file, the lock and fsync written down."""
    calls: list[str] = []
    opened, synced, locked, released = writer._open_log, os.fsync, FileLock.acquire, FileLock.release

    def acquire(lock: FileLock) -> Any:
        calls.append("lock")
        return locked(lock)

    def release(lock: FileLock, force: bool = False) -> None:
        if lock.is_locked:  # the lock lets go once more when it is forgotten
            calls.append("unlock")
        released(lock, force)

    def fsync(number: int) -> None:
        calls.append("fsync")
        synced(number)

    monkeypatch.setattr(writer, "_open_log", lambda real: Recorded(opened(real), calls, fails))
    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr(FileLock, "acquire", acquire)
    monkeypatch.setattr(FileLock, "release", release)
    return calls


def test_a_new_log_holds_its_header(tmp_path: Path) -> None:
    """The header is numbered 1 and begins the chain, whatever it was given."""
    made = create(tmp_path / "game.jsonl", header(seq=7, prev="x"))
    assert (made.seq, made.prev) == (1, "")
    assert read_log(tmp_path / "game.jsonl").events == (made,)


def test_a_game_is_never_opened_over_another(path: Path) -> None:
    """Creating refuses a file that is there and leaves it alone."""
    before = path.read_bytes()
    assert refusal(lambda: create(path, header())) == ["file_exists"]
    assert path.read_bytes() == before


def test_a_header_that_is_not_right_leaves_no_file(tmp_path: Path) -> None:
    """Nothing is written before everything is checked."""
    path = tmp_path / "game.jsonl"
    assert refusal(lambda: create(path, header(format=2))) == ["unknown_format"]
    assert refusal(lambda: create(path, header(game=3, recorded_at="today"))) == ["bad_time", "wrong_type"]
    assert list(tmp_path.iterdir()) == []


def test_a_log_begins_with_the_event_that_opens_the_game(tmp_path: Path) -> None:
    """Anything else is refused, and leaves no file."""
    with pytest.raises(ProblemsFound) as caught:
        create(tmp_path / "game.jsonl", FACEOFF)
    assert [problem.code for problem in caught.value.problems] == ["not_opened"]
    assert list(tmp_path.iterdir()) == []


def test_a_new_log_that_cannot_be_written_is_not_left_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk leaves no half of a header."""

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(os, "fsync", full)
    assert refusal(lambda: create(tmp_path / "game.jsonl", header())) == ["disk_full"]
    assert not (tmp_path / "game.jsonl").exists()


def test_events_get_their_numbers_and_the_chain(path: Path) -> None:
    """What comes back is what reading the log gives."""
    before = path.read_bytes()
    made = append(path, [GOAL, remark()])
    assert [event.seq for event in made] == [3, 4]
    assert made[0].prev == line_hash(before.splitlines()[-1])
    assert read_log(path).events[2:] == made
    assert path.read_bytes().startswith(before)


def test_an_unchained_log_stays_unchained(path: Path) -> None:
    """A log carries the chain in every line or in none."""
    path.write_bytes(log_bytes([header(), FACEOFF], chained=False))
    (made,) = append(path, [GOAL])
    assert made.prev is None
    assert not read_log(path).chained


def test_appending_nothing_changes_nothing(path: Path) -> None:
    """No events, no line."""
    before = path.read_bytes()
    assert append(path, []) == ()
    assert path.read_bytes() == before


def test_the_order_of_an_append(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Lock, one write, fsync, release; only then it is acknowledged."""
    calls = recorded(monkeypatch)
    size = path.stat().st_size
    append(path, [GOAL, remark()])
    calls.append("acknowledged")
    written = path.stat().st_size - size
    assert calls == ["lock", f"write {written}", "fsync", "close", "unlock", "acknowledged"]


def test_all_or_nothing(path: Path) -> None:
    """One wrong event among several: every problem is told and none is written."""
    before = path.read_bytes()
    wrong = Goal(seq=0, period=0, clock="8:50", team="home")
    assert refusal(lambda: append(path, [GOAL, wrong, Faceoff(seq=0), remark()])) == [
        "too_small",
        "missing_field",
        "missing_field",
    ]
    assert path.read_bytes() == before


def test_the_problem_of_an_entry_names_file_event_and_field(path: Path) -> None:
    """The text that somebody at the table reads."""
    with pytest.raises(ProblemsFound) as caught:
        append(path, [Goal(seq=0, period=1, clock="8.50", team="home")])
    assert str(caught.value) == (
        f'{path}: event 3: clock: Expected a reading as on the board, for example 7:42, 12:00 or 0:45.3, found "8.50".'
    )


@pytest.mark.parametrize(
    ("event", "code"),
    [
        (Void(seq=0, target=9, reason="x"), "no_target"),
        (Void(seq=0, target=3, reason="x"), "later_target"),
        (Void(seq=0, target=1, reason="x"), "header_void"),
        (Goal(seq=0, period=1, clock="8:50", team="home", after=4), "no_target"),
        (Amend(seq=0, target=2, changes={"team": "home"}, reason="x"), "unknown_field"),
        (Amend(seq=0, target=2, changes={}, reason="x"), "no_changes"),
        (header(), "opened_again"),
    ],
)
def test_what_the_reader_would_refuse_is_not_written(path: Path, event: Event, code: str) -> None:
    """The door is the same on the way in."""
    before = path.read_bytes()
    assert refusal(lambda: append(path, [event])) == [code]
    assert path.read_bytes() == before


@pytest.mark.parametrize("between", [[], [remark()], [Amend(seq=0, target=2, changes={"note": "x"}, reason="x")]])
def test_nothing_follows_the_closing(path: Path, between: list[Event]) -> None:
    """A goal is refused after the closing, whatever was added since, and taken when the closing is voided."""
    append(path, [GameClosed(seq=0, outcome="played"), *between])
    assert refusal(lambda: append(path, [GOAL])) == ["after_closing"]
    append(path, [Void(seq=0, target=3, reason="one more goal")])
    append(path, [GOAL])
    assert isinstance(read_log(path).events[-1], Goal)


def test_a_batch_closes_and_goes_on(path: Path) -> None:
    """The events of one append are checked against each other too."""
    assert refusal(lambda: append(path, [GameClosed(seq=0, outcome="played"), GOAL])) == ["after_closing"]


def test_the_caller_may_have_the_log(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With `known` a correction is checked without reading the file again; a stale `known` is not trusted."""
    events = read_log(path).events
    amendment = Amend(seq=0, target=2, changes={"clock": "11:59"}, reason="x")
    stale = events[:1]
    append(path, [amendment], known=stale)
    monkeypatch.setattr(writer, "parse_log", None)
    append(path, [amendment], known=[*events, Amend(seq=3, target=2, changes={"clock": "11:59"}, reason="x")])
    assert len(read_log(path).events) == 4


def test_a_log_that_has_grown_is_refused(path: Path) -> None:
    """Whoever decided on the log as it was must look again."""
    log = read_log(path)
    append(path, [remark()], expected_seq=2, expected_head=log.head)
    assert refusal(lambda: append(path, [GOAL], expected_seq=2)) == ["log_has_grown"]
    assert refusal(lambda: append(path, [GOAL], expected_head=log.head)) == ["log_has_grown"]
    append(path, [GOAL], expected_seq=3, expected_head=read_log(path).head)


def test_a_missing_newline_is_written_first(path: Path) -> None:
    """A last line that is whole counts, with its newline or without."""
    path.write_bytes(path.read_bytes()[:-1])
    (made,) = append(path, [GOAL])
    assert made.seq == 3
    assert read_log(path).notes == ()
    assert list(path.parent.glob("*.torn-*")) == []


@pytest.mark.parametrize(
    ("last", "code"),
    [
        (b'{"seq": 3, "kind": "gaol"}', "unknown_kind"),
        (b'{"seq": 3, "kind": "gaol"}\n', "unknown_kind"),
        (b'{"seq": 3\n', "not_json"),
        (b"\n", "not_json"),
        (b'{"seq": 3, "kind": "remark", "text": "\xff"}\n', "not_utf8"),
        (b'{"seq": 3, "kind": "remark", "text": "x"}\r\n', "crlf"),
    ],
)
def test_nothing_follows_a_last_line_that_is_no_event(path: Path, last: bytes, code: str) -> None:
    """A line that has its newline or is whole was not left by a crash: it is never repaired silently."""
    before = path.read_bytes() + last
    path.write_bytes(before)
    assert refusal(lambda: append(path, [GOAL])) == [code]
    assert path.read_bytes() == before


def test_torn_bytes_are_moved_beside_the_log(path: Path) -> None:
    """They are never deleted, and an earlier file of torn bytes is never written over."""
    for number, torn in enumerate([b'{"seq": 3, "kind": "go', b"\x00\x00\xff"], 1):
        whole = path.read_bytes()
        path.write_bytes(whole + torn)
        append(path, [remark(str(number))])
        assert Path(f"{path}.torn-{number}").read_bytes() == torn
        assert path.read_bytes().startswith(whole)
    assert [event.seq for event in read_log(path).events] == [1, 2, 3, 4]


def test_a_refused_entry_leaves_the_torn_tail(path: Path) -> None:
    """Nothing is moved before the entry is found to be right."""
    path.write_bytes(path.read_bytes() + b'{"seq"')
    before = path.read_bytes()
    assert refusal(lambda: append(path, [Faceoff(seq=0)])) == ["missing_field", "missing_field"]
    assert path.read_bytes() == before
    assert list(path.parent.glob("*.torn-*")) == []


def test_a_write_that_stops_half_way_is_taken_back(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that fills up in the middle of a line leaves the log as it was."""
    before = path.read_bytes()
    recorded(monkeypatch, fails=lambda data: len(data) // 2)
    assert refusal(lambda: append(path, [GOAL])) == ["disk_full"]
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("number", "code"),
    [(errno.ENOSPC, "disk_full"), (errno.EROFS, "not_permitted"), (errno.EIO, "file_trouble")],
)
def test_an_append_that_did_not_reach_the_disk_is_taken_back(
    path: Path, monkeypatch: pytest.MonkeyPatch, number: int, code: str
) -> None:
    """What fsync does not confirm is not acknowledged, and is not left in the log."""
    before = path.read_bytes()

    def fails(_: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", fails)
    assert refusal(lambda: append(path, [GOAL])) == [code]
    assert path.read_bytes() == before


def test_an_interrupted_append_is_taken_back(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C between write and fsync leaves the log as it was, and the lock free."""
    before = path.read_bytes()

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", interrupted)
        with pytest.raises(KeyboardInterrupt):
            append(path, [GOAL])
    assert path.read_bytes() == before
    append(path, [GOAL])


def test_a_log_that_may_not_be_written(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The remedy is named, and there is no traceback."""

    def denied(_: Path) -> BinaryIO:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(writer, "_open_log", denied)
    with pytest.raises(ProblemsFound) as caught:
        append(path, [GOAL])
    assert str(caught.value) == (
        f"{path}: The file cannot be written: permission is denied. "
        "Allow reading and writing it and its folder, or work on a copy."
    )


def test_a_folder_that_vanished_is_not_made_anew(path: Path) -> None:
    """A drive that was taken out is missed, not replaced by a folder of the same name."""
    gone = path.parent / "usb" / "game.jsonl"
    assert refusal(lambda: append(gone, [GOAL])) == ["no_file"]
    assert refusal(lambda: create(gone, header())) == ["no_file"]
    assert not gone.parent.exists()


def test_a_log_that_is_not_there_is_not_made(tmp_path: Path) -> None:
    """Appending to a wrong name does not begin a new log."""
    assert refusal(lambda: append(tmp_path / "gmae.jsonl", [GOAL])) == ["no_file"]
    assert list(tmp_path.iterdir()) == []


def test_a_log_that_is_being_written_is_waited_for(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever waits too long is told that another program holds the log."""
    monkeypatch.setattr(writer, "LOCK_SECONDS", 0.05)
    with FileLock(f"{path}.lock"):
        assert refusal(lambda: append(path, [GOAL])) == ["log_busy"]
    append(path, [GOAL])


def test_a_program_that_takes_no_lock_is_noticed(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What another program wrote in between is neither written over nor cut off."""

    def meanwhile(data: bytes) -> int:
        with path.open("ab") as other:
            other.write(b"by another\n")
        return len(data)

    recorded(monkeypatch, fails=meanwhile)
    assert refusal(lambda: append(path, [GOAL])) == ["written_by_others"]
    assert b"by another\n" in path.read_bytes()


def test_two_names_of_one_log_share_its_lock(path: Path, tmp_path: Path) -> None:
    """A link to the log locks the log."""
    link = tmp_path / "link.jsonl"
    try:
        link.symlink_to(path)
    except OSError:
        pytest.skip("this system makes no symbolic links")
    append(link, [GOAL])
    assert not Path(f"{link}.lock").exists()
    assert len(read_log(path).events) == 3


def test_two_threads_append_at_once(path: Path) -> None:
    """The lock holds between the threads of one program as well."""
    threads = [threading.Thread(target=lambda: [append(path, [remark()]) for _ in range(8)]) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(read_log(path).events) == 2 + 24


class Counted:
    """A file that counts the bytes that are read of it."""

    def __init__(self, file: BinaryIO) -> None:
        self.file = file
        self.count = 0

    def read(self, most: int) -> bytes:
        data = self.file.read(most)
        self.count += len(data)
        return data

    def seek(self, place: int, whence: int = 0) -> int:
        return self.file.seek(place, whence)


def test_the_ten_thousandth_append_reads_as_little_as_the_first(tmp_path: Path) -> None:
    """Only the first line and the end of the file are looked at, however long the log is."""
    path = tmp_path / "long.jsonl"
    path.write_bytes(log_bytes([header(), *[FACEOFF] * 9_999], chained=False))
    with path.open("rb") as file:
        counted = Counted(file)
        tail = read_tail(counted)  # type: ignore[arg-type]
    assert tail.event.seq == 10_000
    assert counted.count <= 2 * 8192 < path.stat().st_size / 10


@pytest.mark.parametrize("length", [8100, 8192, 20_000, 100_000])
def test_a_last_line_longer_than_a_block(path: Path, length: int) -> None:
    """The tail is read further back until the last line is whole."""
    append(path, [remark("x" * length)])
    append(path, [GOAL])
    assert [event.seq for event in parse_log(path.read_bytes()).events] == [1, 2, 3, 4]


def test_a_log_of_one_long_header(tmp_path: Path) -> None:
    """The first line is the last line too."""
    path = tmp_path / "game.jsonl"
    create(path, header(rink="x" * 50_000))
    append(path, [FACEOFF])
    assert len(read_log(path).events) == 2
