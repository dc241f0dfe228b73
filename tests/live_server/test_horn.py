"""What is read aloud at the horn, and what the referee looks through before signing."""

from __future__ import annotations

from pathlib import Path

import pytest
from live_server.desk import At, in_process, short_log


@pytest.fixture
def game(path: Path) -> At:
    """Two periods with goals, saves and an ejection."""
    path.write_bytes(short_log())
    at = At(in_process(path))
    for text in (
        "late 1 1500 h goalie 31",
        "late 1 1500 a goalie 30",
        "850 a goal 17 from 4",
        "home shot x3",
        "away shot",
        "600 h pen 9 5+game checking from behind served 12",
        "end period",
    ):
        assert at.enter(text)["status"] == 200, text
    return at


def test_a_period_is_read_aloud(game: At) -> None:
    """The score, the goals, and each goalkeeper's shots and saves, in sentences."""
    horn = game.get("api/horn").json()
    assert (horn["period"], horn["said"], horn["score"]) == (2, "2nd", {"home": 0, "away": 1})
    assert horn["aloud"] == [
        "After the 2nd period: Elm Otters 0, Oak Badgers 1.",
        "Oak Badgers, 8:50: 17 from 4 Tor Lindqvale.",
        "Elm Otters in net, 31 Sol Wickham: 2 shots, 1 save.",
        "Oak Badgers in net, 30: 3 shots, 3 saves.",
    ]
    assert [goal["text"] for goal in horn["goals"]] == [
        "17 from 4 Tor Lindqvale; power play, 4 on 5; ended the minor of 12 Per Millbrook"
    ]


def test_a_period_before_can_be_read_again(game: At) -> None:
    """With the score as it was then."""
    horn = game.get("api/horn?period=1").json()
    assert (horn["score"], horn["goals"]) == ({"home": 0, "away": 0}, [])
    assert "No goals in the period." in horn["aloud"]


@pytest.mark.parametrize("period", ["0", "3", "x", "-1", "9" * 50, "²"])
def test_a_period_that_is_not_there_is_refused(game: At, period: str) -> None:
    """Told how many there are."""
    assert game.get(f"api/horn?period={period}").status_code == 400


def test_the_sign_off_shows_the_gravest_first(game: At) -> None:
    """Who is out of the game, what has to be reported, then the goals, each with its number for a correction."""
    view = game.get("api/signoff").json()
    out = {"team": "home", "who": "9 Ida Fernhollow", "when": "2 6:00", "seq": 8}
    assert view["ejections"] == [{**out, "text": "major 5:00 + game misconduct checking from behind"}]
    assert view["majors"] == view["ejections"]
    assert [(goal["when"], goal["seq"]) for goal in view["goals"]] == [("2 8:50", 5)]
    assert view["final"]["winner"] is None
    assert "no_remark" in [one["code"] for one in view["checklist"]]
    assert view["missing"] == ["the officials"]
    assert (view["closed"], view["head_code"]) == (False, None)


def test_before_the_opening_there_is_nothing_to_read(tmp_path: Path) -> None:
    """Told so, and not a fault."""
    at = At(in_process(tmp_path / "new.jsonl"))
    for name in ("api/horn", "api/signoff", "api/setup"):
        assert (at.get(name).status_code, at.get(name).json()["error"]) == (409, "not_open")
    assert at.enter("home shot", version=0)["error"] == "not_open"
    assert at.post("api/clock", {"do": "start"}).status_code == 409
