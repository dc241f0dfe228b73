"""`rinkfold strength`: skaters a side."""

from __future__ import annotations

import tomllib
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

SHEET = tomllib.loads((Path(__file__).resolve().parents[2] / "examples/official-sheet.toml").read_text("utf-8"))
SKATERS = {"home", "away", "home_goalie", "away_goalie", "label"}


def test_the_segments_are_those_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Skaters of the whole game; a change of goalkeeper cuts a stretch too."""
    told: list[tuple[int, str, str, int, int]] = []
    for one in rinkfold("strength", example, "--json").answer["segments"]:
        row = (one["period"], one["from"], one["to"], one["home"], one["away"])
        if told and told[-1][0] == row[0] and told[-1][3:] == row[3:]:
            row = (row[0], told.pop()[1], *row[2:])
        told.append(row)
    expected = []
    for one in SHEET["strength"]:
        (period, begins), (_, ends) = one["from"].split(), one["to"].split()
        expected.append((int(period), begins, ends, one["home"], one["away"]))
    assert told == expected


def test_the_shape_of_the_segments(rinkfold: Any, example: Path) -> None:
    """Field for field as the contract says; whole seconds are integers, others have tenths; no gaps."""
    answer = rinkfold("strength", example, "--json").answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "segments"}
    segments = answer["segments"]
    assert all(set(one) == SKATERS | {"period", "from", "to", "start_s", "end_s"} for one in segments)
    assert segments[1] == {
        "period": 1,
        "from": "13:10",
        "to": "11:10",
        "start_s": 110,
        "end_s": 230,
        "home": 4,
        "away": 5,
        "home_goalie": "31",
        "away_goalie": "30",
        "label": "4 on 5",
    }
    assert [type(one["start_s"]) for one in segments[:2]] == [int, int]
    assert 2658.8 in [one["end_s"] for one in segments]
    assert segments[0]["start_s"] == 0
    assert all(one["end_s"] == following["start_s"] for one, following in pairwise(segments))
    assert segments[-1]["end_s"] == SHEET["final"]["played_s"]


def test_at_a_moment(rinkfold: Any, example: Path) -> None:
    """The state after everything at that reading, and the one before."""
    answer = rinkfold("strength", example, "--at", "OT 3:26", "--json").answer
    assert {name: answer[name] for name in answer if name not in {"rinkfold", "game", "ruleset"}} == {
        "at": {"period": 4, "clock": "3:26"},
        "home": 4,
        "away": 4,
        "home_goalie": "1",
        "away_goalie": "30",
        "label": "4 on 4",
        "before": {"home": 3, "away": 4, "home_goalie": "1", "away_goalie": "30", "label": "3 on 4"},
    }


def test_now_and_if_play_resumed(rinkfold: Any, started: Path) -> None:
    """A game that goes on is answered as of now; in a stoppage also as if play resumed."""
    in_play = rinkfold("strength", started, "--json").answer
    assert in_play["now"]["label"] == "4 on 5"
    assert "if_play_resumed" not in in_play
    rinkfold("record", started, "11:00 a pen 24 2 holding")
    stopped = rinkfold("strength", started, "--json").answer
    assert stopped["if_play_resumed"]["at"] == {"period": 2, "clock": "11:00"}
    assert stopped["if_play_resumed"]["label"] == "4 on 4"
    assert set(stopped["if_play_resumed"]) == set(stopped["now"]) == SKATERS | {"at", "before"}


def test_every_second(rinkfold: Any, example: Path) -> None:
    """One row for each second played, the second named by the reading at which it begins."""
    seconds = rinkfold("strength", example, "--every-second", "--json").answer["seconds"]
    assert len(seconds) == SHEET["final"]["played_s"]
    assert all(set(one) == SKATERS | {"period", "clock"} for one in seconds)
    labels = {(one["period"], one["clock"]): one["label"] for one in seconds}
    assert (labels[1, "13:11"], labels[1, "13:10"], labels[1, "11:11"], labels[1, "11:10"]) == (
        "5 on 5",
        "4 on 5",
        "4 on 5",
        "5 on 5",
    )


def test_the_tables(rinkfold: Any, example: Path, golden: Any) -> None:
    """Stretches, an instant, seconds."""
    assert rinkfold("strength", example).out == golden("strength")
    assert rinkfold("strength", example, "--at", "OT 3:26").out == golden("strength_ot_3_26")
    lines = rinkfold("strength", example, "--every-second").out.splitlines()
    assert lines[109:112] == ["1   13:11  5 on 5  31, 30", "1   13:10  4 on 5  31, 30", "1   13:09  4 on 5  31, 30"]


def test_one_moment_or_every_second(rinkfold: Any, example: Path) -> None:
    """Both at once is wrong usage."""
    ran = rinkfold("strength", example, "--at", "2 7:42", "--every-second")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "--at asks for one game time and --every-second for all of them. Leave one of them out.\n"


def test_before_the_first_faceoff(rinkfold: Any, fresh: Path) -> None:
    """Nothing played yet is said in words and as an empty list."""
    assert rinkfold("strength", fresh).out.splitlines()[0] == "No time has been played yet."
    assert rinkfold("strength", fresh, "--json").answer["segments"] == []


@pytest.mark.parametrize(
    "at", ["1 7.42", "1 742", "1 7,42", "P1 7:42", "p1 742", "1st 7:42", "1st period 7:42", "1 7: 42"]
)
def test_the_time_is_typed_as_in_entries(rinkfold: Any, example: Path, at: str) -> None:
    """Whatever an entry takes for a period and a reading, `--at` takes."""
    assert rinkfold("strength", example, "--at", at).out == rinkfold("strength", example, "--at", "1 7:42").out


@pytest.mark.parametrize("at", ["742", "1 58", "late 1 7:42", "1 7:42 go", "1", "1st"])
def test_a_time_that_is_none_or_not_clear(rinkfold: Any, example: Path, at: str) -> None:
    """Without a period, without a reading, or with two figures that lack either a colon or a period."""
    ran = rinkfold("strength", example, "--at", at)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"{at!r} is not a game time.")
