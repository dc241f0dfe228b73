"""No text of a log steers the terminal on which an answer is read."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest
from command_line.test_paper import Terminal

from rinkfold.cli import paper
from rinkfold.timeline.wording import show

CLEARS = "trip\x1b[2J\x1b]0;pwn\x07\x9b2Jped"
TURNS = "\u202e\u2066 9 emoh"
NEXT_LINE = "x\r\n#9 goal, home 9"
HOSTILE = (CLEARS, TURNS, NEXT_LINE)


def written(folder: Path, text: str) -> Path:
    """A game in which whatever is written freely is `text`."""
    side: dict[str, Any] = {"name": text, "short": text, "roster": [{"number": "7", "name": text}]}
    at: dict[str, Any] = {"period": 1, "clock": "9:15"}
    events: list[dict[str, Any]] = [
        {"kind": "game_opened", "format": 1, "game": text, "ruleset": "adult", "home": side, "away": side},
        {"kind": "goalie_change", "period": 1, "clock": "15:00", "team": "home", "goalie": text},
        {"kind": "penalty_assessed", **at, "team": "home", "player": "7", "parts": ["minor"], "infraction": text},
        {"kind": "penalty_assessed", **at, "team": "away", "staff": text, "parts": ["bench_minor"], "rule": text},
        {"kind": "goal", "period": 1, "clock": "9:00", "team": "away", "scorer": text, "assists": [text]},
        {"kind": "figures", "team": "home", "goals": 3, "source": text},
        {"kind": "remark", "text": text},
        {"kind": "amend", "target": 3, "changes": {"player": text}, "reason": text},
        {"kind": "game_closed", "outcome": "shortened", "reason": text, "signed": text},
    ]
    path = folder / "hostile.jsonl"
    path.write_text("".join(json.dumps({"seq": n, **event}) + "\n" for n, event in enumerate(events, 1)))
    return path


def steering(text: str) -> set[str]:
    """What in `text` is more than text."""
    return {c for c in text if c != "\n" and (ord(c) < 32 or 0x7F <= ord(c) < 0xA0 or c in "\u202e\u2066")}


@pytest.mark.parametrize("text", HOSTILE, ids=["control characters", "turned", "a line of its own"])
def test_every_answer_is_only_text(text: str, tmp_path: Path, rinkfold: Any) -> None:
    """Whatever the command, what stands in the log is shown with marks, and stays in its line."""
    game = written(tmp_path, text)
    runs: list[list[object]] = [
        [command, game] for command in ("box", "strength", "penalties", "summary", "explain", "check", "verify")
    ]
    runs += [["box", game, "--at", "1 9:10", "--names", "--why"], ["explain", game, "#3"], ["season", tmp_path]]
    runs += [["compare", game, game], ["whatif", game, "void 5 no goal"], ["record", game, "void 9 again", "--dry-run"]]
    runs += [["record", game, f"9:00 home {text}"], ["rules", "show", text], ["box", tmp_path / f"{text}.jsonl"]]
    for arguments in runs:
        ran = rinkfold(*arguments)
        assert "fault in rinkfold" not in ran.err, arguments
        assert steering(ran.out + ran.err) == set(), arguments
        assert not any(line.startswith("#9 goal") for line in ran.out.splitlines()), arguments


@pytest.mark.parametrize("text", HOSTILE, ids=["control characters", "turned", "a line of its own"])
def test_data_stays_as_it_is(text: str, tmp_path: Path, rinkfold: Any) -> None:
    """JSON and CSV are for programs: a text comes out of them as it went in."""
    game = written(tmp_path, text)
    assert rinkfold("penalties", game, "--json").answer["penalties"][0]["infraction"] == text
    csv, back = tmp_path / "events.csv", tmp_path / "back.jsonl"
    ran = rinkfold("export", game, "events")
    assert ran.code == 0
    csv.write_text(ran.out, encoding="utf-8", newline="")
    assert rinkfold("import", csv, "-o", back).code == 0
    assert json.loads(back.read_text("utf-8").splitlines()[2])["infraction"] == text


def test_our_own_colours_pass_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where there are colours they stay; other sequences do not, nor these where there are none."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    lines = [paper.Style(colour=True).strong(f"Goals {CLEARS}")]
    terminal, pipe = Terminal(), Terminal()
    monkeypatch.setattr(sys, "stdout", terminal)
    paper.say(lines)
    assert terminal.getvalue() == "\x1b[1mGoals trip?[2J?]0;pwn??2Jped\x1b[0m\n"
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setattr(sys, "stdout", pipe)
    paper.say(lines)
    assert steering(pipe.getvalue()) == set()


def test_what_is_quoted_from_a_ruleset_is_only_text() -> None:
    """A value that is found is shown with its control characters spelled out."""
    assert show(CLEARS) == r'"trip\u001b[2J\u001b]0;pwn\u0007\x9b2Jped"'
    assert show(TURNS) == r'"\u202e\u2066 9 emoh"'
