"""`rinkfold summary`: what is read aloud at the horn."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

SHEET = tomllib.loads((Path(__file__).resolve().parents[2] / "examples/official-sheet.toml").read_text("utf-8"))


def test_totals_are_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Goals by period, result, minutes, power plays."""
    answer = rinkfold("summary", example, "--json").answer
    assert set(answer) == {
        "rinkfold", "game", "ruleset", "goals_by_period", "final", "goals", "goalies", "penalty_minutes", "power_plays",
    }  # fmt: skip
    assert answer["goals_by_period"] == SHEET["goals_by_period"]
    assert answer["final"] == {"home": 5, "away": 4, "decided_in": "overtime", "winner": "home"}
    for team in ("home", "away"):
        minutes, plays = SHEET["penalty_minutes"][team], SHEET["power_plays"][team]
        assert answer["penalty_minutes"][team] == {"total": minutes["total"], "players": minutes["players"]}
        assert answer["power_plays"][team] == {name: plays[name] for name in ("count", "goals", "time_s")}


def test_goals_are_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Scorer, assists, strength and what each goal ended; field for field as the contract says."""
    goals = rinkfold("summary", example, "--json").answer["goals"]
    assert len(goals) == len(SHEET["goal"])
    for goal, expected in zip(goals, SHEET["goal"], strict=True):
        at = goal.pop("at")
        assert f"{at['period']} {at['clock']}" == expected["at"]
        assert set(goal) == {
            "seq", "team", "scorer", "assists", "strength", "empty_net", "penalty_shot", "awarded", "own_goal",
            "label", "ended",
        }  # fmt: skip
        assert {name: goal[name] for name in goal if name in expected} == {
            name: expected[name] for name in expected if name in goal
        }
    assert [goal["label"] for goal in goals[:3]] == ["5 on 4", "4 on 5", "4 on 5"]


def test_goalkeepers_are_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Shots, goals and saves by period, and time in net."""
    goalies = rinkfold("summary", example, "--json").answer["goalies"]
    assert [set(one) for one in goalies] == [{"team", "goalie", "periods", "shots", "goals", "saves", "time_s"}] * 3
    assert [
        {**period, "team": one["team"], "goalie": one["goalie"]} for one in goalies for period in one["periods"]
    ] == [
        {name: row[name] for name in ("period", "shots", "goals", "saves", "team", "goalie")} for row in SHEET["goalie"]
    ]
    totals = ("team", "goalie", "shots", "goals", "saves", "time_s")
    assert [{name: one[name] for name in totals} for one in goalies] == SHEET["goalie_total"]


def test_the_table(rinkfold: Any, example: Path, golden: Any) -> None:
    """Score, goals, goalkeepers, minutes, power plays."""
    assert rinkfold("summary", example).out == golden("summary")


def test_an_unfinished_game_is_not_decided(rinkfold: Any, started: Path) -> None:
    """No winner is named before the end."""
    assert "  Not decided yet." in rinkfold("summary", started).out.splitlines()
    assert rinkfold("summary", started, "--json").answer["final"] == {
        "home": 1,
        "away": 1,
        "decided_in": None,
        "winner": None,
    }


def test_an_empty_record(rinkfold: Any, fresh: Path) -> None:
    """Every section says that there is nothing yet."""
    lines = rinkfold("summary", fresh).out.splitlines()
    assert "  None." in lines
    assert "  Nobody is named in net." in lines


def test_overtime_of_a_game_that_was_not_level_decides_nothing(rinkfold: Any, fresh: Path) -> None:
    """A game that was won at the last horn was won in regulation, whatever was written after it."""
    ends = ("1 0:00 end period", "2 0:00 end period", "3 0:00 end period", "OT 0:00 end period")
    assert rinkfold("record", fresh, "1 5:00 away goal 9", *ends).code == 0
    assert rinkfold("summary", fresh, "--json").answer["final"]["decided_in"] == "regulation"
    assert "  Away won in regulation." in rinkfold("summary", fresh).out.splitlines()


@pytest.mark.parametrize("outcome", ["abandoned", "forfeit"])
def test_who_won_a_game_that_was_not_played_out_is_the_leagues_to_say(rinkfold: Any, fresh: Path, outcome: str) -> None:
    """Neither the totals nor the report name a winner, whatever the goals were."""
    assert rinkfold("record", fresh, "1 5:00 home goal 9", f"close {outcome} signed Jo").code == 0
    final = rinkfold("summary", fresh, "--json").answer["final"]
    assert final == {"home": 1, "away": 0, "decided_in": None, "winner": None}
    assert f"  {outcome.capitalize()}: the league says who won." in rinkfold("summary", fresh).out.splitlines()
    page = fresh.with_suffix(".html")
    assert rinkfold("report", fresh, "-o", page).code == 0
    assert f"{outcome}; the league says who won" in page.read_text("utf-8")
