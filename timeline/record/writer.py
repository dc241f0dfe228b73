"""Appending to a log: take the lock, verify the tail, write, flush and fsync, release, acknowledge.

What was acknowledged is on the disk. What was not leaves the file as it was, or, after a crash, a torn tail.
"""

from __future__ import annotations

import contextlib
import errno
import itertools
import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from attrs import evolve

from ..events import Amend, Event, GameClosed, GameOpened, Void
from ..problems import Problem, ProblemsFound
from .chain import line_hash
from .checks import AFTER_CLOSING, check_events, check_targets_of
from .files import file_problem, sync_folder
from .named_rules import check_named_rules
from .reader import parse_log
from .tail import Tail, read_tail
from .upgrades import FORMAT
from .written import Written, link

__all__ = ["append", "create", "write_new"]

LOCK_SECONDS = 10.0
"""How long to wait for another program that is writing to the log."""

Path_ = str | os.PathLike[str]


def create(path: Path_, header: Event) -> GameOpened:
    """Write a new log at `path` that holds `header` alone, and return the header as written.

    Args:
        path: where; there must be no file yet.
        header: the event that opens the game, as it was written: of a live game ``live.events[0]``, whose amendments
            are events of their own.

    Raises:
        ProblemsFound: there is a file already, the header is not right, or the file cannot be written. No file is left.
    """
    name, real = os.fspath(path), Path(os.path.realpath(path))
    with _named(name):
        (written,) = link([header], 1, "")
        made = _new_header(written.event)
        with _locked(real, real.parent):
            try:
                write_new(real, written.line + b"\n")
            except FileExistsError:
                raise ProblemsFound([_EXISTS]) from None
    return made


def append(
    path: Path_,
    events: Iterable[Event],
    *,
    expected_seq: int | None = None,
    expected_head: str | None = None,
    known: Sequence[Event] | None = None,
) -> tuple[Event, ...]:
    """Append `events` to the log at `path`: all of them in one write, or none.

    They get their `seq` and, where the log is chained, their `prev`; `recorded_at` is the caller's. The cost does not
    grow with the log, except that a correction, a closing, and whatever follows one are checked against the whole log.

    Args:
        path: the log.
        events: what is appended; their `seq` and `prev` are not looked at.
        expected_seq: the last `seq` that the caller knows; a log that has grown since is refused.
        expected_head: the hash of the last line that the caller knows; likewise.
        known: the events of the log, where the caller has them; saves reading it for the check.

    Returns:
        The events as written. When this returns, they are on the disk.

    Raises:
        ProblemsFound: an event is not right, the log has grown, or the file cannot be written; the log is as it was.
    """
    name, real = os.fspath(path), Path(os.path.realpath(path))
    with _named(name), _locked(real, real), _open_log(real) as file:
        tail = read_tail(file)
        _check_expected(tail, expected_seq, expected_head)
        chained = tail.event.prev is not None
        new = link(events, tail.event.seq + 1, line_hash(tail.line) if chained else None)
        if problems := _check_against(file, tail, [written.event for written in new], known):
            raise ProblemsFound(problems)
        if new:
            _add(file, real, tail, new)
        return tuple(written.event for written in new)


@contextlib.contextmanager
def _named(name: str) -> Iterator[None]:
    """Give the problems that come up the file's name, and make problems of what the operating system says."""
    try:
        yield
    except OSError as error:
        raise file_problem(error, name, "written") from None
    except ProblemsFound as found:
        raise ProblemsFound(evolve(problem, file=name) for problem in found.problems) from None


@contextlib.contextmanager
def _locked(real: Path, needed: Path) -> Iterator[None]:
    """Hold the lock of the log `real`, which lies beside it. `needed` must be there: the lock would make its folder."""
    needed.stat()
    from filelock import FileLock, Timeout  # here, since reading a log needs no lock

    lock = FileLock(f"{real}.lock", timeout=LOCK_SECONDS)
    try:
        lock.acquire()
    except Timeout:
        message = f"Another program has been writing to the log for {LOCK_SECONDS:.0f} seconds."
        raise ProblemsFound(
            [Problem(code="log_busy", message=message, fix="Close it, or wait, and try again.")]
        ) from None
    except NotImplementedError:
        message = "The drive cannot lock files, so two programs could write at once."
        raise ProblemsFound([Problem(code="no_lock", message=message, fix="Keep the log on this computer.")]) from None
    try:
        yield
    finally:
        lock.release()


def _open_log(real: Path) -> BinaryIO:
    """The log for reading and appending: never made anew, and never written over what another program appends."""
    flags = os.O_RDWR | os.O_APPEND | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOINHERIT", 0)
    return open(real, "r+b", buffering=0, opener=lambda file, _: os.open(file, flags))


