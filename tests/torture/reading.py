"""What must hold of a log, whatever was done to its bytes: the rules that the fuzzed reader and writer are held to."""

from __future__ import annotations

import contextlib
import hashlib
import json
import signal
import threading
from collections.abc import Iterator, Sequence
from pathlib import Path

from attrs import evolve
from torture.games import files

from rinkfold.timeline.events import Event
from rinkfold.timeline.problems import ProblemsFound, render
from rinkfold.timeline.record import Log, append, log_bytes, parse_log

__all__ = ["TooSlow", "check_append", "check_read", "time_limit"]


class TooSlow(BaseException):
    """The time is over. No `Exception`, so that nothing on the way catches it."""


@contextlib.contextmanager
def time_limit(seconds: float) -> Iterator[None]:
    """Raise `TooSlow` in what takes longer, where the system has such an alarm."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return

    def over(*_: object) -> None:
        raise TooSlow

    before = signal.signal(signal.SIGALRM, over)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def plain(events: Sequence[Event]) -> list[Event]:
    """`events` without the chain."""
    return [evolve(event, prev=None) for event in events]


def check_read(original: bytes, changed: bytes) -> tuple[Log | None, str]:
    """Read `changed`, which was made of the log `original`, and check what comes of it.

    Returns:
        The log, or None where it is refused; and in a word what happened, for the tally.
    """
    try:
        log = parse_log(changed, "game.jsonl")
    except ProblemsFound as refused:
        check_refusal(refused)
        return None, f"refused, {refused.problems[0].code}"
    check_accepted(log, changed)
    before = parse_log(original)
    if changed == original:
        return log, "read, unchanged"
    if before.chained:
        check_change_shows(before, original, log, changed)
    if log.notes and {note.code for note in log.notes} != {note.code for note in before.notes}:
        return log, f"read with a note, {log.notes[0].code}"
    return log, "read, another head code" if before.chained else "read, no chain to tell"


def check_refusal(refused: ProblemsFound) -> None:
    """Check that every problem can be shown, and that one is an error."""
    assert refused.problems
    assert any(problem.severity == "error" for problem in refused.problems)
    for problem in refused.problems:
        assert problem.code
        assert problem.message
        assert problem.file == "game.jsonl"
        shown = render(problem)
        assert shown.encode()
        assert shown.isprintable(), "one line, and nothing that moves a terminal's cursor"


def check_accepted(log: Log, data: bytes) -> None:
    """Check that `log` says what the bytes say, by `json` and `hashlib` alone, and can be written again."""
    assert [event.seq for event in log.events] == list(range(1, len(log.events) + 1))
    lines = data.split(b"\n")[: len(log.events)]
    before = ""
    for line, event in zip(lines, log.events, strict=True):
        written = json.loads(line)
        assert (written["seq"], written["kind"]) == (event.seq, event.kind)
        assert written.get("prev") == event.prev == (before if log.chained else None)
        before = hashlib.sha256(line).hexdigest()
    assert log.head == before
    rest = b"\n".join(data.split(b"\n")[len(log.events) :])
    assert (rest != b"") == any(note.code == "torn_tail" for note in log.notes)
    again = parse_log(log_bytes(log.events, chained=log.chained))
    assert plain(again.events) == plain(log.events)


def check_change_shows(before: Log, original: bytes, log: Log, changed: bytes) -> None:
    """Check that a change of a chained log that is still read is noted or has another head code."""
    only_the_newline = changed == original.removesuffix(b"\n")
    assert log.notes or log.head != before.head or only_the_newline
    if log.head == before.head:
        assert log.events == before.events
        assert changed.startswith(original.removesuffix(b"\n"))


def check_append(path: Path, changed: bytes, log: Log | None, event: Event) -> str:
    """Append `event` to a file that holds `changed`, which was read as `log`, and check what is left.

    Returns:
        In a word what happened.
    """
    path.write_bytes(changed)
    try:
        (made,) = append(path, [event])
    except ProblemsFound as refused:
        assert files(path.parent) == {path.name: changed}
        codes = {problem.code for problem in refused.problems}
        assert log is None or codes == {"after_closing"}, codes
        return "append refused"
    left = files(path.parent)
    torn = left.pop(f"{path.name}.torn-1", b"")
    assert set(left) == {path.name}
    assert left[path.name].startswith(changed.removesuffix(torn) if torn else changed)
    assert changed.endswith(torn)
    if log is not None:
        assert parse_log(left[path.name]).events == (*log.events, made)
    return "appended" if log is not None else "appended to what is refused"
