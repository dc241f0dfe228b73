"""What the stream answers, line by line."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from stream.talking import EXAMPLE, MINOR, OPENING, ROOT, codes, goal, talk

from rinkfold import rulesets
from rinkfold.cli.answers.changes import CHANGES
from rinkfold.cli.effects import effect_line
from rinkfold.cli.main import app
from rinkfold.cli.streaming.asks import ASKS
from rinkfold.timeline import event_from_dict, read_log, replay
from rinkfold.timeline.fold import changes as changes_module
from rinkfold.timeline.fold.step import step

PAGE = (ROOT / "docs" / "stream.md").read_text(encoding="utf-8")
EVENT_KEYS = {"rinkfold", "line", "game", "ruleset", "seq", "event", "effect", "changes", "withdrawn"}
PROBLEM_KEYS = {"code", "severity", "file", "line", "seq", "field", "message", "fix"}


def test_the_first_line_opens_the_game_and_is_pinned() -> None:
    """Its answer says what is applied, and gives the line to keep: with seq 1 and the whole ruleset."""
    (answer,) = talk(OPENING)
    assert set(answer) == EVENT_KEYS | {"if_play_resumed"}
    assert (answer["rinkfold"], answer["line"], answer["seq"], answer["game"]) == (1, 1, 1, "g-1")
    assert answer["effect"] == rulesets.applied_line(rulesets.load("youth-12u"))
    assert answer["event"]["pinned"] == rulesets.pin(rulesets.load("youth-12u"))
    assert answer["ruleset"]["note"] == "The league's own rules and the officials on the ice decide."
    assert (answer["changes"], answer["withdrawn"]) == ([], [])


def test_rules_that_are_pinned_are_those_of_the_game() -> None:
    """Even where a ruleset of that name is not there."""
    pinned = rulesets.pin(rulesets.load("youth-10u")) | {"name": "northern-lakes"}
    answer = talk(OPENING | {"ruleset": "northern-lakes", "pinned": pinned}, MINOR)[1]
    assert answer["effect"] == "home 12, minor 1:30: 1st 9:15 → out at 7:45 · home 4 on 5"


def test_settings_of_the_game_count() -> None:
    """And are named in every answer."""
    answer = talk(OPENING | {"settings": {"lengths.minor": "1:00"}}, MINOR)[1]
    assert "out at 8:15" in answer["effect"]
    assert answer["ruleset"]["overridden"] == {"lengths.minor": "1:00"}


def test_a_penalty_and_what_it_comes_to() -> None:
    """At the whistle it is called; what starts when play resumes is told apart from what is so already."""
    answer = talk(OPENING, MINOR)[1]
    assert [change["change"] for change in answer["changes"]] == ["resumed", "strength", "stopped", "called"]
    started, strength = (one for one in answer["if_play_resumed"] if one["change"] in ("started", "strength"))
    assert started == {
        "change": "started",
        "at": {"period": 1, "clock": "9:15"},
        "at_s": 345,
        "team": "home",
        "penalty": 2,
        "index": 0,
        "part": "minor",
        "on_clock": True,
        "ends": {"period": 1, "clock": "7:15"},
        "ends_s": 465,
        "because": started["because"],
    }
    assert set(started["because"]) == {"rule", "source", "seq", "text"}
    assert (strength["label"], strength["home"], strength["away"]) == ("4 on 5", 4, 5)


def test_a_goal_ends_the_minor() -> None:
    """The changes say what ended, who returns, and by which rule."""
    answer = talk(OPENING, MINOR, goal("8:50"))[2]
    told = {change["change"]: change for change in answer["changes"]}
    assert (told["ended"]["fate"], told["ended"]["served_s"]) == ("ended by goal", 25)
    assert told["ended"]["because"]["rule"] == "a goal ends the minor with the least time left"
    assert (told["returned"]["who"], told["returned"]["penalties"]) == ("12", [2])
    assert told["goal"]["strength"] == "power play"


def test_a_part_that_runs_into_the_next_period() -> None:
    """Its end is a reading of that period."""
    answer = talk(OPENING, MINOR | {"clock": "0:30"})[1]
    (started,) = (one for one in answer["if_play_resumed"] if one["change"] == "started")
    assert (started["ends"], started["ends_s"]) == ({"period": 2, "clock": "13:30"}, 990)


def test_a_correction_withdraws_what_was_told() -> None:
    """What is no longer so stands apart from what is so instead."""
    answer = talk(OPENING, MINOR, goal("8:50"), {"kind": "void", "target": 2, "reason": "wrong side"})[3]
    assert "ended" in [change["change"] for change in answer["withdrawn"]]
    goals = [change["strength"] for change in answer["changes"] if change["change"] == "goal"]
    assert goals == ["even"]


def test_a_late_entry_withdraws_too() -> None:
    """A penalty remembered after the goal makes another goal of it."""
    answer = talk(OPENING, goal("8:50"), MINOR)[2]
    assert [c["strength"] for c in answer["withdrawn"] if c["change"] == "goal"] == ["even"]
    assert [c["strength"] for c in answer["changes"] if c["change"] == "goal"] == ["power play"]


def test_told_and_withdrawn_add_up() -> None:
    """Who keeps a list of what was told and takes out what is withdrawn has every change of the game."""
    lines = [json.loads(line) for line in EXAMPLE.read_text("utf-8").splitlines()]
    told: list[str] = []
    for answer in talk(*lines):
        for change in answer["withdrawn"]:
            told.remove(_of(change))
        told += [_of(change) for change in answer["changes"]]
    log = read_log(EXAMPLE)
    game = replay(log, rulesets.of(log))
    from rinkfold.cli.answers.changes import change_answers

    assert sorted(told) == sorted(_of(change) for change in change_answers(game.folded.all_changes(), game.folded))


def _of(change: dict[str, Any]) -> str:
    """A change without the event behind it, since another one may cause the same."""
    return json.dumps({name: value for name, value in change.items() if name != "because"}, sort_keys=True)


def test_rules_amended_are_pinned_anew() -> None:
    """The amendment that is to be kept carries the whole ruleset."""
    amend = {"kind": "amend", "target": 1, "changes": {"settings": {"lengths.minor": "1:30"}}, "reason": "x"}
    changed, now = talk(OPENING, MINOR, amend, {"ask": "box"})[2:]
    assert changed["event"]["changes"]["pinned"]["knobs"]["lengths.minor"] == "1:30"
    assert now["home"][0]["out"] == {"period": 1, "clock": "7:45"}


# -- questions


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
    assert set(answer["releases"][0]) == {"team", "player", "sits", "penalty", "out", "how", "because"}
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
    ({"ask": "x", "at": 7, "y": 1}, ["unknown_ask", "wrong_type", "unknown_field"], ""),
]


@pytest.mark.parametrize(("line", "expected", "fix"), WRONG_ASKS)
def test_a_question_that_is_not_understood(line: dict[str, Any], expected: list[str], fix: str) -> None:
    """Every problem of it at once, and what to send instead."""
    answer = talk(OPENING, line)[1]
    assert codes(answer) == expected
    assert fix in " ".join(problem["fix"] for problem in answer["problems"])


# -- lines that are not right


WRONG = [
    (b"", ["empty_line"]),
    (b" \t ", ["empty_line"]),
    (None, ["line_too_long"]),
    (b"\xff{}", ["not_utf8"]),
    (b'\xef\xbb\xbf{"ask": "now"}', ["not_json"]),
    (b"[]", ["not_an_object"]),
    (b'{"kind": "goal"', ["not_json"]),
    (b'{"kind": "remark", "text": "x", "text": "y"}', ["duplicate_key"]),
    (b"{}", ["missing_kind"]),
    ({"kind": "gaol"}, ["unknown_kind"]),
    (goal("9:75"), ["bad_reading"]),
    (goal("8:50") | {"seq": 9}, ["out_of_sequence"]),
    (goal("8:50") | {"seq": None}, ["wrong_type"]),
    (goal("8:50", scorrer="7", ends=0), ["too_small", "unknown_field"]),
    (OPENING | {"seq": 3}, ["opened_again"]),
    ({"kind": "void", "target": 77, "reason": "x"}, ["no_target"]),
    ({"kind": "void", "target": 1, "reason": "x"}, ["header_void"]),
    ({"kind": "amend", "target": 2, "changes": {"scorer": "7"}, "reason": "x"}, ["unknown_field"]),
    ({"kind": "amend", "target": 1, "changes": {"ruleset": "none"}, "reason": "x"}, ["unknown_ruleset"]),
]


@pytest.mark.parametrize(("line", "expected"), WRONG, ids=[str(codes_) for _, codes_ in WRONG])
def test_a_wrong_line_is_answered_and_changes_nothing(line: Any, expected: list[str]) -> None:
    """On its own line number; the next one is answered as if it had not been sent."""
    opened, before, wrong, after, now = talk(OPENING, MINOR, line, goal("8:50"), {"ask": "now"})
    assert (wrong["line"], wrong["game"], codes(wrong)) == (3, "g-1", expected)
    assert set(wrong) == {"rinkfold", "line", "game", "problems"}
    assert all(set(problem) == PROBLEM_KEYS for problem in wrong["problems"])
    assert (opened["seq"], before["seq"], after["seq"]) == (1, 2, 3)
    plain = talk(OPENING, MINOR, goal("8:50"), {"ask": "now"})
    assert (after | {"line": 3}, now | {"line": 4}) == (plain[2], plain[3])


@pytest.mark.parametrize("line", [MINOR, {"ask": "now"}])
def test_before_the_game_is_opened(line: dict[str, Any]) -> None:
    """There is nothing to enter into and nothing to ask; it can still be opened afterwards."""
    first, second = talk(line, OPENING)
    assert (codes(first), first["game"]) == (["not_opened"], None)
    assert (second["line"], second["seq"]) == (2, 1)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"ruleset": "youth-99u"}, "unknown_ruleset"),
        ({"ruleset": "./mine.toml"}, "unknown_ruleset"),
        ({"settings": {"lengths.minr": "1:30"}}, "unknown_knob"),
        ({"pinned": {"name": "x"}}, "missing_field"),
        ({"format": 2}, "newer_format"),
        ({"seq": 2}, "out_of_sequence"),
        ({"home": "Larks"}, "wrong_type"),
    ],
)
def test_a_game_that_cannot_be_opened(changes: dict[str, Any], code: str) -> None:
    """Is not open, and the next line may open it."""
    refused, asked, opened = talk(OPENING | changes, {"ask": "now"}, OPENING)
    assert codes(refused) == [code]
    assert codes(asked) == ["not_opened"]
    assert opened["seq"] == 1


def test_a_fault_of_the_program_is_an_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """One line that finds a fault in us does not take the scoreboard down; it says whether the event is in the game."""

    def fail(entered: Any) -> str:
        if entered.event.kind == "timeout":
            raise ZeroDivisionError("x")
        return effect_line(entered)

    monkeypatch.setattr("rinkfold.cli.streaming.session.effect_line", fail)
    timeout = {"kind": "timeout", "period": 1, "clock": "8:55", "team": "home"}
    answer, after = talk(OPENING, MINOR, timeout, goal("8:50"))[2:]
    assert (codes(answer), answer["problems"][0]["seq"], after["seq"]) == (["fault"], 3, 4)
    assert "ZeroDivisionError: x. The event was taken in" in answer["problems"][0]["message"]
    monkeypatch.setenv("RINKFOLD_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        talk(OPENING, timeout)


def test_a_fault_in_the_fold_leaves_the_game_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    """The event that could not be folded is not in the game."""

    def fail(state: Any, placed: Any, rules: Any) -> Any:
        if placed.event.kind == "timeout":
            raise ZeroDivisionError("x")
        return step(state, placed, rules)

    monkeypatch.setattr("rinkfold.timeline.live.step", fail)
    timeout = {"kind": "timeout", "period": 1, "clock": "8:55", "team": "home"}
    wrong, after = talk(OPENING, MINOR, timeout, goal("8:50"))[2:]
    assert (codes(wrong), wrong["problems"][0]["seq"]) == (["fault"], None)
    plain = talk(OPENING, MINOR, goal("8:50"))[2]
    assert after | {"line": 3} == plain


# -- the page


def test_every_change_that_the_fold_can_tell_has_a_name_and_stands_in_the_page() -> None:
    """With the fields that it has."""
    kinds = {getattr(changes_module, name) for name in changes_module.__all__} - {changes_module.Change}
    assert {kind for kind in kinds if hasattr(kind, "_fields")} == set(CHANGES)
    listed = re.findall(r"`([a-z ]+)`", " ".join(re.findall(r"^\| (`[a-z ]+`[^|]*)\|", PAGE, re.M)))
    assert set(CHANGES.values()) <= set(listed)


def test_every_field_of_every_change_stands_in_the_page() -> None:
    """As the example game has them, and a made one for what it has not."""
    lines = EXAMPLE.read_bytes().splitlines()
    seen: dict[str, set[str]] = {}
    for answer in talk(*lines):
        for change in answer["changes"] + answer.get("if_play_resumed", []):
            seen.setdefault(change["change"], set()).update(change.keys() - {"change", "at", "at_s", "because"})
    assert len(seen) >= 12
    rows = re.findall(r"^\| (`[a-z ]+`(?:, `[a-z ]+`)*) \|([^|]*)\|", PAGE, re.M)
    fields = {
        name: set(re.findall(r"`(\w+)`", row)) for names, row in rows for name in re.findall(r"`([a-z ]+)`", names)
    }
    for name, found in seen.items():
        assert found <= fields[name], name


def test_every_question_stands_in_the_page() -> None:
    """And no other."""
    listed = re.findall(r"^\| `(\w+)` \| (?:may)? ?\| (?:as|score|who)", PAGE, re.M)
    assert listed == list(ASKS)


def test_the_conversation_of_the_page() -> None:
    """What goes in is answered with what is shown, as far as it is shown."""
    block = PAGE.partition("## A conversation")[2].partition("```\n")[2].partition("```")[0]
    sends = [json.loads(line[2:]) for line in block.splitlines() if line.startswith("< ")]
    shown = [line[2:] for line in block.splitlines() if line.startswith("> ")]
    assert len(sends) == len(shown) == 4
    for answer, expected in zip(talk(*sends), shown, strict=True):
        text = json.dumps(answer, ensure_ascii=False)
        place = 0
        for piece in re.split(r"[^\w\"]*…[^\w\"]*", expected):
            assert piece in text[place:], piece
            place = text.index(piece, place) + len(piece)


def test_events_in_answers_are_lines_of_a_log() -> None:
    """Whoever keeps a log writes them as they are; they give the same game."""
    lines = [json.loads(line) for line in EXAMPLE.read_text("utf-8").splitlines()]
    kept = [answer["event"] for answer in talk(*lines)]
    assert [event_from_dict(event) for event in kept[1:]] == [event_from_dict(line) for line in lines[1:]]
    pinned = rulesets.pin(rulesets.of(read_log(EXAMPLE)))
    assert event_from_dict(kept[0]) == event_from_dict(lines[0] | {"pinned": pinned})
