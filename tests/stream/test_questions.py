"""What can be asked of the stream."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from stream.talking import EXAMPLE, MINOR, OPENING, codes, talk

from rinkfold.cli.main import app


@pytest.mark.parametrize("name", ["strength", "box", "penalties", "summary", "check"])
def test_a_question_is_answered_as_the_command_answers(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """At each of several points of the example game, field by field."""
    lines = EXAMPLE.read_bytes().splitlines()
    for count in (1, 60, 150, len(lines)):
        path = tmp_path / f"{count}.jsonl"
        path.write_bytes(b"\n".join(lines[:count]) + b"\n")
        with pytest.raises(SystemExit):
            app([name, str(path), "--json"])
        answer = talk(*lines[:count], {"ask": name})[-1]
        assert (answer.pop("line"), answer.pop("ask")) == (count + 1, name)
        assert answer == json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("name", ["strength", "box"])
def test_a_question_about_a_time(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """As the command with --at."""
    with pytest.raises(SystemExit):
        app([name, str(EXAMPLE), "--at", "OT 3:26", "--json"])
    answer = talk(*EXAMPLE.read_bytes().splitlines(), {"ask": name, "at": "OT 3:26"})[-1]
    del answer["line"], answer["ask"]
    assert answer == json.loads(capsys.readouterr().out)


def test_now() -> None:
    """Score, skaters and box in one; in a stoppage as if play resumed."""
    answer = talk(OPENING, MINOR, {"ask": "now"})[2]
    assert set(answer) == {
        "rinkfold", "line", "ask", "game", "ruleset", "at", "in_play", "over", "score", "strength", "box",
    }  # fmt: skip
    assert (answer["at"], answer["in_play"], answer["over"]) == ({"period": 1, "clock": "9:15"}, False, False)
    assert (answer["score"], answer["strength"]["label"]) == ({"home": 0, "away": 0}, "4 on 5")
    assert [one["player"] for one in answer["box"]["home"]] == ["12"]
    assert answer["box"]["away"] == []


def test_the_forecast() -> None:
    """The next release first with time and reason, and the skaters then; what a whistle decides is last, without."""
    log = EXAMPLE.read_bytes().splitlines()
    before = next(n for n, line in enumerate(log, 1) if b'"seq": 150,' in line)
    answer = talk(*log[:before], {"ask": "forecast"})[-1]
    assert set(answer) == {"rinkfold", "line", "ask", "game", "ruleset", "at", "releases", "strength"}
    assert [(one["player"], one["out"] and one["out"]["clock"]) for one in answer["releases"]] == [
        ("5", "5:35"),
        ("16", "4:10"),
        ("24", None),
    ]
    assert set(answer["releases"][0]) == {
        "team", "player", "sits", "injured", "penalty", "out", "how", "because",
    }  # fmt: skip
    assert [(one["at"]["clock"], one["label"]) for one in answer["strength"]] == [
        ("5:35", "5 on 4"),
        ("4:10", "5 on 5"),
    ]


def test_a_forecast_of_nothing() -> None:
    """Nobody sits, nothing is foreseen."""
    answer = talk(OPENING, {"ask": "forecast"})[1]
    assert (answer["releases"], answer["strength"]) == ([], [])


WRONG_ASKS = [
    ({"ask": "nwo"}, ["unknown_ask"], 'Did you mean "now"?'),
    ({"ask": None}, ["unknown_ask"], "What can be asked is now, forecast, "),
    ({"ask": ["now"]}, ["unknown_ask"], ""),
    ({"ask": "now", "when": 1}, ["unknown_field"], "It has ask and perhaps at"),
    ({"ask": "now", "kind": "goal"}, ["unknown_field"], "an event is sent without ask"),
    ({"ask": "now", "at": "1 9:15"}, ["unknown_field"], "Leave at out."),
    ({"ask": "box", "at": 7}, ["wrong_type"], ""),
    ({"ask": "box", "at": "soon"}, ["bad_moment"], '{"at": "2 7:42"}'),
    ({"ask": "box", "at": "9 9:15"}, ["bad_moment"], ""),
    ({"ask": "box", "at": "OT99999999 1:00"}, ["bad_moment"], ""),
    ({"ask": "box", "at": f"OT{'9' * 5000} 1:00"}, ["bad_moment"], ""),
    ({"ask": "x", "at": 7, "y": 1}, ["unknown_ask", "wrong_type", "unknown_field"], ""),
]


@pytest.mark.parametrize(("line", "expected", "fix"), WRONG_ASKS)
def test_a_question_that_is_not_understood(line: dict[str, Any], expected: list[str], fix: str) -> None:
    """Every problem of it at once, and what to send instead."""
    answer = talk(OPENING, line)[1]
    assert codes(answer) == expected
    assert fix in " ".join(problem["fix"] for problem in answer["problems"])


def test_an_injured_player_is_said_to_be_one() -> None:
    """Where his time in the box ends, by what the record says: whether he plays is not for a program."""
    hurt = {"kind": "roster_change", "team": "home", "number": "12", "status": "injured"}
    faceoff = {"kind": "faceoff", "period": 1, "clock": "9:15"}
    goal = {"kind": "goal", "period": 1, "clock": "8:50", "team": "away", "scorer": "17"}
    told = talk(OPENING, MINOR, faceoff, {"ask": "forecast"}, hurt, {"ask": "forecast"}, goal)
    assert [one["injured"] for answer in (told[3], told[5]) for one in answer["releases"]] == [False, True]
    assert [one["injured"] for one in told[6]["changes"] if one["change"] == "returned"] == [True]
