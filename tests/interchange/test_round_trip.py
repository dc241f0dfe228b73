"""Events out as a table and in again are the same events."""

from __future__ import annotations

import csv
import io
import re
import tempfile
from pathlib import Path
from typing import Any

import attrs
import pytest
from attrs import evolve
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from live.games import written
from strategies import events, logs, of_kind

from rinkfold import rulesets
from rinkfold.cli.interchange.cells import write_cell
from rinkfold.cli.interchange.columns import COLUMNS, event_rows
from rinkfold.cli.interchange.csv_text import Row, csv_text, read_rows
from rinkfold.cli.interchange.formulas import defused, undone
from rinkfold.cli.interchange.importing import import_table
from rinkfold.cli.interchange.reading import fields_of
from rinkfold.timeline import Amend, Event, GameOpened, Goal, GoalieChange, Remark, Void, event_from_dict, read_log
from rinkfold.timeline.events import KINDS
from rinkfold.timeline.record import event_to_line, log_bytes

DANGEROUS = re.compile(r"\s*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]")


def again(event: Event) -> Event:
    """`event` out as a row of a file, and in."""
    heads, rows = event_rows([event])
    _, read = read_rows("t.csv", csv_text(heads, rows))
    (row,) = read
    assert row.cells.pop("seq") == str(event.seq)
    return event_from_dict(fields_of(row, event.seq))


@pytest.mark.parametrize("kind", sorted(KINDS))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_every_kind_comes_back_as_it_was(kind: str, data: st.DataObject) -> None:
    """Every field of every kind, whatever stands in it, but for the chain, which is made anew."""
    event = data.draw(of_kind(kind))
    assert again(event) == evolve(event, prev=None)
    assert event_to_line(again(event)) == event_to_line(evolve(event, prev=None))


TEXTS = [
    "",
    " ",
    '"',
    '""',
    '"a"',
    "'",
    "=1+1",
    "'=1+1",
    "''=x",
    "a\nb",
    "\ta",
    "-",
    "@x",
    "+",
    "a;b",
    'a "b", c',
    "empty",
    "[1]",
]


@pytest.mark.parametrize(
    "text", [*TEXTS, "null", "yes", "unassisted", "Unassisted", "\x00", "\u2028", "\uff1d1", "ü 🏒"]
)
def test_odd_texts_come_back(text: str) -> None:
    """In a text, a list, a goalkeeper's number, an amendment."""
    for event in (
        Remark(seq=2, text=text),
        Goal(seq=2, period=1, clock="9:15", team="home", scorer=text, assists=(text,)),
        Goal(seq=2, period=1, clock="9:15", team="home", assists=(text, "7")),
        GoalieChange(seq=2, period=1, clock="9:15", team="home", goalie=text),
        Amend(seq=2, target=1, changes={text: text}, reason=text),
        KINDS["game_closed"](seq=2, outcome="played", signed=text),  # type: ignore[call-arg]
        KINDS["game_closed"](seq=2, outcome="played", signed=(text,)),  # type: ignore[call-arg]
    ):
        assert again(event) == event


@given(st.text(max_size=8) | st.text("'=+-@ \t\r\nx\uff1d", max_size=6))
@example("''=")
def test_a_formula_is_defused_and_undone(text: str) -> None:
    """Whatever stands in a cell, taking the apostrophe away gives what was there; no formula is left."""
    cell = defused(text)
    assert undone(cell) == text
    assert not DANGEROUS.match(cell)


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20"])
@pytest.mark.parametrize("before", ["", " ", "\t", "\u3000", "''"])
def test_each_sign_that_begins_a_formula_is_defused(sign: str, before: str) -> None:
    """The wide forms too, which spreadsheets of East Asia take for the narrow ones."""
    assert defused(f"{before}{sign}1+1") == f"'{before}{sign}1+1"
    assert write_cell("remark", "text", f"{sign}1+1") == f"'{sign}1+1"


