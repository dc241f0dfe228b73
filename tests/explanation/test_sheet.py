"""The steps against the sheet of the example game, which was made by hand."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

SHEET = tomllib.loads((Path(__file__).resolve().parents[2] / "examples/official-sheet.toml").read_text("utf-8"))


def typed(time: dict[str, Any]) -> str:
    """A time of an answer as the sheet has it."""
    return f"{time['period']} {time['clock']}"


@pytest.fixture
def steps(rinkfold: Any, example: Path) -> Any:
    """The steps of a question, each asked once."""
    return lambda option, seq: rinkfold("explain", example, option, seq, "--json").answer["steps"]


def test_every_release_is_a_step(steps: Any) -> None:
    """Who goes back, at which reading, for which penalty."""
    for release in SHEET["release"]:
        told = [
            (typed(step["at"]), step["team"])
            for step in steps("--penalty", release["penalty"])
            if step["change"] == "returned" and release["penalty"] in step["penalties"]
            if f"{release['team']} {release['who']}" in step["text"]
        ]
        assert told == [(release["at"], release["team"])]


def test_every_part_starts_and_ends_as_the_sheet_has_it(steps: Any) -> None:
    """A step for each start and each end, at the reading worked out by hand."""
    for part in SHEET["part"]:
        told = steps("--penalty", part["penalty"])
        of_it = [step for step in told if part["penalty"] in step["penalties"]]
        assert [step["change"] for step in of_it].count("ended") == len(
            [one for one in SHEET["part"] if one["penalty"] == part["penalty"]]
        )
        if part["start"] and part["kind"] != "game_misconduct":
            assert part["start"] in [typed(step["at"]) for step in of_it if step["change"] == "started"]
        if part["end"]:
            assert part["end"] in [typed(step["at"]) for step in of_it if step["change"] == "ended"]


def test_every_goal_says_what_it_ended(steps: Any) -> None:
    """A goal that ended a minor has a step for it; one that ended none says that it ended nothing, and why."""
    assert SHEET["goal"]
    for goal in SHEET["goal"]:
        told = [step for step in steps("--goal", goal["seq"]) if step["cause"]["seq"] == goal["seq"]]
        judged = next(step for step in told if step["change"] == "goal")
        ended = [seq for step in told if step["change"] == "ended" for seq in step["penalties"]]
        assert ended == goal.get("ended", [])
        assert ("it ends nothing: " in judged["text"]) is not bool(ended)
