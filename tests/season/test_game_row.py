"""One game to one summary."""

from __future__ import annotations

import json
import os
import pickle
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

from rinkfold.cli.season import game_row as module
from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.summaries import FindingCount, GameSummary, Record
from rinkfold.timeline import GameClosed, Goal, Remark, parse_log
from rinkfold.timeline.record import log_bytes

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "game.jsonl"


def record_of(summary: GameSummary) -> Record:
    """The record, which must be there."""
    assert summary.record is not None, summary.problems
    return summary.record


def test_the_example_game() -> None:
    """As its sheet, made by hand, has it: 5 to 4 in overtime."""
    record = record_of(game_row(EXAMPLE))
    assert (record.home.name, record.home.goals, record.away.goals) == ("Larkmoor Lanterns", 5, 4)
    assert (record.decided_in, record.winner, record.outcome, record.counts) == ("overtime", "home", "played", True)
    assert record.rules == ("youth-14u", "overtime.skaters 3")
    assert sum(player.goals for player in record.players) == 9
    assert sum(goalie.shots for goalie in record.goalies) <= record.home.shots + record.away.shots
    assert sum(one.minutes for one in record.penalties) == record.home.minutes + record.away.minutes


def test_a_path_and_bytes_give_the_same() -> None:
    """But for what the file is called."""
    assert game_row(EXAMPLE, "x") == game_row(str(EXAMPLE), "x") == game_row(EXAMPLE.read_bytes(), "x")
    assert game_row(EXAMPLE).file == str(EXAMPLE)


def test_names_are_kept_only_when_asked_for() -> None:
    """No name of a player is in a summary otherwise."""
    without, with_names = record_of(game_row(EXAMPLE)), record_of(game_row(EXAMPLE, names=True))
    assert {one.name for one in without.players} | {one.name for one in without.goalies} == {None}
    assert None not in {one.name for one in with_names.players} | {one.name for one in with_names.goalies}
    unnamed = [evolve(one, name=None) for one in with_names.players]
    assert unnamed == list(without.players)


def test_a_summary_can_be_sent() -> None:
    """To another process, or a cluster."""
    summary = game_row(EXAMPLE)
    assert pickle.loads(pickle.dumps(summary)) == summary


def test_every_problem_of_a_file_is_told(tmp_path: Path) -> None:
    """Nothing is raised, whatever is wrong with the file."""
    missing = game_row(tmp_path / "none.jsonl", "none.jsonl")
    assert missing.record is None
    assert missing.problems[0].startswith("none.jsonl: The file cannot be read")
    broken = sorted((ROOT / "tests" / "data" / "broken_logs").glob("*.jsonl"))
    assert broken
    for path in broken:
        summary = game_row(path, path.name)
        assert summary.record is None
        assert "\n".join(summary.problems) + "\n" == path.with_suffix(".expected").read_text(encoding="utf-8")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs a system that has pipes in folders")
def test_a_pipe_or_a_device_is_no_log(tmp_path: Path) -> None:
    """Neither is read, since it may never end; a link to a log is one."""
    os.mkfifo(tmp_path / "pipe.jsonl")
    (tmp_path / "zero.jsonl").symlink_to("/dev/zero")
    (tmp_path / "link.jsonl").symlink_to(EXAMPLE)
    for name in ("pipe.jsonl", "zero.jsonl"):
        told = f"{name}: The file cannot be read: it is a pipe or a device. Put a copy of the log there instead."
        assert game_row(tmp_path / name, name).problems == (told,)
    assert game_row(tmp_path / "link.jsonl", "x") == game_row(EXAMPLE, "x")
    assert game_row(tmp_path, "x").problems == ("x: The file cannot be read: it is a folder. Name the log itself.",)


NUMBERS = {
    "format": {"seq": 1, "kind": "game_opened", "format": -(10**10)},
    "minutes": {"kind": "penalty_assessed", "parts": ["minor"], "minutes": 1e308},
    "whole minutes": {"kind": "penalty_assessed", "parts": ["minor"], "minutes": 10**400},
    "count": {"kind": "shot", "count": int("9" * 4300)},
    "a count of 31 figures": {"kind": "shot", "count": 10**30},
    "period": {"kind": "shot", "period": 300_000_000},
}


