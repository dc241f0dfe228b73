"""What `rinkfold export` makes of a log."""

from __future__ import annotations

from typing import Any, NoReturn

from attrs import frozen

from ...timeline.events import Event, GameOpened
from ...timeline.record import Log, event_to_dict, log_bytes, parse_log
from ...timeline.wording import closest
from ..answers.common import head
from ..errors import refuse
from ..opening import replayed
from .columns import event_rows
from .csv_text import csv_text
from .numbers_only import without_names
from .tables import TABLES, Table, as_csv

__all__ = ["Exported", "check_wanted", "exported"]

EVENTS, LOG = "events", "log"
WANTED = (EVENTS, *TABLES, LOG)


@frozen
class Exported:
    """A table, the events, or a log.

    Attributes:
        name: which one.
        header: the first line of the game as it counts.
        content: the rows of an answer, or events.
    """

    name: str
    header: GameOpened
    content: Table | tuple[Event, ...]

    @property
    def said(self) -> str:
        """How much it is: ``"9 rows"``."""
        count = len(self.content.rows if isinstance(self.content, Table) else self.content)
        what = "event" if self.name == LOG else "row"
        return f"{count} {what}{'' if count == 1 else 's'}"

    def text(self) -> str:
        """The text of the file."""
        if isinstance(self.content, Table):
            return as_csv(self.content)
        return log_bytes(self.content).decode() if self.name == LOG else csv_text(*event_rows(self.content))

    def answer(self) -> dict[str, Any]:
        """``{"table", "columns", "rows"}``, each row a list of values; ``{"table", "events"}`` for events."""
        lead = {**head(self.header), "table": self.name}
        if isinstance(self.content, Table):
            return {**lead, "columns": list(self.content.heads), "rows": [list(row) for row in self.content.rows]}
        return {**lead, "events": [event_to_dict(event) for event in self.content]}


def check_wanted(wanted: str | None, *, numbers_only: bool, names: bool, as_json: bool) -> None:
    """Refuse a table that there is not, and options that do not go together.

    Raises:
        ProblemsFound: what is wrong, and what to write.
    """
    if wanted not in WANTED:
        _no_table(wanted)
    if wanted == LOG and not numbers_only:
        refuse("whole_log", "The log is the file itself.", "Copy it, or leave the names out with --numbers-only.")
    if wanted == LOG and as_json:
        refuse("whole_log", "The log is lines of JSON already.", "Leave --json out.")
    if names and numbers_only:
        refuse("names_and_numbers", "--names and --numbers-only were both given.", "Leave one of them out.")


def _no_table(wanted: str | None) -> NoReturn:
    near = closest(wanted or "", WANTED)
    fix = f"Write {near}." if near else f"Write one of {', '.join(WANTED)}."
    refuse("no_table", "No table is named." if wanted is None else f"There is no table {wanted!r}.", fix)


def exported(log: Log, wanted: str, *, numbers_only: bool, names: bool) -> Exported:
    """The table `wanted` of the game in `log`.

    Raises:
        ProblemsFound: the ruleset of the log is not known.
    """
    game = replayed(log)
    if wanted in TABLES:
        return Exported(wanted, game.header, TABLES[wanted](game, names))
    if not numbers_only:
        return Exported(wanted, game.header, log.events)
    events = without_names(log.events, log.head_code, game.rules.infractions)
    parse_log(log_bytes(events), log.name)  # what is written can be read
    return Exported(wanted, game.header, events)
