"""The rows of a table as the events of a game, each against the game that the rows before made.

A row that is wrong is told with its line and column, a remark takes its number, and reading goes on: so everything that
is wrong is told at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from attrs import define, evolve, field

from ... import rulesets
from ...timeline.events import KINDS, Amend, Event, GameOpened, Remark
from ...timeline.live import LiveGame
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import event_from_dict
from ...timeline.wording import closest
from ..entries import parse_entry
from ..entries.context import EntryProblem
from ..standing import context_of
from .cells import read_cell
from .columns import COLUMNS, ENTRY, WITH_AN_ENTRY
from .csv_text import Row

__all__ = ["Reading", "opening_of", "unknown_heads"]

_NUMBER_FIX = "Events are numbered as they stand; the opening of the game is 1. Or leave the column out."


def unknown_heads(path: str, heads: Iterable[str]) -> Iterator[Problem]:
    """The heads that are no column, or stand there twice."""
    seen: set[str] = set()
    for head in heads:
        if head not in (*COLUMNS, ENTRY):
            near = closest(head, (*COLUMNS, ENTRY))
            fix = f"Write {near}." if near else f"The columns are {', '.join((*COLUMNS, ENTRY))}."
            yield Problem(
                code="unknown_column", message="There is no such column.", fix=fix, file=path, line=1, field=head
            )
        elif head in seen:
            yield Problem(
                code="column_twice", message="The column is there twice.", fix="", file=path, line=1, field=head
            )
        seen.add(head)


def fields_of(row: Row, seq: int) -> dict[str, Any]:
    """What a row says, as an object of the log."""
    word = row.cells.get("kind", "").lower().replace(" ", "_")
    values = {
        name: read_cell(word, name, cell) if word in KINDS else cell
        for name, cell in row.cells.items()
        if name in COLUMNS and name not in ("kind", "seq")
    }
    return {"seq": seq, **({"kind": word} if word else {}), **values}


def opening_of(path: str, row: Row) -> GameOpened:
    """The opening of the game that the first row is.

    Raises:
        ProblemsFound: it is not right.
    """
    try:
        event = event_from_dict(fields_of(row, 1))
    except ProblemsFound as found:
        raise ProblemsFound(evolve(each, file=path, line=row.line, seq=None) for each in found.problems) from None
    assert isinstance(event, GameOpened)
    return event


@define
class Reading:
    """A table that is being read.

    Attributes:
        path: the table, for messages.
        live: the game so far, a remark in the place of every row that was wrong.
        lines: where each event begins in the table.
        problems: what is wrong so far.
    """

    path: str
    live: LiveGame
    problems: list[Problem] = field(factory=list)
    lines: dict[int, int] = field(factory=dict)

    def read(self, row: Row) -> None:
        """Take in one row, or tell what is wrong with it."""
        seq = self.live.next_seq
        self.lines[seq] = row.line
        problems = list(_wrong_number(row, seq))
        try:
            self.live.record(self._event(row, seq))
        except ProblemsFound as found:
            problems += found.problems
            self.live.record(Remark(seq=seq, text="a row that cannot be read"))
        self.problems += [self._placed(problem, row) for problem in problems]

    def _placed(self, problem: Problem, row: Row) -> Problem:
        line = self.lines.get(problem.seq or 0, row.line)
        return evolve(problem, file=self.path, line=line, seq=None)

    def _event(self, row: Row, seq: int) -> Event:
        """The event of a row.

        Raises:
            ProblemsFound: it is none.
        """
        event = self._entered(row, seq) if ENTRY in row.cells else event_from_dict(fields_of(row, seq))
        if isinstance(event, Amend) and event.target == 1 and "pinned" not in event.changes:
            return evolve(event, changes=rulesets.pinned_anew(self.live, event.changes))
        return event

    def _entered(self, row: Row, seq: int) -> Event:
        if beside := [name for name in row.cells if name not in (*WITH_AN_ENTRY, ENTRY)]:
            raise ProblemsFound(_beside_an_entry(name) for name in beside)
        entry = parse_entry(row.cells[ENTRY], context_of(self.live.game))
        if isinstance(entry, EntryProblem):
            raise ProblemsFound([evolve(entry, field=ENTRY)])
        own: Mapping[str, Any] = fields_of(row, seq)
        return evolve(entry.event, **{name: own[name] for name in WITH_AN_ENTRY if name in own})


def _beside_an_entry(name: str) -> Problem:
    message = "The cell is filled, and the row has a short entry, which says it all."
    return Problem(code="entry_and_field", message=message, fix="Leave one of them out.", field=name)


def _wrong_number(row: Row, seq: int) -> Iterator[Problem]:
    found = row.cells.get("seq")
    if found is not None and found != str(seq):
        message = f"Expected {seq}, found {found!r}."
        yield Problem(code="out_of_sequence", message=message, fix=_NUMBER_FIX, field="seq")