@pytest.mark.parametrize("which", NUMBERS)
def test_a_number_that_is_no_game_is_a_problem_of_the_file(which: str) -> None:
    """It is refused where the log is read, in a few words and at once, so that nothing has to be reckoned with it."""
    header = {"seq": 1, "kind": "game_opened", "format": 1, "game": "g", "ruleset": "adult"}
    header |= {"home": {"name": "Elm"}, "away": {"name": "Oak"}}
    wrong = {"period": 1, "clock": "9:15", "team": "home", "seq": 2, **NUMBERS[which]}
    lines = [header | wrong] if which == "format" else [header, wrong, {**wrong, "seq": 3}]
    for line in lines if which == "format" else ():
        del line["period"], line["clock"], line["team"]
    data = "".join(f"{json.dumps(line)}\n" for line in lines).encode()
    problems = game_row(data, "g.jsonl").problems
    assert problems
    assert all("fault" not in told and len(told) < 200 for told in problems)


def test_a_fault_in_the_program_is_one_game(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is told with the game, and no other game is lost."""

    def fails(*_: Any) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(module, "replay", fails)
    (told,) = game_row(EXAMPLE, "game.jsonl").problems
    assert told == (
        "game.jsonl: A fault in rinkfold itself: ZeroDivisionError: division by zero. Please report it with the log."
    )


def with_closing(outcome: str | None) -> Record:
    """The example game closed otherwise, or not at all."""
    events = [event for event in parse_log(EXAMPLE.read_bytes()).events if not isinstance(event, GameClosed)]
    if outcome is not None:
        events.append(GameClosed(seq=0, outcome=outcome))  # type: ignore[arg-type]
    return record_of(game_row(log_bytes(events)))


@pytest.mark.parametrize(
    ("outcome", "counts"),
    [("played", True), ("shortened", True), (None, True), ("abandoned", False), ("forfeit", False)],
)
def test_what_counts(outcome: str | None, counts: bool) -> None:
    """A game that was decided; of an abandoned one and a forfeit the league says what they count."""
    record = with_closing(outcome)
    assert (record.outcome, record.counts) == (outcome or "open", counts)


def test_a_level_game_that_is_open_does_not_count(tiny: Path) -> None:
    """It may go on; closed it is a tie."""
    events = parse_log((tiny / "game-3.jsonl").read_bytes()).events
    level = [event for event in events if event.kind not in ("shootout_attempt", "game_closed")]
    assert not record_of(game_row(log_bytes(level))).counts
    closed = record_of(game_row(log_bytes([*level, GameClosed(seq=0, outcome="played")])))
    assert (closed.counts, closed.winner) == (True, None)


def test_who_kept_the_record() -> None:
    """The scorekeeper among the officials, or else whoever wrote most lines, or nobody."""
    log = parse_log((ROOT / "tests" / "season" / "data" / "game-1.jsonl").read_bytes())
    assert record_of(game_row(log_bytes(log.events))).scorekeeper == "Ada Birk"
    header = evolve(log.header, officials=None)
    remarks = [Remark(seq=0, text="x", by=who) for who in ("box", "table", "table")]
    assert record_of(game_row(log_bytes([header, *remarks]))).scorekeeper == "table"
    assert record_of(game_row(log_bytes([header]))).scorekeeper is None


def test_an_own_goal_counts_for_its_scorer() -> None:
    """Who is of the side that it counts for; one without a scorer is nobody's."""
    header = parse_log(EXAMPLE.read_bytes()).header
    own = Goal(seq=2, period=1, clock="9:15", team="away", scorer="17", own_goal=True)
    record = record_of(game_row(log_bytes([header, own])))
    assert (record.home.goals, record.away.goals) == (0, 1)
    assert [(one.team, one.number, one.goals) for one in record.players] == [("away", "17", 1)]
    assert record_of(game_row(log_bytes([header, evolve(own, scorer=None)]))).players == ()


def test_findings_are_counted(tiny: Path) -> None:
    """By their code."""
    found = record_of(game_row(tiny / "game-4.jsonl")).findings
    assert found == (FindingCount("in_the_box", "error", 1), FindingCount("whistles_not_kept", "note", 1))