@settings(max_examples=150, deadline=None)
@given(logs())
def test_no_cell_of_a_table_is_a_formula(log: tuple[Event, ...]) -> None:
    """Not by what people wrote, and not by what stands for it."""
    for row in csv.reader(io.StringIO(csv_text(*event_rows(log)), newline="")):
        assert not [cell for cell in row if DANGEROUS.match(cell)]


def _imported(log: list[Event] | tuple[Event, ...]) -> tuple[Event, ...]:
    """The log that import makes of the table of `log`."""
    with tempfile.TemporaryDirectory() as folder:
        table, target = Path(folder, "t.csv"), Path(folder, "g.jsonl")
        table.write_text(csv_text(*event_rows(log)), encoding="utf-8", newline="")
        import_table(str(table), str(target), None)
        return read_log(target).events


def _bare(log: Any) -> list[Event]:
    return [evolve(event, prev=None) for event in log]


@settings(max_examples=60, deadline=None)
@given(logs(most=8), st.sampled_from(["youth-12u", "pro"]))
def test_a_whole_log_comes_back(log: tuple[Event, ...], name: str) -> None:
    """Logs of anything: the same events, on a new chain."""
    opened = evolve(log[0], ruleset=name, settings=None, pinned=rulesets.pin(rulesets.load(name)))  # type: ignore[call-arg]
    whole = [opened, *log[1:]]
    assert _bare(_imported(whole)) == _bare(whole)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 5000), st.data())
def test_a_random_game_with_corrections_comes_back(seed: int, data: st.DataObject) -> None:
    """To the byte: what is written is the log that a program would have written."""
    log = written(seed)
    count = len(log)
    log += [
        Void(seq=count + 1, target=data.draw(st.integers(2, count)), reason="=wrong"),
        Amend(seq=count + 2, target=1, changes={"rink": "-North"}, reason="late"),
        Void(seq=count + 3, target=count + 2, reason="no"),
    ]
    assert log_bytes(_imported(log)) == log_bytes(log)


def test_the_example_game_comes_back(rinkfold: Any, example: Path, tmp_path: Path) -> None:
    """Through the commands, but for the ruleset, which is pinned where it was not."""
    table, target = tmp_path / "events.csv", tmp_path / "again.jsonl"
    assert rinkfold("export", example, "events", "-o", table).code == 0
    ran = rinkfold("import", table, "-o", target)
    assert (ran.code, ran.err) == (0, "")
    first, *rest = read_log(example).events
    log = read_log(target)
    assert log.chained
    assert _bare(log.events[1:]) == _bare(rest)
    assert isinstance(first, GameOpened)
    assert _bare(log.events[:1]) == _bare([evolve(first, pinned=rulesets.pin(rulesets.of(read_log(example))))])
    second = tmp_path / "second.csv"
    assert rinkfold("export", target, "events", "-o", second).code == 0
    assert rinkfold("import", second, "-o", tmp_path / "third.jsonl").code == 0
    assert (tmp_path / "third.jsonl").read_bytes() == target.read_bytes()


def test_every_field_has_a_column() -> None:
    """But for the chain."""
    fields = {name for cls in KINDS.values() for name in _names(cls)}
    assert fields - {"prev"} <= set(COLUMNS)
    assert len(COLUMNS) == len(set(COLUMNS))


def _names(cls: type[Event]) -> list[str]:
    return [attribute.name for attribute in attrs.fields(cls)]


@given(events())
@settings(max_examples=50, deadline=None)
def test_a_row_has_no_column_that_its_event_does_not_need(event: Event) -> None:
    """Columns are those that are used, and the first six."""
    heads, (cells,) = event_rows([event])
    assert all(cell or head in ("period", "clock", "team", "player") for head, cell in zip(heads, cells, strict=True))
    assert Row(1, dict(zip(heads, cells, strict=True))).cells["kind"] == event.kind