_EXISTS = Problem(
    code="file_exists",
    message="There is a file of this name already; a game is never opened over another.",
    fix="Choose another name.",
)


def _new_header(event: Event) -> GameOpened:
    """`event`, if a log can begin with it.

    Raises:
        ProblemsFound: it opens no game, is of another format, or its rules are not right.
    """
    if not isinstance(event, GameOpened):
        message = f'Expected "game_opened", found "{event.kind}".'
        fix = "Give the event that opens the game: live.events[0]."
        raise ProblemsFound([Problem(code="not_opened", message=message, fix=fix, seq=1, field="kind")])
    if event.format != FORMAT:
        message = f"Expected {FORMAT}, found {event.format}."
        raise ProblemsFound([Problem(code="unknown_format", message=message, seq=1, field="format")])
    if problems := check_named_rules(event, whole=True):
        raise ProblemsFound(problems)
    return event


def _check_expected(tail: Tail, seq: int | None, head: str | None) -> None:
    if seq in (None, tail.event.seq) and head in (None, line_hash(tail.line)):
        return
    last = tail.event.seq
    message = f"The log is no longer as it was read: its last event is {last}" + (f", expected {seq}." if seq else ".")
    raise ProblemsFound([Problem(code="log_has_grown", message=message, fix="Read it again, then enter it.", seq=last)])


def _check_against(file: BinaryIO, tail: Tail, new: list[Event], known: Sequence[Event] | None) -> list[Problem]:
    """Check that `new` may follow in this log."""
    again = [event for event in new if isinstance(event, GameOpened)]
    if again:
        message = "The game is open already."
        return [
            Problem(code="opened_again", message=message, fix="Amend event 1.", seq=e.seq, field="kind") for e in again
        ]
    if not _needs_whole_log(tail.event, new):
        exists = range(1, tail.event.seq + len(new) + 1)
        return [problem for event in new for problem in check_targets_of(event, exists)]
    if known is None or len(known) != tail.event.seq:
        file.seek(0)
        known = parse_log(file.read(tail.end)).events
    return check_events([*known, *new], before=len(known))


def _needs_whole_log(last: Event, new: list[Event]) -> bool:
    if any(isinstance(event, Void | Amend | GameClosed) for event in new):
        return True
    perhaps_closed = isinstance(last, (GameClosed, *AFTER_CLOSING))
    return perhaps_closed and not all(isinstance(event, AFTER_CLOSING) for event in new)


def _add(file: BinaryIO, real: Path, tail: Tail, new: list[Written]) -> None:
    """Write the lines of `new` after `tail`, or leave the log as it was."""
    if tail.torn:
        _set_aside(tail.torn, real)
        file.truncate(tail.end)
    data = (b"" if tail.newline else b"\n") + b"".join(written.line + b"\n" for written in new)
    try:
        _write(file, data)
    except BaseException:
        _take_back(file, tail.end, data)
        raise
    if os.fstat(file.fileno()).st_size != tail.end + len(data):
        message = "Another program wrote to the log at the same time, without its lock."
        raise ProblemsFound([Problem(code="written_by_others", message=message, fix="Close it, and check the log.")])


def _take_back(file: BinaryIO, end: int, data: bytes) -> None:
    """Cut off what was written of `data` at `end`, and nothing that a program wrote which takes no lock."""
    with contextlib.suppress(OSError):  # then it is a torn tail, which the next append sets aside
        file.seek(end)
        if data.startswith(file.read(len(data) + 1)):
            file.truncate(end)


def _write(file: BinaryIO, data: bytes) -> None:
    """Write `data` in one call and have it on the disk.

    Raises:
        OSError: also where only a part of it was written.
    """
    if file.write(data) != len(data):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    file.flush()
    os.fsync(file.fileno())


def _set_aside(torn: bytes, real: Path) -> None:
    """Keep the torn bytes in a file of their own beside the log."""
    for number in itertools.count(1):
        with contextlib.suppress(FileExistsError):
            write_new(Path(f"{real}.torn-{number}"), torn)
            return


def write_new(path: Path, data: bytes) -> None:
    """Have a new file that holds `data` on the disk, its name included; what cannot be finished is not left behind.

    Raises:
        FileExistsError: there is a file of this name.
    """
    with open(path, "xb", buffering=0) as file:
        try:
            _write(file, data)
            sync_folder(path.parent)
        except BaseException:
            file.close()
            with contextlib.suppress(OSError):
                path.unlink()
            raise
