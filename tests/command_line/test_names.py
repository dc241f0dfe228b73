"""Names of people, and free text that may hold one, are shown only where names were asked for."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from stream.talking import talk

from rinkfold.cli.group import COMMANDS
from rinkfold.cli.streaming.asks import ASKS
from rinkfold.timeline import (
    Event,
    Faceoff,
    GameClosed,
    GameOpened,
    Officials,
    PenaltyAssessed,
    PeriodEnd,
    Player,
    Remark,
    RosterChange,
    StaffMember,
    Stoppage,
    TeamSheet,
    Void,
)
from rinkfold.timeline.record import log_bytes

ON_THE_ROSTER, ON_THE_BENCH, OFFICIAL, SIGNER, WRITER, NEWCOMER = (
    "Quillmore",
    "Sandhurst",
    "Whistleby",
    "Inkwell",
    "Quaverley",
    "Latecombe",
)
IN_A_REASON, IN_A_REMARK, IN_A_NOTE = "Bruiseford", "Sprainton", "Limpham"
HIDDEN = (
    *(ON_THE_ROSTER, ON_THE_BENCH, OFFICIAL, SIGNER, WRITER, NEWCOMER),
    *(IN_A_REASON, IN_A_REMARK, IN_A_NOTE, "LM-0412"),
)
"""One word for each place in which a record can name somebody."""


def events_with_names() -> list[Event]:
    """A short game in which somebody is named wherever a record can name one."""
    home = TeamSheet(
        name="Elm Owls",
        roster=(Player(number="12", name=ON_THE_ROSTER), Player(number="31", name=ON_THE_ROSTER)),
        staff=(StaffMember(name=ON_THE_BENCH, role="head coach", credential="LM-0412"),),
    )
    opened = GameOpened(
        seq=1,
        format=1,
        game="g",
        ruleset="youth-12u",
        home=home,
        away=evolve(home, name="Oak Otters"),
        officials=Officials(referees=(OFFICIAL,), scorekeeper=OFFICIAL, timekeeper=OFFICIAL),
    )
    at: dict[str, Any] = {"period": 1, "clock": "9:15"}
    minor: dict[str, Any] = {"parts": ("minor",), "infraction": "hooking", "team": "home"}
    events: list[Event] = [
        opened,
        Faceoff(seq=2, period=1, clock="15:00"),
        Stoppage(seq=3, **at, reason=f"{IN_A_REASON} is hurt"),
        PenaltyAssessed(seq=4, **at, **minor, player="12"),
        PenaltyAssessed(seq=5, **at, **{**minor, "parts": ("game_misconduct",)}, staff=ON_THE_BENCH),
        RosterChange(seq=6, team="away", number="8", name=NEWCOMER),
        Remark(seq=7, **at, text=f"{IN_A_REMARK} fell"),
        Remark(seq=8, **at, text=f"{IN_A_REMARK} fell again"),
        Void(seq=9, target=8, reason=f"{IN_A_REASON} did not"),
        Faceoff(seq=10, **at),
        PeriodEnd(seq=11, period=1, clock="0:00"),
        GameClosed(seq=12, outcome="abandoned", signed=(SIGNER,), reason=f"{IN_A_REASON} broke a leg"),
    ]
    return [evolve(event, by=WRITER, note=f"said {IN_A_NOTE}") for event in events]


@pytest.fixture
def named(tmp_path: Path) -> Path:
    """That game as a log, alone in a folder."""
    (tmp_path / "season").mkdir()
    path = tmp_path / "season" / "named.jsonl"
    path.write_bytes(log_bytes(events_with_names()))
    return path


@pytest.fixture
def other(tmp_path: Path) -> Path:
    """Another record of it, in which the free texts and what names people are others."""
    changed: dict[int, dict[str, Any]] = {
        3: {"reason": "x"},
        5: {"staff": "Y"},
        6: {"name": "Y"},
        7: {"text": "x"},
        12: {"signed": "Y"},
    }
    path = tmp_path / "other.jsonl"
    path.write_bytes(log_bytes([evolve(event, **changed.get(event.seq, {})) for event in events_with_names()]))
    return path


QUESTIONS = {
    "box": [["box", "GAME"], ["box", "GAME", "--at", "1 9:00", "--why"]],
    "strength": [["strength", "GAME"]],
    "penalties": [["penalties", "GAME"]],
    "summary": [["summary", "GAME"]],
    "explain": [
        ["explain", "GAME", "--at", "1 9:15"],
        ["explain", "GAME", "--at", "1 9:15", "--full"],
        ["explain", "GAME", "--penalty", "4", "--full"],
        ["explain", "GAME", "--penalty", "5", "--full"],
        *(["explain", "GAME", "--goal", str(seq)] for seq in range(2, 13)),
    ],
    "whatif": [["whatif", "GAME", "--void", str(seq)] for seq in range(2, 13)],
    "compare": [["compare", "GAME", "OTHER"], ["compare", "OTHER", "GAME"]],
    "check": [["check", "GAME"]],
    "verify": [["verify", "GAME"]],
    "season": [["season", "FOLDER", "--no-progress"]],
    "record": [["record", "GAME", f"void {seq} 'mistaken'", "--dry-run"] for seq in range(2, 13)],
    "export": [["export", "GAME", table] for table in ("goals", "penalties", "goalies", "segments")],
}
"""What is asked of a record with names, by command."""

NOT_ASKED = {
    "demo": "has a game of its own",
    "new": "says what was typed",
    "live": "has a test of its own, for each role",
    "report": "is tested below",
    "import": "says what stands in the table",
    "rules": "is about no game",
    "stream": "is tested below",
    "schema": "is about no game",
}


def told(ran: Any) -> list[str]:
    """Which of the hidden words stand in what was printed."""
    return [word for word in HIDDEN if word in ran.out or word in ran.err]


@pytest.mark.parametrize("command", QUESTIONS)
@pytest.mark.parametrize("as_json", [False, True])
def test_no_answer_names_anybody(rinkfold: Any, named: Path, other: Path, command: str, as_json: bool) -> None:
    """As a table and as JSON, whoever is named in the record, and whatever somebody wrote freely."""
    paths = {"GAME": named, "OTHER": other, "FOLDER": named.parent}
    for question in QUESTIONS[command]:
        ran = rinkfold(*(paths.get(word, word) for word in question), *(["--json"] if as_json else []))
        assert ran.out or ran.err
        assert not told(ran), question


def test_every_command_is_asked() -> None:
    """Or there is a reason why not."""
    assert {*COMMANDS} == {*QUESTIONS, *NOT_ASKED}


def test_a_report_names_nobody(rinkfold: Any, named: Path, tmp_path: Path) -> None:
    """It says that a reason is written, and with names the reason."""
    page, with_names = tmp_path / "page.html", tmp_path / "names.html"
    assert rinkfold("report", named, "-o", page).code == 0
    text = page.read_text("utf-8")
    assert not [word for word in HIDDEN if word in text]
    assert "Record closed: abandoned (a reason is written)" in text
    assert rinkfold("report", named, "-o", with_names, "--names").code == 0
    assert f"Record closed: abandoned, {IN_A_REASON} broke a leg" in with_names.read_text("utf-8")


def test_a_stream_names_nobody(named: Path) -> None:
    """Whatever is asked of a record that it goes on with."""
    answers = talk(*({"ask": name} for name in ASKS), log=named)
    assert [answer["ask"] for answer in answers] == [*ASKS]
    text = json.dumps(answers)
    assert not [word for word in HIDDEN if word in text]


def test_a_season_in_files_names_nobody(rinkfold: Any, named: Path, tmp_path: Path) -> None:
    """None of its tables."""
    rinkfold("season", named.parent, "--no-progress", "--csv", tmp_path / "out")
    texts = [path.read_text("utf-8") for path in (tmp_path / "out").iterdir()]
    assert len(texts) > 5
    assert not [word for word in HIDDEN for text in texts if word in text]


def test_staff_have_their_name_with_names(rinkfold: Any, named: Path) -> None:
    """Without it is said that it was staff."""
    plain, with_names = (
        rinkfold("penalties", named, "--json", *extra).answer["penalties"][1]["staff"] for extra in ([], ["--names"])
    )
    assert (plain, with_names) == ("staff", ON_THE_BENCH)
    answer = rinkfold("explain", named, "--penalty", "5", "--names", "--json").answer
    assert answer["answer"]["staff"] == ON_THE_BENCH


def test_a_difference_that_is_not_shown_is_said(rinkfold: Any, named: Path, other: Path) -> None:
    """Two events that look alike without names say what is not the same; with names it stands there."""
    lines = rinkfold("compare", named, other).out.splitlines()
    assert any("remark" in line and "(text not the same: --names)" in line for line in lines)
    assert any("(staff not the same: --names)" in line for line in lines)
    assert f"{IN_A_REMARK} fell" in rinkfold("compare", named, other, "--names").out


def test_compare_names_somebody_in_its_json_only_with_names(rinkfold: Any, named: Path, other: Path) -> None:
    """The fields that differ are told all the same."""
    pairs = rinkfold("compare", named, other, "--json").answer["events"]["differing"]
    assert [pair["fields"] for pair in pairs] == [["reason"], ["staff"], ["name"], ["text"], ["signed"]]
    assert [pair["a"]["event"].get("staff") for pair in pairs] == [None, "staff", None, None, None]
    pairs = rinkfold("compare", named, other, "--json", "--names").answer["events"]["differing"]
    assert pairs[1]["a"]["event"]["staff"] == ON_THE_BENCH
