"""A table of events made into a log: everything in it is right, or nothing is written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from attrs import evolve

from ... import rulesets
from ...timeline.events import Event, GameOpened
from ...timeline.live import LiveGame
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import log_bytes, parse_log
from ...timeline.record.files import file_problem
from ...timeline.record.writer import write_new
from ...timeline.rules import Ruleset
from ..errors import refuse
from ..opening import Opened
from .csv_text import Row, read_rows, read_text
from .reading import Reading, opening_of, unknown_heads

if TYPE_CHECKING:
    from ...timeline.record import Log

__all__ = ["import_table"]

Opening = Callable[[], tuple[GameOpened, Ruleset]]


def import_table(path: str, target: str, opening: Opening | None) -> Log:
    """The log that was written to `target` from the table at `path`.

    Args:
        path: a CSV file of events.
        target: the new log.
        opening: makes the first line, where the table does not have it; ``None`` if it has to.

    Raises:
        ProblemsFound: everything that is wrong, each with line and column; nothing was written.
    """
    events = _events(path, opening)
    data = log_bytes(events)
    log = parse_log(data, target)
    _write(target, data)
    return log


def _write(target: str, data: bytes) -> None:
    try:
        write_new(Path(target), data)
    except FileExistsError:
        message = "There is a file of this name already; a game is never opened over another."
        refuse("file_exists", message, "Choose another name.", file=target)
    except OSError as error:
        raise file_problem(error, target, "written") from None


def _events(path: str, opening: Opening | None) -> tuple[Event, ...]:
    heads, rows = read_rows(path, read_text(path))
    problems = list(unknown_heads(path, heads))
    first = next(rows, None)
    if first is None:
        refuse("empty_table", "There is no event in the table.", file=path)
    opened, rest = _opened(path, first, rows, opening, problems)
    live = LiveGame([opened], rulesets.unpin(opened.pinned or {}))
    reading = Reading(path, live, problems)
    for row in rest:
        reading.read(row)
    if reading.problems:
        raise ProblemsFound(sorted(reading.problems, key=lambda problem: problem.line or 0))
    return live.events


def _opened(
    path: str, first: Row, rest: Iterator[Row], opening: Opening | None, problems: list[Problem]
) -> tuple[GameOpened, Iterable[Row]]:
    """The first line, with its ruleset pinned, and the rows that are left."""
    if first.cells.get("kind", "").lower().replace(" ", "_") != GameOpened.kind:
        if opening is None:
            message = "The table does not open the game."
            refuse("not_opened", message, "Give --ruleset, --home and --away.", file=path, line=first.line)
        return opening()[0], chain([first], rest)
    if opening is not None:
        message = "The table opens the game itself."
        refuse("opened_again", message, "Leave --ruleset and what else describes the game out.", file=path, line=1)
    try:
        return _pinned(path, first, opening_of(path, first)), rest
    except ProblemsFound as found:
        problems += found.problems
        return LiveGame.open(Ruleset(), home="home", away="away").header, rest


def _pinned(path: str, row: Row, header: GameOpened) -> GameOpened:
    """`header` with the whole ruleset in it, as a game that is opened today has it."""
    try:
        rules = rulesets.unpin(header.pinned) if header.pinned is not None else rulesets.of(Opened(header))
    except ProblemsFound as found:
        raise ProblemsFound(evolve(each, file=path, line=row.line, seq=None) for each in found.problems) from None
    return header if header.pinned is not None else evolve(header, pinned=rulesets.pin(rules))
