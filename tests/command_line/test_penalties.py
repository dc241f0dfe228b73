"""`rinkfold penalties`: the life of every penalty."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

SHEET = tomllib.loads((Path(__file__).resolve().parents[2] / "examples/official-sheet.toml").read_text("utf-8"))


def typed(time: dict[str, Any] | None) -> str:
    """A time of an answer as the sheet has it."""
    return "" if time is None else f"{time['period']} {time['clock']}"


def test_every_part_is_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Start, end, seconds served and fate of each part."""
    told = [
        (life["penalty"], index, part["kind"], typed(part["start"]), typed(part["end"]), part["served_s"], part["fate"])
        for life in rinkfold("penalties", example, "--json").answer["penalties"]
        for index, part in enumerate(life["parts"])
    ]
    expected = [
        (one["penalty"], one["index"], one["kind"], one["start"], one["end"], one["served"], one["fate"])
        for one in SHEET["part"]
    ]
    assert told == expected


def test_every_release_is_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Who goes back, when, and whether by the clock or at a whistle."""
    told = {
        (life["team"], one["who"], life["penalty"], typed(one["at"]), one["how"])
        for life in rinkfold("penalties", example, "--json").answer["penalties"]
        for one in life["returns"]
    }
    assert told == {(one["team"], one["who"], one["penalty"], one["at"], one["how"]) for one in SHEET["release"]}


def test_the_shape_for_programs(rinkfold: Any, example: Path) -> None:
    """Field for field as the contract says."""
    answer = rinkfold("penalties", example, "--json").answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "penalties"}
    assert next(life for life in answer["penalties"] if life["penalty"] == 37) == {
        "penalty": 37,
        "team": "away",
        "player": None,
        "staff": None,
        "served_by": "4",
        "infraction": "too many players on the ice",
        "at": {"period": 1, "clock": "9:45"},
        "announced": "2:00",
        "parts": [
            {
                "kind": "bench_minor",
                "length": "2:00",
                "start": {"period": 1, "clock": "9:45"},
                "end": {"period": 1, "clock": "8:52"},
                "served_s": 53,
                "fate": "ended by goal",
            }
        ],
        "returns": [{"who": "4", "at": {"period": 1, "clock": "8:52"}, "how": "at stoppage"}],
    }


def test_the_table(rinkfold: Any, example: Path, golden: Any) -> None:
    """One line a part."""
    assert rinkfold("penalties", example).out == golden("penalties")


def test_a_penalty_that_lasts_has_a_state(rinkfold: Any, started: Path) -> None:
    """Of the double minor at 12:20 the first half runs and the second waits."""
    life = next(one for one in rinkfold("penalties", started, "--json").answer["penalties"] if one["penalty"] == 115)
    assert [(part["fate"], part["served_s"], part["end"]) for part in life["parts"]] == [
        ("running", 58, None),
        ("waiting", 0, None),
    ]


def test_a_game_without_penalties(rinkfold: Any, fresh: Path) -> None:
    """Said in words."""
    assert rinkfold("penalties", fresh).out.splitlines()[0] == "No penalties."
