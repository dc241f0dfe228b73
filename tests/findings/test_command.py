"""`rinkfold check`: what people see, what programs get, and the exit codes."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.main import app
from rinkfold.timeline.record import append, create, event_from_dict

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


class Ran:
    """How a run ended, and what it wrote."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err


@pytest.fixture
def check(capsys: pytest.CaptureFixture[str]) -> Any:
    def run(*arguments: object) -> Ran:
        capsys.readouterr()
        with pytest.raises(SystemExit) as end:
            app(["check", *map(str, arguments)])
        assert isinstance(end.value.code, int)
        return Ran(end.value.code, *capsys.readouterr())

    return run


@pytest.fixture
def record(tmp_path: Path) -> Any:
    """A complete record of a game in which nothing happened, with these entries in its first period."""

    def write(entries: Sequence[str] = ()) -> Path:
        path = tmp_path / "game.jsonl"
        lines: list[dict[str, Any]] = [
            {
                "kind": "game_opened", "format": 1, "game": "g", "ruleset": "youth-14u",
                "home": {"name": "Elm Owls", "roster": [{"number": "31", "position": "goalkeeper"}, {"number": "7"}]},
                "away": {"name": "Oak Otters", "roster": [{"number": "30", "position": "goalkeeper"}, {"number": "9"}]},
                "officials": {"referees": ["Ada Birk"]},
            },
            {"kind": "goalie_change", "period": 1, "clock": "15:00", "team": "home", "goalie": "31"},
            {"kind": "goalie_change", "period": 1, "clock": "15:00", "team": "away", "goalie": "30"},
            {"kind": "faceoff", "period": 1, "clock": "15:00"},
            *map(json.loads, entries),
            {"kind": "period_end", "period": 1, "clock": "0:00"},
            {"kind": "faceoff", "period": 2, "clock": "15:00"},
            {"kind": "period_end", "period": 2, "clock": "0:00"},
            {"kind": "faceoff", "period": 3, "clock": "15:00"},
            {"kind": "period_end", "period": 3, "clock": "0:00"},
            {"kind": "game_closed", "outcome": "played", "signed": "Ada Birk"},
        ]  # fmt: skip
        events = [event_from_dict({"seq": seq, **line}) for seq, line in enumerate(lines, 1)]
        create(path, events[0])
        append(path, events[1:])
        return path

    return write


GOAL = '{"kind": "goal", "period": 1, "clock": "8:50", "team": "home", "scorer": "17", "assists": []}'
FACEOFF = '{"kind": "faceoff", "period": 1, "clock": "8:50"}'


def test_silent_when_all_is_well(check: Any, record: Any) -> None:
    """Nothing is said, and the exit code is 0, also when notes count."""
    path = record()
    for options in ((), ("--strict",)):
        ran = check(path, *options)
        assert (ran.code, ran.out, ran.err) == (0, "", "")


def test_an_error(check: Any, record: Any) -> None:
    """Severity, time, event and what was found on a line, what to do below it, how many, and whose rules."""
    ran = check(record([GOAL, FACEOFF]))
    assert ran.code == 1
    assert ran.out == (
        "error  1 8:50  #5  home 17 scored, but 17 is not on the home roster.\n"
        "                   Write the right number, or put it on the roster: `amend 5 scorer …`, or reopen the record\n"
        "                   with `void 12 reopened`, then `home roster 17`.\n"
        "\n"
        "1 error.\n"
        "Rules: youth-14u. The league's own rules and the officials on the ice decide.\n"
    )
    assert ran.err == ""


def test_notes_alone_are_no_findings_unless_strict(check: Any) -> None:
    """The example game has notes: exit code 0, and 1 under --strict."""
    plain, strict = (check(EXAMPLES / "game.jsonl", *options) for options in ((), ("--strict",)))
    assert (plain.code, strict.code) == (0, 1)
    assert plain.out == strict.out
    assert "\n5 notes.\n" in plain.out


def test_json(check: Any, record: Any) -> None:
    """Field for field as the contract says; a time is null where the whole record is meant."""
    ran = check(record([GOAL]), "--json")
    assert ran.code == 1
    answer = json.loads(ran.out)
    assert (answer["rinkfold"], answer["game"], answer["ruleset"]["name"]) == (1, "g", "youth-14u")
    assert answer["findings"] == [
        {
            "code": "not_on_roster",
            "severity": "error",
            "seq": 5,
            "at": {"period": 1, "clock": "8:50"},
            "message": "home 17 scored, but 17 is not on the home roster.",
            "fix": "Write the right number, or put it on the roster: `amend 5 scorer …`, or reopen the record with "
            "`void 11 reopened`, then `home roster 17`.",
        },
        {
            "code": "whistles_not_kept",
            "severity": "note",
            "seq": None,
            "at": None,
            "message": "Faceoffs written: 3; faceoffs and stoppages not written: 1.",
            "fix": "Nothing has to be done; a release that waits for a whistle nobody wrote has no exact time.",
        },
    ]


def test_json_when_all_is_well(check: Any, record: Any) -> None:
    """Programs get an answer in any case."""
    ran = check(record(), "--json")
    assert (ran.code, json.loads(ran.out)["findings"]) == (0, [])


def test_a_file_that_cannot_be_read(check: Any, tmp_path: Path) -> None:
    """Exit code 2, and the problem on standard error."""
    ran = check(tmp_path / "none.jsonl")
    assert (ran.code, ran.out) == (2, "")
    assert "none.jsonl" in ran.err


def test_no_name_is_shown(check: Any) -> None:
    """Numbers suffice: no name of the roster or the staff stands in a finding."""
    out = check(EXAMPLES / "game.jsonl").out
    header = json.loads((EXAMPLES / "game.jsonl").read_text("utf-8").split("\n")[0])
    people = [one["name"] for team in ("home", "away") for one in header[team]["roster"] + header[team]["staff"]]
    assert [name for name in people if name in out] == []


def test_an_entry_to_copy_is_never_broken(check: Any) -> None:
    """Lines are wrapped between words, but not within what stands in backquotes."""
    lines = check(EXAMPLES / "sparse.jsonl").out.splitlines()
    assert [line for line in lines if line.count("`") % 2] == []
    assert max(map(len, lines)) <= 110
