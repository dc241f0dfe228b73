"""`rinkfold compare`: two records of one game side by side."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Written = Callable[[str, str], Path]


@pytest.fixture
def sparse(example: Path) -> Path:
    """The example game as most tables write it."""
    return example.with_name("sparse.jsonl")


@pytest.fixture
def other(tmp_path: Path, sparse: Path) -> Written:
    """The sparse record with one thing written otherwise."""

    def write(pattern: str, instead: str) -> Path:
        text = sparse.read_text(encoding="utf-8")
        changed = re.sub(pattern, instead, text, count=1)
        assert changed != text
        path = tmp_path / "b.jsonl"
        path.write_text(changed, encoding="utf-8")
        return path

    return write


def renumbered(lines: list[str], by: int) -> list[str]:
    """The lines with their seqs higher or lower."""
    return [re.sub(r'"seq": (\d+)', lambda found: f'"seq": {int(found[1]) + by}', line, count=1) for line in lines]


def test_the_same_record(rinkfold: Any, sparse: Path) -> None:
    """Exit code 0, and a line that says so."""
    ran = rinkfold("compare", sparse, sparse)
    assert ran.code == 0
    assert ran.out.splitlines()[2] == "The same: events and answers."
    answer = rinkfold("compare", sparse, sparse, "--json").answer
    assert answer["same"]
    assert answer["events"] == {"same": True, "only_a": [], "only_b": [], "differing": []}
    assert answer["answers"]["same"]


def test_when_and_by_whom_it_was_written_is_no_difference(rinkfold: Any, sparse: Path, other: Written) -> None:
    """Nor are notes."""
    path = other(r'("kind": "goal",)', r'\1 "by": "scorekeeper", "recorded_at": "2026-11-14T11:00:00Z",')
    assert rinkfold("compare", sparse, path).code == 0


def test_an_order_of_writing_is_no_difference(rinkfold: Any, sparse: Path, tmp_path: Path) -> None:
    """The same events written in another order at one reading's distance, with other numbers."""
    lines = sparse.read_text(encoding="utf-8").splitlines()
    at = next(index for index, line in enumerate(lines) if '"13:10"' in line)
    lines[at], lines[at + 1] = lines[at + 1], lines[at]
    for index in (at, at + 1):
        lines[index] = re.sub(r'"seq": \d+', f'"seq": {index + 1}', lines[index])
    path = tmp_path / "late.jsonl"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert rinkfold("compare", sparse, path).code == 0


def test_another_reading_of_one_event(rinkfold: Any, sparse: Path, other: Written, golden: Any) -> None:
    """The events differ, and so do the answers, each from its reading on."""
    path = other(r'"clock": "8:10", "team": "away", "player": "5"', '"clock": "8:12", "team": "away", "player": "5"')
    ran = rinkfold("compare", sparse, path)
    assert ran.code == 1
    assert ran.out.replace(str(sparse), "a.jsonl").replace(str(path), "b.jsonl") == golden("another_reading")


def test_the_full_and_the_sparse_record(rinkfold: Any, example: Path, sparse: Path, golden: Any) -> None:
    """The answers differ wherever a whistle decides; faceoffs, whistles and shots are counted."""
    ran = rinkfold("compare", example, sparse)
    assert ran.code == 1
    assert ran.out.replace(str(example), "a.jsonl").replace(str(sparse), "b.jsonl") == golden("full_and_sparse")


def test_events_that_differ_and_answers_that_do_not(rinkfold: Any, sparse: Path, other: Written) -> None:
    """What a penalty was for changes no answer; the records differ all the same."""
    ran = rinkfold("compare", sparse, other('"infraction": "boarding"', '"infraction": "charging"'))
    assert ran.code == 1
    assert "The events differ; the answers are the same." in ran.out.splitlines()
    assert "#7 7:30 home penalty 4 major charging announced 5:00" in ran.out


def test_an_event_that_only_one_has(rinkfold: Any, sparse: Path, tmp_path: Path) -> None:
    """It stands with its number in its own file; the events after it are still the same ones."""
    lines = sparse.read_text(encoding="utf-8").splitlines()
    gone = next(index for index, line in enumerate(lines) if '"kind": "goal"' in line)
    kept = [*lines[:gone], *renumbered(lines[gone + 1 :], -1)]
    path = tmp_path / "b.jsonl"
    path.write_text("\n".join(kept) + "\n", encoding="utf-8")
    answer = rinkfold("compare", sparse, path, "--json").answer
    assert [(one["seq"], one["kind"]) for one in answer["events"]["only_a"]] == [(gone + 1, "goal")]
    assert answer["events"]["only_b"] == []
    assert answer["events"]["differing"] == []
    (goal,) = answer["answers"]["goals"]
    assert (goal["before"]["seq"], goal["after"]) == (gone + 1, None)
    (part,) = answer["answers"]["parts"]
    assert part["before"]["penalty"] == part["after"]["penalty"] == 5
    assert part["before"]["ended_by"] == gone + 1


