"""`explain --json`: field for field as docs/explaining.md says."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

DOCS = (Path(__file__).resolve().parents[2] / "docs" / "explaining.md").read_text(encoding="utf-8")
HEAD = {"rinkfold", "game", "ruleset"}
QUESTIONS = [("--at", "2 5:35"), ("--penalty", "228"), ("--goal", "177")]


def documented(heading: str) -> list[tuple[set[str], str]]:
    """The rows of the table under `heading`: the fields of the first column, and what is said of them."""
    section = DOCS.split(f"{heading}\n", 1)[1].split("\n#", 1)[0]
    rows = re.findall(r"^\| (`[^|]*`) \|(.*)\|$", section, flags=re.MULTILINE)
    return [(set(re.findall(r"`(\w+)`", names)), said) for names, said in rows]


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question[0])
def test_every_field_of_a_step_is_documented(question: tuple[str, str], rinkfold: Any, example: Path) -> None:
    """The fields of the table, all of them and no others."""
    answer = rinkfold("explain", example, *question, "--json").answer
    assert set(answer) == HEAD | {"about", "answer", "steps"}
    fields = set().union(*(names for names, _ in documented("### `explain --json`")))
    assert answer["steps"]
    for step in answer["steps"]:
        assert set(step) == fields
        assert set(step["cause"]) == {"kind", "seq", "text"}
        assert step["knob"] is None or set(step["knob"]) == {"name", "value", "source", "overridden"}


def test_every_word_for_a_change_is_documented() -> None:
    """What a program may find as `change`."""
    from rinkfold.timeline.views.explaining.narrate import WHAT

    said = next(text for names, text in documented("### `explain --json`") if names == {"change"})
    assert set(re.findall(r"`([^`]+)`", said)) == {*WHAT.values(), "stand-in"}


def test_a_step(rinkfold: Any, example: Path) -> None:
    """All of one, where the game sets the knob otherwise than the ruleset."""
    answer = rinkfold("explain", example, "--at", "OT 3:26", "--json").answer
    step = answer["steps"][-1]
    assert step["knob"].pop("source")
    assert step == {
        "at": {"period": 4, "clock": "3:26"},
        "at_s": 2794,
        "cause": {"kind": "clock", "seq": 289, "text": "time runs out"},
        "change": "strength",
        "team": None,
        "penalties": [],
        "text": "home 4 on 4 away: no time is on the clock, the next whistle makes it 3 on 3",
        "rule": "in a smaller overtime the returning player is added",
        "source": "NHL Official Rules 84; IIHF 84",
        "knob": {"name": "overtime.skaters", "value": 3, "overridden": True},
        "decisive": True,
    }


def test_what_it_is_about_and_the_answer(rinkfold: Any, example: Path) -> None:
    """The answer has the shape of the command for it alone."""
    at = rinkfold("explain", example, "--at", "2 5:35", "--json").answer
    assert at["about"] == {"at": {"period": 2, "clock": "5:35"}}
    box = rinkfold("box", example, "--at", "2 5:35", "--json").answer
    assert at["answer"]["box"] == {"home": box["home"], "away": box["away"]}
    strength = rinkfold("strength", example, "--at", "2 5:35", "--json").answer
    assert at["answer"]["strength"] == {name: value for name, value in strength.items() if name not in HEAD}
    penalty = rinkfold("explain", example, "--penalty", "228", "--json").answer
    assert penalty["about"] == {"penalty": 228}
    lives = rinkfold("penalties", example, "--json").answer["penalties"]
    assert penalty["answer"] == next(life for life in lives if life["penalty"] == 228)
    goal = rinkfold("explain", example, "--goal", "177", "--json").answer
    assert goal["about"] == {"goal": 177}
    goals = rinkfold("summary", example, "--json").answer["goals"]
    assert goal["answer"] == next(one for one in goals if one["seq"] == 177)


def test_full_changes_nothing_for_programs(rinkfold: Any, example: Path) -> None:
    """All steps are always there; those of the short answer are marked."""
    short = rinkfold("explain", example, "--at", "2 6:30", "--json")
    assert short.out == rinkfold("explain", example, "--at", "2 6:30", "--json", "--full").out
    decisive = [step["text"] for step in short.answer["steps"] if step["decisive"]]
    assert decisive == [
        "home 5 on 3 away: time of away 5 and away 16 is on the clock",
        "away 24 waits for a place, both are taken, by away 5 and away 16; a substitute skates",
    ]


def test_the_page_shows_what_the_commands_say(rinkfold: Any, example: Path) -> None:
    """Each console block, word for word."""
    blocks = re.findall(r"```console\n\$ rinkfold (\w+) game\.jsonl (.*?)\n(.*?)```", DOCS, flags=re.DOTALL)
    assert [command for command, _, _ in blocks] == ["explain", "whatif"]
    for command, options, shown in blocks:
        words = [quoted or plain for quoted, plain in re.findall(r'"([^"]*)"|(\S+)', options)]
        assert rinkfold(command, example, *words).out == shown
