"""The game of a stream: opened by a line or by a log, and going on one event at a time."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from attrs import define, evolve, frozen

from ... import rulesets
from ...rulesets.places import is_path
from ...timeline.events import Amend, Event, GameOpened
from ...timeline.fold.changes import Change
from ...timeline.game import Game
from ...timeline.live import LiveGame
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import Log, append, create, event_from_dict, event_to_line, head_code, line_hash, read_log
from ...timeline.record.upgrades import FORMATS
from ..errors import refuse
from ..opening import Opened, open_log
from ..recording import now

__all__ = ["StreamedGame", "TakenIn"]


@frozen
class TakenIn:
    """An event that was taken in, with the games before and after it; `before` is None for the one that opens.

    Attributes:
        event: as it was recorded.
        changes: what is so since.
        withdrawn: what was told before and is no longer so.
        head_code: of a chained log that is closed, to be written down.
    """

    event: Event
    before: Game | None
    after: Game
    changes: tuple[Change, ...] = ()
    withdrawn: tuple[Change, ...] = ()
    head_code: str | None = None


@define
class StreamedGame:
    """The game, and the log that keeps it where one is named.

    Attributes:
        log: the log's path.
        live: None until the game is opened.
        head: the hash of the log's last line.
        size: the bytes of the log as far as it is known; another size means that another program has written.
    """

    log: str | None = None
    live: LiveGame | None = None
    head: str = ""
    size: int | None = 0

    @classmethod
    def of(cls, log: str | None) -> StreamedGame:
        """The game that goes on with the log at `log`, or is opened in it if there is none.

        Raises:
            ProblemsFound: there is something at `log` that is no log, or no folder for one.
        """
        streamed = cls(log)
        if log is not None and Path(log).exists():
            streamed._go_on(log, open_log)
        elif log is not None and not Path(log).resolve().parent.is_dir():
            refuse("no_file", "The folder of the log is not there.", "Make it, or name another.", file=log)
        return streamed

    @property
    def game(self) -> Game | None:
        """The game so far."""
        return None if self.live is None else self.live.game

    def look_again(self) -> None:
        """Go on with the log as another program has left it, if it has grown or was exchanged since.

        Raises:
            ProblemsFound: it cannot be read any more.
        """
        if self.log is not None and self.live is not None and self.size != _size(self.log):
            self._go_on(self.log, read_log)

    def _go_on(self, path: str, read: Callable[[str], Log]) -> None:
        size = _size(path)  # first: what is written meanwhile is seen the next time
        log = read(path)
        self.live, self.head, self.size = LiveGame.of(log, rulesets.of(log)), log.head, size

    def take(self, data: Mapping[str, Any]) -> TakenIn:
        """Take in the event that the object `data` is; without a `seq` it is the next one.

        Raises:
            ProblemsFound: it is not right, does not fit, or cannot be written; nothing was taken in.
        """
        seq = 1 if self.live is None else self.live.next_seq
        event = event_from_dict({"seq": seq, **data})
        if self.log is not None and event.recorded_at is None:
            event = evolve(event, recorded_at=now())
        return self._open(event) if self.live is None else self._record(event, self.live)

    # -- the first line

    def _open(self, event: Event) -> TakenIn:
        if not isinstance(event, GameOpened):
            raise ProblemsFound([_NOT_OPENED])
        if event.seq != 1:
            message = f"The event that opens a game has the seq 1, found {event.seq}."
            raise ProblemsFound([Problem(code="out_of_sequence", message=message, seq=event.seq, field="seq")])
        FORMATS.upgrade_from(event.format)
        event = _pinned(event)
        live = LiveGame([event])
        if self.log is not None:
            event = create(self.log, event)
            live = LiveGame([event])
            self._wrote(event)
        self.live = live
        return TakenIn(event, None, live.game)

    # -- the others

    def _record(self, event: Event, live: LiveGame) -> TakenIn:
        before, events = live.game, live.events
        if isinstance(event, Amend) and event.target == 1:
            event = evolve(event, changes=rulesets.pinned_anew(live, event.changes))
        try:
            changes = live.record(event)
            written = self._written(event, events)
        except BaseException:
            if self.live is live and live.next_seq != len(events) + 1:
                self.live = LiveGame(events, before.rules)
            raise
        recorded = live.last_recorded
        withdrawn = () if recorded is None else recorded.withdrawn
        return TakenIn(written, before, live.game, changes, withdrawn, self._code(written))

    def _code(self, last: Event) -> str | None:
        assert self.live is not None
        closed = self.live.game.folded.last.ice.closed
        return head_code(self.head) if self.log is not None and closed and last.prev is not None else None

    def _written(self, event: Event, events: Sequence[Event]) -> Event:
        """The event as it stands in the log, where there is one; it is on the disk then."""
        if self.log is None:
            return event
        try:
            (written,) = append(
                self.log, [event], expected_seq=len(events), expected_head=self.head or None, known=events
            )
        except ProblemsFound as found:
            if any(problem.code == "log_has_grown" for problem in found.problems):
                self._read_again(found.problems)
            raise
        self._wrote(written)
        return written

    def _wrote(self, event: Event) -> None:
        line = event_to_line(event)
        self.head, self.size = line_hash(line), (self.size or 0) + len(line) + 1

    def _read_again(self, problems: Sequence[Problem]) -> None:
        """Go on with the log as another program has left it.

        Raises:
            ProblemsFound: always: the event was meant for the game as it was.
        """
        assert self.log is not None
        self._go_on(self.log, read_log)
        assert self.live is not None
        fix = f"It was read again; the next seq is {self.live.next_seq}. Ask for now, then send the event again."
        raise ProblemsFound(evolve(problem, fix=fix) for problem in problems)


_NOT_OPENED = Problem(
    code="not_opened",
    message="No game is open yet.",
    fix='Send a "game_opened" first; `rinkfold new` writes such a line.',
    field="kind",
)


def _size(path: str) -> int | None:
    """The bytes of the file; None where it is gone or cannot be looked at."""
    try:
        return os.stat(path).st_size
    except OSError:
        return None


def _pinned(header: GameOpened) -> GameOpened:
    """`header` with its whole ruleset pinned, and looked at where it was pinned already.

    Raises:
        ProblemsFound: the ruleset is not known, a setting is not right, or what is pinned is no ruleset.
    """
    try:
        rules = rulesets.of(Opened(header))
    except ProblemsFound as found:
        raise ProblemsFound(_for_a_stream(problem, header) for problem in found.problems) from None
    return header if header.pinned is not None else evolve(header, pinned=rulesets.pin(rules))


def _for_a_stream(problem: Problem, header: GameOpened) -> Problem:
    """`problem` with a remedy that a program at the other end of a pipe has."""
    if problem.code != "unknown_ruleset" or not is_path(header.ruleset):
        return problem
    fix = "Open the game with rinkfold new --ruleset FILE, and go on with rinkfold stream --log; or pin the ruleset."
    return evolve(problem, fix=fix)