def test_a_penalty_that_each_counts_by_its_own_number(rinkfold: Any, sparse: Path, tmp_path: Path) -> None:
    """In answers for programs `before` counts as A does and `after` as B does."""
    lines = sparse.read_text(encoding="utf-8").splitlines()
    lines.insert(4, '{"seq": 5, "kind": "remark", "period": 1, "clock": "12:00", "text": "loud"}')
    lines[5:] = renumbered(lines[5:], 1)
    changed = [line.replace('"clock": "8:10"', '"clock": "8:12"') for line in lines]
    path = tmp_path / "b.jsonl"
    path.write_text("\n".join(changed) + "\n", encoding="utf-8")
    parts = rinkfold("compare", sparse, path, "--json").answer["answers"]["parts"]
    assert [(part["before"]["penalty"], part["after"]["penalty"]) for part in parts] == [(17, 18), (19, 20)]
    assert [(part["before"]["ended_by"], part["after"]["ended_by"]) for part in parts][1] == (20, 21)
    assert "  away 5 #17/#18 minor   " in rinkfold("compare", sparse, path).out


def test_other_rules_and_another_opening(rinkfold: Any, sparse: Path, other: Written) -> None:
    """What the first lines and the rules set otherwise is told first, and whose rules each used last."""
    path = other('"overtime.skaters": 3', '"overtime.skaters": 4')
    ran = rinkfold("compare", sparse, path)
    assert ran.code == 1
    assert "Answered by other rules\n                    A  B\n  overtime.skaters  3  4\n" in ran.out
    assert ran.out.splitlines()[-2:] == [
        "A: Rules: youth-14u, with overtime.skaters 3. The league's own rules and the officials on the ice decide.",
        "B: Rules: youth-14u, with overtime.skaters 4. The league's own rules and the officials on the ice decide.",
    ]
    answer = rinkfold("compare", sparse, path, "--json").answer
    assert answer["knobs"] == [{"name": "overtime.skaters", "a": 3, "b": 4}]
    renamed = rinkfold("compare", sparse, other('"name": "Larkmoor Lanterns"', '"name": "Larkmoor"'), "--json").answer
    assert renamed["opening"] == [{"name": "home name", "a": "Larkmoor Lanterns", "b": "Larkmoor"}]
    assert renamed["same"] is False


def test_the_shape_for_programs(rinkfold: Any, example: Path, sparse: Path) -> None:
    """Field for field as documented."""
    answer = rinkfold("compare", example, sparse, "--json").answer
    assert set(answer) == {"rinkfold", "a", "b", "same", "opening", "knobs", "events", "answers"}
    assert set(answer["a"]) == {"game", "ruleset"}
    assert set(answer["events"]) == {"same", "only_a", "only_b", "differing"}
    assert set(answer["events"]["only_a"][0]) == {"seq", "kind", "at", "event"}
    assert set(answer["answers"]) == {
        "same", "first", "releases", "parts", "strengths", "goals", "goalies", "totals",
    }  # fmt: skip
    assert answer["answers"]["first"] == {"period": 2, "clock": "11:22"}


def test_differing_fields_are_named(rinkfold: Any, sparse: Path, other: Written) -> None:
    """Which fields of which event, in both records."""
    answer = rinkfold("compare", sparse, other('"scorer": "25"', '"scorer": "20"'), "--json").answer
    (pair,) = answer["events"]["differing"]
    assert pair["fields"] == ["scorer"]
    assert (pair["a"]["event"]["scorer"], pair["b"]["event"]["scorer"]) == ("25", "20")


def test_no_names_without_asking(rinkfold: Any, example: Path, sparse: Path, other: Written) -> None:
    """Staff who were penalized are not named in tables."""
    path = other('"staff": "Dorit Samphire", "parts": ', '"staff": "Emmet Ravenholm", "parts": ')
    assert "Samphire" not in rinkfold("compare", sparse, path).out
    assert "Samphire" in rinkfold("compare", sparse, path, "--names").out


def test_what_cannot_be_read(rinkfold: Any, sparse: Path, tmp_path: Path) -> None:
    """Exit code 2, and every problem of both files in one run."""
    missing, broken = tmp_path / "none.jsonl", tmp_path / "broken.jsonl"
    broken.write_text("no log\n", encoding="utf-8")
    for pair in ((sparse, missing), (missing, sparse)):
        ran = rinkfold("compare", *pair)
        assert (ran.code, ran.out) == (2, "")
        assert ran.err.startswith(f"{missing}: The file cannot be read: ")
    both = rinkfold("compare", missing, broken)
    assert both.code == 2
    assert f"{missing}: " in both.err
    assert f"{broken}:1: " in both.err
