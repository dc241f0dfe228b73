"""The game at the table: a `LiveGame` over the log's file. The log is the state, and there is no other.

An entry is on the disk before the game here takes it in. What another program appends is noticed and taken in too.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterable

from attrs import evolve

from ... import rulesets
from ...timeline.events import Event, GameOpened
from ...timeline.game import Game
from ...timeline.live import LiveGame
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import Log, append, create, event_to_line, line_hash, read_log
from ...timeline.views.findings import Finding

__all__ = ["Table"]

Seen = tuple[int, int, int] | None
"""Size, time of change and number of the file; None where it is not there."""

_UNREADABLE: Seen = (-1, 0, 0)
_UNKNOWN: Seen = (-2, 0, 0)
"""Like no file: it is read again at the next look."""


class Table:
    """A log's file, the game in it, and what is wrong with the file.

    Attributes:
        path: the log.
        log: as it was read or written last; None while no game is opened.
        live: the game.
        trouble: why the file cannot be read or written; entries are refused while there is one.
        notice: what has to be told about the file.
        stamp: counts the changes of all this.
        lock: held while the game is asked or changed; requests are answered in threads.
    """

    def __init__(self, path: str) -> None:
        """The table for the log at `path`, which may not be there yet.

        Raises:
            ProblemsFound: the file is there and cannot be read or is no log.
        """
        self.path = path
        self.lock = threading.RLock()
        self.log: Log | None = None
        self.live: LiveGame | None = None
        self.trouble: Problem | None = None
        self.notice: str | None = None
        self.stamp = 0
        self.changed: Callable[[], None] = lambda: None
        self._findings: tuple[int, tuple[Finding, ...]] = (-1, ())
        self._seen: Seen = None
        seen = self._look()
        if seen is not None:
            self._take(read_log(path))
            self._seen = seen

    # -- asking

    @property
    def version(self) -> int:
        """How many events the log has; 0 while no game is opened."""
        return 0 if self.log is None else len(self.log.events)

    @property
    def game(self) -> Game | None:
        """The game as recorded so far."""
        return None if self.live is None else self.live.game

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What `check` finds in the game so far."""
        game = self.game
        if game is None:
            return ()
        if self._findings[0] != self.version:
            self._findings = (self.version, game.findings)
        return self._findings[1]

    @property
    def file_name(self) -> str:
        """The log's name without its folder."""
        return os.path.basename(self.path)

    @property
    def head_code(self) -> str | None:
        """The head code of a closed and chained record."""
        if self.log is None or self.live is None or not self.log.chained:
            return None
        return self.log.head_code if self.live.game.folded.last.ice.closed else None

    # -- the file

    def refresh(self, *, anew: bool = False) -> bool:
        """Look whether the file changed, and take in what another program appended; whether anything is different.

        With `anew` it is read again although it looks as it did.
        """
        with self.lock:
            seen = self._look()
            if seen == self._seen and self.trouble is None and not anew:
                return False
            stamp = self.stamp
            self._read_again(seen)
            return self.stamp != stamp

    def _look(self) -> Seen:
        try:
            found = os.stat(self.path)
        except FileNotFoundError:
            return None
        except OSError:
            return _UNREADABLE  # reading it will say why
        return (found.st_size, found.st_mtime_ns, found.st_ino)

    def _seen_with(self, written: int) -> Seen:
        """The file as it is, where it grew by the bytes `written` alone; another program may have been as quick."""
        before, now = self._seen, self._look()
        if before is None or now is None or now[0] != before[0] + written or now[2] != before[2]:
            return _UNKNOWN
        return now

    def _read_again(self, seen: Seen) -> None:
        if seen is None and self.log is None:
            self._seen = seen
            return
        try:
            log = read_log(self.path)
            self._take(log)
        except ProblemsFound as found:
            self._troubled(found.problems[0])
            return
        self._seen = seen
        if self.trouble is not None:
            self.trouble = None
            self._tell()

    def _take(self, log: Log) -> None:
        """Go on with `log` as it was read: what is new is recorded, what is another game replaces the one here."""
        known = () if self.log is None else self.log.events
        if self.log is not None and log.events == known:
            self.log = log
            return
        new = log.events[len(known) :]
        if self.live is not None and log.events[: len(known)] == known:
            self.live = _going_on(self.live, log, new)
            self.notice = f"{_counted(len(new))} from another program."
        else:
            self.live = LiveGame.of(log, rulesets.of(log))
            self._findings = (-1, ())
            self.notice = "The file was exchanged by another program; this is what it holds now." if known else None
        self.log = log
        self._tell()

    def _troubled(self, problem: Problem) -> None:
        if self.trouble != problem:
            self.trouble = problem
            self._tell()

    def _tell(self) -> None:
        self.stamp += 1
        self.changed()

    # -- writing

    def open(self, header: GameOpened) -> None:
        """Write the first line of a new log.

        Raises:
            ProblemsFound: there is a file already, or it cannot be written.
        """
        with self.lock:
            create(self.path, header)
            self.refresh()

    def append(self, events: Iterable[Event], findings: tuple[Finding, ...] | None = None) -> tuple[Event, ...]:
        """Have `events` on the disk, then take them in; `findings` are those of the game with them, if known.

        Raises:
            ProblemsFound: the log has grown meanwhile, or cannot be written; nothing was.
        """
        with self.lock:
            assert self.log is not None
            assert self.live is not None
            written = append(
                self.path,
                events,
                expected_seq=len(self.log.events),
                expected_head=self.log.head,
                known=self.log.events,
            )
            lines = [event_to_line(event) for event in written]
            self._seen = self._seen_with(sum(len(line) + 1 for line in lines))
            head = line_hash(lines[-1])
            self.log = evolve(self.log, events=(*self.log.events, *written), head=head)
            self.live = _going_on(self.live, self.log, written)
            if findings is not None:
                self._findings = (self.version, findings)
            self.notice = None
            self._tell()
            return written


def _going_on(live: LiveGame, log: Log, new: Iterable[Event]) -> LiveGame:
    """The game with what is `new` in `log`.

    A correction may take away the pinned ruleset: then the one that the log names is asked for, as at any reading.
    """
    try:
        for event in new:
            live.record(event)
    except ProblemsFound:
        return LiveGame.of(log, rulesets.of(log))
    return live


def _counted(entries: int) -> str:
    return "One entry came" if entries == 1 else f"{entries} entries came"
