"""The notation of the written cases is read rightly."""

from __future__ import annotations

import fnmatch
import re

import pytest
from cases.load import OWN, case_of, event_of, own_cases, return_of, seat_of

OPENED = [{"seq": 1, "kind": "game_opened"}]
PENALTY = {
    "seq": 2,
    "kind": "penalty_assessed",
    "period": 1,
    "clock": "17:00",
    "team": "home",
    "player": "12",
    "parts": ["minor", "major"],
}
CASE = {
    "id": "one",
    "settles": "nothing",
    "ruleset": "adult",
    "settings": {"game.clock": "running"},
    "keepers": {"away": ["31"]},
    "events": ["1 17:00 penalty home 12 minor+major"],
    "expect": [{"at": "1 17:00", "skaters": "4 on 5"}],
    "why": "one of five sits",
}


@pytest.mark.parametrize(
    ("line", "fields"),
    [
        ("1 17:00 penalty home 12 minor+major", PENALTY),
        ("1 17:00 faceoff", {"seq": 2, "kind": "faceoff", "period": 1, "clock": "17:00"}),
        (
            "4 0:45.3 goal away scorer=90 ends=7",
            {"kind": "goal", "period": 4, "clock": "0:45.3", "scorer": "90", "ends": 7},
        ),
        ("1 9:00 goal home own_goal=true", {"team": "home", "own_goal": True}),
        ("1 9:00 penalty home bench bench_minor served_by=8", {"parts": ["bench_minor"], "served_by": "8"}),
        ("1 9:00 penalty home ? minor", {"player": None}),
        ("1 9:00 penalty away staff misconduct", {"staff": "Coach", "team": "away"}),
        ("1 9:00 penalty home 12 minor on_clock=false delayed_call=true", {"on_clock": False, "delayed_call": True}),
        ("1 9:00 goalie home out", {"kind": "goalie_change", "goalie": None}),
        ("1 9:00 goalie home 31", {"goalie": "31"}),
        ("1 9:00 penalty_shot away 9 scored", {"kind": "penalty_shot", "player": "9", "result": "scored"}),
        ("1 9:00 clock_set to=9:10", {"kind": "clock_set", "to": "9:10"}),
        ("1 9:00 shot home", {"kind": "shot", "team": "home"}),
        ("1 9:00 faceoff after=1", {"after": 1}),
        ("closed abandoned", {"seq": 2, "kind": "game_closed", "outcome": "abandoned"}),
    ],
)
def test_a_line_is_an_event(line: str, fields: dict[str, object]) -> None:
    event = event_of(line, list(OPENED))
    assert {key: event.get(key, "left out") for key in fields} == fields


def test_a_bench_penalty_and_staff_have_no_player() -> None:
    for line in ("1 9:00 penalty home bench bench_minor", "1 9:00 penalty home staff misconduct"):
        assert "player" not in event_of(line, list(OPENED))


def test_a_ruling_takes_the_team_of_its_penalty() -> None:
    before = [*OPENED, {**PENALTY, "team": "away"}]
    assert event_of("1 16:00 ruling 2", before) == {
        "seq": 3,
        "kind": "penalty_ended",
        "period": 1,
        "clock": "16:00",
        "team": "away",
        "penalty": 2,
        "cause": "ruling",
    }
    assert event_of("1 16:00 released 2", before)["cause"] == "released"


@pytest.mark.parametrize("line", ["1 9:00 penalty home 12", "1 9:00 whistle", "1 9:00 goal", "1 9:00 faceoff home"])
def test_a_line_that_is_no_event_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match="not an event"):
        event_of(line, list(OPENED))


def test_returns() -> None:
    assert return_of("home 12 on expiry") == ("home", "12", None, "on expiry")
    assert return_of("away stand-in for 9 at stoppage") == ("away", None, "9", "at stoppage")
    assert return_of("home stand-in for bench on expiry") == ("home", None, "bench", "on expiry")
    with pytest.raises(ValueError, match="not a return"):
        return_of("home 12 later")


def test_seats() -> None:
    assert seat_of("home 12 held") == ("home", "12", None, "held")
    assert seat_of("away stand-in for 9 running") == ("away", None, "9", "running")
    with pytest.raises(ValueError, match="not a seat"):
        seat_of("home 12 on expiry")


def test_the_opening_of_a_case() -> None:
    opened = case_of(CASE).events[0]
    assert opened["settings"] == {"game.period_length": "20:00", "game.clock": "running"}
    assert opened["away"]["roster"] == [{"number": "31", "position": "goalkeeper"}]
    assert "roster" not in opened["home"]
    assert (opened["seq"], opened["format"], opened["ruleset"]) == (1, 1, "adult")


@pytest.mark.parametrize(
    "wrong",
    [
        {"expect": [{"at": "1 17:00"}]},
        {"expect": [{"part": "2.0"}]},
        {"expect": [{"finding": 2, "at": "1 17:00"}]},
        {"sorce": "x"},
    ],
)
def test_a_case_that_asks_nothing_or_something_unknown_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="one: "):
        case_of({**CASE, **wrong})


def test_every_written_case_is_sound() -> None:
    """Ids are unique; what an expectation points at is there, and every case says what it settles and why."""
    cases = own_cases()
    assert len({case.id for case in cases}) == len(cases) > 100
    for case in cases:
        kinds = {event["seq"]: event["kind"] for event in case.events}
        assert all((case.settles, case.why, case.expect)), case.id
        for row in case.expect:
            if "part" in row:
                seq, index = (int(word) for word in row["part"].split("."))
                assert kinds[seq] == "penalty_assessed", (case.id, row)
                assert index < len(case.events[seq - 1]["parts"]), (case.id, row)
            if "goal" in row:
                assert kinds[row["goal"]] in {"goal", "penalty_shot"}, (case.id, row)
                assert all(kinds[seq] == "penalty_assessed" for seq in row.get("ended", [])), (case.id, row)


def test_every_sentence_has_its_cases() -> None:
    """The table of sentences names cases that are there, and a case for every reading."""
    table = (OWN / "SENTENCES.md").read_text(encoding="utf-8")
    ids = [case.id for case in own_cases()]
    named = re.findall(r"`([a-z0-9-]+-[a-z0-9-]*\*?)`", table)
    assert [name for name in named if not fnmatch.filter(ids, name)] == []
    assert re.findall(r"^\| (R\d+) \|", table, re.MULTILINE) == [f"R{number}" for number in range(1, 25)]
