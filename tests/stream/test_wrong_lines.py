"""Lines that are not right: each is answered on its number, and changes nothing."""

from __future__ import annotations

from typing import Any

import pytest
from stream.talking import MINOR, OPENING, codes, goal, talk

from rinkfold.cli.effects import effect_line
from rinkfold.timeline.fold.step import step

PROBLEM_KEYS = {"code", "severity", "file", "line", "seq", "field", "message", "fix"}

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


def test_a_league_file_is_not_opened_by_a_line() -> None:
    """A line may come from anywhere, so it does not make the program read files; how it is done instead is said."""
    (refused,) = talk(OPENING | {"ruleset": "./mine.toml"})
    assert refused["problems"][0]["fix"] == (
        "Open the game with rinkfold new --ruleset FILE, and go on with rinkfold stream --log; or pin the ruleset."
    )


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
