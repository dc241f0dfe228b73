"""What the stream answers, line by line."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from stream.talking import EXAMPLE, MINOR, OPENING, ROOT, goal, talk

from rinkfold import rulesets
from rinkfold.cli.streaming.asks import ASKS
from rinkfold.timeline import event_from_dict, read_log, replay
from rinkfold.timeline.fold import changes as changes_module
from rinkfold.timeline.views.change_dicts import KINDS_OF_CHANGE

PAGE = (ROOT / "docs" / "stream.md").read_text(encoding="utf-8")
EVENT_KEYS = {"rinkfold", "line", "game", "ruleset", "seq", "event", "effect", "changes", "withdrawn"}


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


def test_every_change_that_the_fold_can_tell_has_a_name_and_stands_in_the_page() -> None:
    """With the fields that it has."""
    kinds = {getattr(changes_module, name) for name in changes_module.__all__} - {changes_module.Change}
    assert {kind for kind in kinds if hasattr(kind, "_fields")} == set(KINDS_OF_CHANGE)
    listed = re.findall(r"`([a-z ]+)`", " ".join(re.findall(r"^\| (`[a-z ]+`[^|]*)\|", PAGE, re.M)))
    assert set(KINDS_OF_CHANGE.values()) <= set(listed)


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


# -- what is taken back is said as it was told


def told_and_withdrawn(*lines: Any) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """All changes told before the last line, in order, and what that line withdraws."""
    *before, last = talk(*lines)
    told = [change for answer in before for change in answer["changes"]]
    return told, last["withdrawn"]


EARLIER = [
    pytest.param(
        [
            {**MINOR, "parts": ["major", "misconduct"]},
            {"kind": "faceoff", "period": 1, "clock": "9:15"},
            {"kind": "stoppage", "period": 1, "clock": "1:00"},
            {"kind": "amend", "target": 2, "changes": {"parts": ["major"]}, "reason": "no misconduct"},
        ],
        id="a part that there is no more",
    ),
    pytest.param(
        [
            MINOR,
            {"kind": "faceoff", "period": 1, "clock": "9:15"},
            {"kind": "stoppage", "period": 1, "clock": "7:00"},
            {"kind": "amend", "target": 2, "changes": {"parts": ["major"]}, "reason": "it was a major"},
        ],
        id="a part of another kind",
    ),
    pytest.param(
        [
            MINOR,
            {"kind": "faceoff", "period": 1, "clock": "9:15"},
            {"kind": "void", "target": 2, "reason": "no penalty"},
        ],
        id="a penalty that there is no more",
    ),
    pytest.param(
        [{"kind": "faceoff", "period": 3, "clock": "3:45"}, {**MINOR, "clock": "1:03"}],
        id="a period that was not played before",
    ),
    pytest.param(
        [
            {"kind": "period_end", "period": 1, "clock": "3:00"},
            goal("10:00", period=2),
            {"kind": "amend", "target": 2, "changes": {"clock": "0:00"}, "reason": "played out"},
        ],
        id="a period of another length",
    ),
]


@pytest.mark.parametrize("lines", EARLIER)
def test_what_is_withdrawn_was_told_in_these_words(lines: list[dict[str, Any]]) -> None:
    """A program finds it among what it was told: the same times, parts and numbers."""
    told, withdrawn = told_and_withdrawn(OPENING, *lines)
    assert withdrawn
    assert [change for change in withdrawn if change not in told] == []
