"""`rinkfold import`: a table of events becomes a log, or everything that is wrong with it is told."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import GameOpened, Goal, PenaltyAssessed, read_log, replay

OPENS = ("--ruleset", "youth-12u", "--home", "Elm Owls", "--away", "Oak Otters", "--date", "2026-01-10")
TABLE = """kind,period,clock,team,player,scorer,assists,parts,infraction
faceoff,1,12:00,,,,,,
Penalty assessed,1,9:15,HOME,12,,,minor misconduct,tripping
goal,1,8:50,away,,17,16; 18,,
goal,1,8:00,home,,5,unassisted,,
period_end,1,0:00,,,,,,
"""


@pytest.fixture
def table(tmp_path: Path) -> Callable[[str], Path]:
    """A file with this text."""

    def write(text: str) -> Path:
        path = tmp_path / "events.csv"
        path.write_bytes(text.encode())
        return path

    return write


@pytest.fixture
def imported(rinkfold: Any, table: Any, tmp_path: Path) -> Callable[..., Any]:
    """Import this text; what was said, and the log that is there then."""

    def run(text: str, *options: str) -> tuple[Any, Path]:
        target = tmp_path / "game.jsonl"
        return rinkfold("import", table(text), "-o", target, *(options or OPENS)), target

    return run


def test_a_plain_table(imported: Any) -> None:
    """One column a field; words in any case; lists with blanks or semicolons."""
    ran, target = imported(TABLE)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        f"Wrote {target}: the game opened, and 5 events.",
        "minor 2:00 · period 15:00 · board counts down · overtime 5:00, 5 on 5",
        "Rules: youth-12u. The league's own rules and the officials on the ice decide.",
    ]
    log = read_log(target)
    call, goal, unassisted = log.events[2:5]
    assert call == PenaltyAssessed(
        seq=3,
        period=1,
        clock="9:15",
        team="home",
        player="12",
        parts=("minor", "misconduct"),
        infraction="tripping",
        prev=call.prev,
    )
    assert isinstance(goal, Goal)
    assert isinstance(unassisted, Goal)
    assert (goal.scorer, goal.assists, unassisted.assists) == ("17", ("16", "18"), ())


def test_the_log_is_chained_and_pinned_like_a_new_one(imported: Any, rinkfold: Any, tmp_path: Path) -> None:
    """Its first line is that of `new`, to the byte; it verifies, and is played by what it carries."""
    _, target = imported(TABLE)
    new = tmp_path / "new.jsonl"
    assert rinkfold("new", new, *OPENS).code == 0
    assert target.read_bytes().splitlines()[0] == new.read_bytes().splitlines()[0]
    assert rinkfold("verify", target, "--require-chain").code == 0
    assert replay(read_log(target)).goals[0].strength == "power play"


@pytest.mark.parametrize("mark", [";", "\t"])
def test_semicolons_tabs_and_what_windows_writes(mark: str, imported: Any) -> None:
    """Other marks between the cells, CR LF, a byte order mark."""
    lines = ["kind,period,clock,team,scorer,assists", "goal,1,8:50,away,17,16 18"]
    ran, target = imported("\ufeff" + "\r\n".join(line.replace(",", mark) for line in lines) + "\r\n")
    assert (ran.code, ran.err) == (0, "")
    assert read_log(target).events[1] == Goal(
        seq=2,
        period=1,
        clock="8:50",
        team="away",
        scorer="17",
        assists=("16", "18"),
        prev=read_log(target).events[1].prev,
    )


def test_short_entries_in_a_column(imported: Any) -> None:
    """Each is read where the game stands after the rows before, also between rows with fields."""
    ran, target = imported(
        "entry,kind,period,clock,team,scorer,note\n"
        "1 12:00 go,,,,,,\n"
        "915 h pen 12 2 tripping,,,,,,both arms up\n"
        ",goal,1,8:50,away,17,\n"
        "840 h shot x3,,,,,,\n"
        "void last,,,,,,\n"
    )
    assert (ran.code, ran.err) == (0, "")
    events = read_log(target).events
    assert [event.kind for event in events[1:]] == ["faceoff", "penalty_assessed", "goal", "shot", "void"]
    assert (events[2].clock, events[2].note, events[5].target) == ("9:15", "both arms up", 5)  # type: ignore[attr-defined]


def test_everything_that_is_wrong_is_told_at_once(imported: Any) -> None:
    """With line and column, what was found and what was expected; and nothing is written."""
    ran, target = imported(
        "seq,kind,period,clock,team,scorer,assists,parts,targt,entry\n"
        "2,faceoff,1,12:00,,,,,,\n"
        "3,goal,one,8.50,away,17,,,,\n"
        "4,goel,1,8:50,away,17,,,,\n"
        "7,shot,1,,left,,,,,\n"
        "6,penalty_assessed,1,8:00,home,,,minor minr,,\n"
        "7,,1,7:00,,,,,,\n"
        "8,,1,,,,,,,630 h gaol 9\n"
        "9,,,,,,,,,630 h gaol 9\n"
        "10,faceoff,1,6:00,home,,,,,\n"
    )
    assert (ran.code, ran.out) == (2, "")
    assert not target.exists()
    told = [line.partition("events.csv:")[2] for line in ran.err.splitlines()]
    assert [line.split(": ")[:2] for line in told] == [
        ["1", "targt"],
        ["3", "period"],
        ["3", "clock"],
        ["4", "kind"],
        ["5", "seq"],
        ["5", "team"],
        ["6", "parts[1]"],
        ["7", "kind"],
        ["8", "period"],
        ["9", "entry"],
        ["10", "team"],
    ]
    assert told[0].endswith("Write target.")
    assert 'found "one"' in told[1]
    assert "Expected 5, found '7'." in told[4]
    assert "which says it all" in told[8]
    assert "Write: 630 h goal 9" in told[9]


def test_what_points_nowhere_is_told_at_its_row(imported: Any) -> None:
    """A target that is not there, an amendment that does not fit, play after the closing."""
    ran, target = imported(
        "kind,target,changes,reason,outcome,period,clock\n"
        "faceoff,,,,,1,12:00\n"
        "void,40,,wrong,,,\n"
        'amend,2,"{""scorer"": ""7""}",wrong,,,\n'
        "game_closed,,,,played,,\n"
        "faceoff,,,,,1,11:00\n"
    )
    assert ran.code == 2
    assert not target.exists()
    told = [line.partition("events.csv:")[2] for line in ran.err.splitlines()]
    assert [line.split(": ")[:2] for line in told] == [["3", "target"], ["4", "changes.scorer"], ["6", "kind"]]


def test_a_line_is_counted_in_the_file(imported: Any) -> None:
    """Also behind a cell of several lines."""
    ran, _ = imported('kind,text,period\nremark,"one\ntwo",\n\nshot,,x\n')
    assert ran.code == 2
    assert "events.csv:5: period: " in ran.err


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "There is no event in the table."),
        ("kind,period\n", "There is no event in the table."),
        ("kind,period\nfaceoff,1,12:00,\n", "Found 3 cells under 2 heads."),
        ("kind,kind\nremark,\n", "The column is there twice."),
        ("kind,text\nremark,caf\xe9\n".encode("latin-1").decode("utf-8", "surrogateescape"), "not UTF-8"),
    ],
)
def test_what_is_no_table(text: str, told: str, rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 2, one sentence, no file."""
    path, target = tmp_path / "t.csv", tmp_path / "game.jsonl"
    path.write_bytes(text.encode("utf-8", "surrogateescape"))
    ran = rinkfold("import", path, "-o", target, *OPENS)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
    assert not target.exists()


