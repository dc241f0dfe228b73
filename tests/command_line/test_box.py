"""`rinkfold box`: who sits, and when and on what condition each may leave."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

ROW = ("penalty", "part", "player", "sits", "state", "remaining")
UP = "0:00"
HEAD = {"rinkfold", "game", "ruleset"}
TELLING = tomllib.loads((Path(__file__).resolve().parents[2] / "examples/telling-moments.toml").read_text("utf-8"))
SITTING = {
    "player", "sits", "penalty", "infraction", "part", "state", "remaining", "serves", "out", "how", "time_up",
    "ends_on_goal", "assumed", "because",
}  # fmt: skip


@pytest.mark.parametrize("moment", TELLING["moment"], ids=lambda moment: moment["at"])
def test_each_telling_moment_is_answered_as_worked_out_by_hand(
    moment: dict[str, Any], rinkfold: Any, example: Path
) -> None:
    """Who sits for whom, for which part, in which state and how long still, is as worked out by hand."""
    answer = rinkfold("box", example, "--at", moment["at"], "--json").answer
    for side in ("home", "away"):
        assert compared(answer[side]) == compared(moment[f"{side}_box"])


def compared(rows: list[dict[str, Any]]) -> list[tuple[Any, ...]]:
    """What of the rows is compared, by penalty; whose time is up has served, whatever the state is called."""
    return sorted(
        tuple(UP if row["remaining"] == UP and name == "state" else row[name] for name in ROW) for row in rows
    )


def test_the_shape_for_programs(rinkfold: Any, example: Path) -> None:
    """Field for field as the contract says."""
    answer = rinkfold("box", example, "--at", "2 6:30", "--json").answer
    assert set(answer) == HEAD | {"at", "home", "away"}
    assert answer["rinkfold"] == 1
    assert answer["game"] == "lan-pik-2026-11-14"
    assert answer["at"] == {"period": 2, "clock": "6:30"}
    assert answer["home"] == []
    first = answer["away"][0]
    assert set(first) == SITTING
    assert {name: value for name, value in first.items() if name != "because"} == {
        "player": "5",
        "sits": "5",
        "penalty": 140,
        "infraction": "interference",
        "part": "minor",
        "state": "running",
        "remaining": "0:20",
        "serves": [{"penalty": 140, "part": "minor"}],
        "out": {"period": 2, "clock": "5:35"},
        "how": "when a place opens",
        "time_up": {"period": 2, "clock": "6:10"},
        "ends_on_goal": True,
        "assumed": False,
    }
    assert first["because"]
    assert all(set(reason) == {"rule", "source", "seq", "text"} for one in answer["away"] for reason in one["because"])


def test_the_ruleset_and_who_decides_stand_in_every_answer(rinkfold: Any, example: Path) -> None:
    """Whose rules, what was overridden, and that the league and the officials decide."""
    assert rinkfold("box", example, "--json").answer["ruleset"] == {
        "name": "youth-14u",
        "overridden": {"overtime.skaters": 3},
        "note": "The league's own rules and the officials on the ice decide.",
    }


def test_the_table(rinkfold: Any, example: Path, golden: Any) -> None:
    """One line a sitter: number, part, what for, time left, when and on what condition he may leave."""
    assert rinkfold("box", example, "--at", "2 6:30").out == golden("box_2_6_30")


def test_stand_ins_and_ejected_players(rinkfold: Any, example: Path, golden: Any) -> None:
    """A stand-in is shown with the one he sits for, and who is out of the game is called so."""
    assert rinkfold("box", example, "--at", "3 9:00").out == golden("box_3_9_00")


def test_reasons_are_one_step_away(rinkfold: Any, example: Path, golden: Any) -> None:
    """With --why each line is followed by rule, source and event; with --names the roster's names stand there."""
    assert rinkfold("box", example, "--at", "3 9:00", "--why", "--names").out == golden("box_3_9_00_why_names")


def test_numbers_alone_by_default(rinkfold: Any, example: Path) -> None:
    """No name of a player is shown unless it is asked for."""
    assert "Merrywick" not in rinkfold("box", example, "--at", "3 9:00").out
    assert "21 Hugo Merrywick" in rinkfold("box", example, "--at", "3 9:00", "--names").out


def test_a_game_that_is_over(rinkfold: Any, example: Path) -> None:
    """Without --at the end of the game, and that it is over."""
    assert rinkfold("box", example).out.splitlines()[0] == "OT 1:48: home 3 on 3 away, the game is over"


def test_a_stoppage_is_answered_as_if_play_resumed(rinkfold: Any, started: Path) -> None:
    """A penalty just called is in the box, with the whole of its time."""
    assert rinkfold("record", started, "11:00 a pen 24 2 holding").code == 0
    lines = rinkfold("box", started).out.splitlines()
    assert lines[0] == "2 11:00: home 4 on 4 away, stopped, as if play resumed now"
    assert "  24  minor, holding  2:00 left  out at 9:00 on the board" in lines


def test_a_reading_ahead_supposes_that_nothing_else_happens(rinkfold: Any, started: Path) -> None:
    """Beyond the record the clock runs on, and the answer says so."""
    lines = rinkfold("box", started, "--at", "2 9:30").out.splitlines()
    assert lines[0] == "2 9:30: home 4 on 5 away, if nothing else happens"
    assert "  9  minor, high-sticking  1:10 left  out at 8:20 on the board; a goal against ends it" in lines


def test_a_double_minor_is_ended_by_halves(rinkfold: Any, example: Path) -> None:
    """While the first half runs, a goal ends that half only, and the line says so."""
    line = next(
        line for line in rinkfold("box", example, "--at", "2 12:00").out.splitlines() if line.startswith("  9 ")
    )
    what = "  9  double minor, high-sticking  3:40 left"
    assert line == f"{what}  out at 8:20 on the board; a goal against ends the part that runs"


def test_an_injured_player_is_never_told_to_go_back(rinkfold: Any, started: Path) -> None:
    """The line says that the record has him as injured."""
    rinkfold("record", started, "h roster 9 injured")
    line = next(line for line in rinkfold("box", started).out.splitlines() if line.startswith("  9 "))
    assert line.endswith("; recorded as injured")


def test_all_that_somebody_still_serves_is_named(rinkfold: Any, fresh: Path) -> None:
    """Time left and what it is made of belong together: a double minor, a minor and a misconduct."""
    rinkfold("record", fresh, "1 14:00 home pen 3 2+2 roughing", "1 13:00 away pen 6 2+10 hooking served 8")
    lines = [" ".join(line.split()) for line in rinkfold("box", fresh).out.splitlines()]
    assert any(line.startswith("3 double minor, roughing 3:00 left") for line in lines)
    assert any(line.startswith("8 for 6 minor, hooking 2:00 left") for line in lines)
    assert any(line.startswith("6 misconduct, hooking 10:00 left") for line in lines)


def test_where_no_side_plays_short_nothing_is_called_offset(rinkfold: Any, tmp_path: Path) -> None:
    """A lone minor of the youngest is served while a substitute skates; nothing was offset."""
    path = tmp_path / "small.jsonl"
    rinkfold("new", path, "--ruleset", "youth-8u", "--home", "Ash", "--away", "Oak")
    rinkfold("record", path, "4:00 home pen 2 2 tripping", "3:30 go", "1:00 stop")
    said = rinkfold("box", path, "--at", "1 3:00").out
    assert "not short; time up at 2:30" in said
    assert "offset" not in said + rinkfold("penalties", path).out
