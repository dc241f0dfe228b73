"""`rinkfold export`: answers as tables."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from live.games import game_of, written

from rinkfold.cli.interchange.tables import TABLES, as_csv
from rinkfold.timeline import read_log


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_goals(rinkfold: Any, example: Path) -> None:
    """A row a goal: score, strength, skaters, what it ended."""
    ran = rinkfold("export", example, "goals")
    assert ran.code == 0
    assert ran.out.splitlines()[:2] == [
        "seq,period,clock,team,scorer,assist_1,assist_2,home_score,away_score,strength,home_skaters,away_skaters,ended,"
        "empty_net,penalty_shot,awarded,own_goal",
        "43,1,8:52,home,10,19,4,1,0,power play,5,4,37,no,no,no,no",
    ]
    assert ran.err == (
        "Rules: youth-14u, with overtime.skaters 3. The league's own rules and the officials on the ice decide.\n"
    )


def test_penalties_goalies_and_segments(rinkfold: Any, example: Path) -> None:
    """A row a part; a row a goalkeeper and period; a row a stretch."""
    parts = rows(rinkfold("export", example, "penalties").out)
    assert [parts[0][head] for head in ("seq", "player", "part", "kind", "start", "end", "served_s", "out", "how")] == [
        *("17", "12", "1", "minor", "13:10", "11:10", "120", "11:10", "on expiry")
    ]
    lines = rows(rinkfold("export", example, "goalies").out)
    assert [line["period"] for line in lines[:3]] == ["1", "2", "game"]
    stretches = rows(rinkfold("export", example, "segments").out)
    assert [stretches[1][head] for head in ("from", "to", "start_s", "end_s", "label")] == [
        *("13:10", "11:10", "110", "230", "4 on 5")
    ]


@pytest.mark.parametrize(("table", "command", "key"), [("segments", "strength", "segments")])
def test_the_table_is_what_the_command_answers(
    table: str, command: str, key: str, rinkfold: Any, example: Path
) -> None:
    """The same columns with the same values as the command's own JSON."""
    answer = rinkfold("export", example, table, "--json").answer
    found = [dict(zip(answer["columns"], row, strict=True)) for row in answer["rows"]]
    assert found == rinkfold(command, example, "--json").answer[key]


def test_the_sums_are_those_of_the_summary(rinkfold: Any, example: Path) -> None:
    """Goals, and goalkeepers' lines."""
    summary = rinkfold("summary", example, "--json").answer
    assert [row["seq"] for row in rows(rinkfold("export", example, "goals").out)] == [
        str(goal["seq"]) for goal in summary["goals"]
    ]
    totals = [row for row in rows(rinkfold("export", example, "goalies").out) if row["period"] == "game"]
    assert [(row["goalie"], row["shots"], row["saves"], row["time_s"]) for row in totals] == [
        (line["goalie"] or "", str(line["shots"]), str(line["saves"]), str(line["time_s"]))
        for line in summary["goalies"]
    ]


def test_names_only_where_they_are_switched_on(rinkfold: Any, example: Path) -> None:
    """None in any table, and a column for each with --names."""
    header = read_log(example).header
    names = [player.name for sheet in (header.home, header.away) for player in sheet.roster or () if player.name]
    for table in TABLES:
        plain = rinkfold("export", example, table).out
        assert not [name for name in names if name in plain]
        assert [name for name in names if name in rinkfold("export", example, table, "--names").out]
    (first, *_) = rows(rinkfold("export", example, "goals", "--names").out)
    assert (first["scorer"], first["scorer_name"]) == ("10", "Maren Oakhollow")


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 5000), st.sampled_from(sorted(TABLES)), st.booleans())
def test_every_table_of_any_game(seed: int, name: str, names: bool) -> None:
    """A cell under each head, and a row for each thing."""
    game = game_of(written(seed))
    table = TABLES[name](game, names)
    assert {len(row) for row in table.rows} <= {len(table.heads)}
    assert len(set(table.heads)) == len(table.heads)
    counts = {
        "goals": len(game.goals),
        "penalties": sum(len(life.parts) for life in game.penalties),
        "goalies": sum(len(line.periods) + 1 for line in game.goalies),
        "segments": len(game.strength_segments),
    }
    assert len(rows(as_csv(table))) == counts[name]


def test_a_file(rinkfold: Any, example: Path, tmp_path: Path) -> None:
    """Written whole, in UTF-8; never over another without --force, and never over the log."""
    target = tmp_path / "goals.csv"
    ran = rinkfold("export", example, "goals", "-o", target)
    assert ran.out.splitlines()[0] == f"Wrote {target}: {len(rows(target.read_text('utf-8')))} rows."
    again = rinkfold("export", example, "goals", "-o", target)
    assert (again.code, again.out) == (2, "")
    assert "overwrite it with --force" in again.err
    assert rinkfold("export", example, "goals", "-o", target, "--force").code == 0
    log = tmp_path / "game.jsonl"
    log.write_bytes(example.read_bytes())
    assert "is the log itself" in rinkfold("export", log, "goals", "-o", log, "--force").err
    assert log.read_bytes() == example.read_bytes()
    assert "is a folder" in rinkfold("export", log, "goals", "-o", tmp_path).err
    assert rinkfold("export", log, "goals", "-o", tmp_path / "no" / "goals.csv").code == 2
    assert sorted(path.name for path in tmp_path.iterdir()) == ["game.jsonl", "goals.csv"]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["goal"], "There is no table 'goal'. Write goals."),
        (["chart"], "Write one of events, goals, penalties, goalies, segments, log."),
        ([], "No table is named."),
        (["log"], "leave the names out with --numbers-only"),
        (["log", "--numbers-only", "--json"], "Leave --json out."),
        (["goals", "--numbers-only", "--names"], "Leave one of them out."),
    ],
)
def test_what_is_not_there_or_does_not_go_together(
    arguments: list[str], told: str, rinkfold: Any, example: Path
) -> None:
    """Exit code 2, and what to write."""
    ran = rinkfold("export", example, *arguments)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err


def test_a_text_that_would_be_a_formula(rinkfold: Any, tmp_path: Path) -> None:
    """Opened in a spreadsheet it is a text."""
    log = tmp_path / "game.jsonl"
    opens = ("--ruleset", "youth-12u", "--home", "Elm", "--away", "Oak")
    assert rinkfold("new", log, *opens).code == 0
    assert rinkfold("record", log, "9:15 h pen 12 2 =1+1", "9:15 h pen 13 2 @sum").code == 0
    found = [row["infraction"] for row in rows(rinkfold("export", log, "penalties").out)]
    assert found == ["'=1+1", "'@sum"]