def test_files_that_are_not_there_or_there_already(rinkfold: Any, table: Any, tmp_path: Path) -> None:
    """A log is never written over."""
    target = tmp_path / "game.jsonl"
    target.write_text("mine")
    assert "never opened over another" in rinkfold("import", table(TABLE), "-o", target, *OPENS).err
    assert target.read_text() == "mine"
    assert "is not there" in rinkfold("import", tmp_path / "no.csv", "-o", tmp_path / "x.jsonl", *OPENS).err
    assert "is a folder" in rinkfold("import", tmp_path, "-o", tmp_path / "x.jsonl", *OPENS).err
    ran = rinkfold("import", table(TABLE), "-o", tmp_path / "none" / "x.jsonl", *OPENS)
    assert (ran.code, "Traceback" in ran.err) == (2, False)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["events.csv", "game.jsonl"]


def test_the_log_is_on_the_disk_or_not_there(
    rinkfold: Any, table: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the drive does not confirm is told as not written, and nothing of it is left."""
    real = os.fsync
    synced: list[int] = []

    def sync(number: int) -> None:
        synced.append(os.fstat(number).st_size)
        real(number)

    def fails(number: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    path, target = table(TABLE), tmp_path / "game.jsonl"
    monkeypatch.setattr(os, "fsync", fails)
    ran = rinkfold("import", path, "-o", target, *OPENS)
    assert (ran.code, "The file cannot be written: Input/output error" in ran.err, target.exists()) == (2, True, False)
    monkeypatch.setattr(os, "fsync", sync)
    assert rinkfold("import", path, "-o", target, *OPENS).code == 0
    assert synced[0] == target.stat().st_size


def test_who_opens_the_game(imported: Any, rinkfold: Any, table: Any, tmp_path: Path) -> None:
    """The options or the first row, one of them."""
    ran = rinkfold("import", table(TABLE), "-o", tmp_path / "game.jsonl")
    assert "Give --ruleset, --home and --away." in ran.err
    ran, target = imported(TABLE, "--ruleset", "youth-12u", "--home", "Elm Owls")
    assert "--away must be given too" in ran.err
    opens = (
        "kind,format,game,ruleset,home,away,settings\n"
        'game_opened,1,g,youth-14u,"{""name"": ""Elm""}","{""name"": ""Oak""}","{""lengths.minor"": ""1:00""}"\n'
    )
    assert "The table opens the game itself." in imported(opens)[0].err
    ran = rinkfold("import", table(opens), "-o", target)
    assert (ran.code, ran.err) == (0, "")
    log = read_log(target)
    assert isinstance(log.header, GameOpened)
    assert log.header.pinned == rulesets.pin(rulesets.of(log))
    assert rulesets.of(log).lengths.minor == 600


@pytest.mark.parametrize(
    ("row", "column"),
    [
        ('game_opened,1,g,youth-11u,"{""name"": ""Elm""}","{""name"": ""Oak""}"', "ruleset"),
        ("game_opened,1,g,youth-14u,Elm,Oak", "home"),
        ('game_opened,1,g,youth-14u,"{""name"": ""Elm"", ""size"": 3}","{""name"": ""Oak""}"', "home.size"),
    ],
)
def test_a_first_row_that_is_wrong_is_told_with_the_rest(
    row: str, column: str, rinkfold: Any, table: Any, tmp_path: Path
) -> None:
    """The rows behind it are looked at all the same."""
    path = table(f"kind,format,game,ruleset,home,away\n{row}\nfaceoff,,,,,\n")
    ran = rinkfold("import", path, "-o", tmp_path / "game.jsonl")
    assert ran.code == 2
    assert f"events.csv:2: {column}: " in ran.err
    assert "events.csv:3: period: " in ran.err


def test_amended_rules_are_pinned(imported: Any) -> None:
    """As `record` does."""
    text = 'kind,target,changes,reason\nremark,,,\namend,1,"{""ruleset"": ""youth-10u""}",wrong\n'
    ran, target = imported(text.replace("remark,,,\n", ""))
    assert (ran.code, ran.err) == (0, "")
    assert replay(read_log(target)).rules.name == "youth-10u"


def test_for_programs(imported: Any) -> None:
    """What was written, and what is applied."""
    answer = imported(TABLE, *OPENS, "--json")[0].answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "file", "events", "applied"}
    assert answer["events"] == 6
