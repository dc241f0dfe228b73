"""`rinkfold verify`: whole, chained, and the head code."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from rinkfold.timeline.record import read_log


def test_a_whole_log(rinkfold: Any, fresh: Path) -> None:
    """Exit code 0, and the head code."""
    code = read_log(fresh).head_code
    ran = rinkfold("verify", fresh)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == f"{fresh}: whole, 1 event, chain unbroken.\nHead code {code}\n"


def test_the_head_code_as_somebody_wrote_it_down(rinkfold: Any, fresh: Path) -> None:
    """Capitals and blanks do not matter; another code is no."""
    code = read_log(fresh).head_code
    ran = rinkfold("verify", fresh, "--against", code.upper().replace("-", " "))
    assert (ran.code, ran.out.splitlines()[-1]) == (0, "It is the code asked for.")
    other = rinkfold("verify", fresh, "--against", "0000-0000-0000-0000")
    assert other.code == 1
    assert other.err.startswith(f"{fresh}: Expected the head code 0000-0000-0000-0000, found {code}.")


def test_an_unchained_log_is_whole_with_a_note(rinkfold: Any, example: Path) -> None:
    """It is a fault only where the chain is required."""
    ran = rinkfold("verify", example)
    assert ran.code == 0
    assert (
        ran.err
        == f"{example}: note: The log carries no chain: whether it was changed after it was written cannot be seen.\n"
    )
    assert rinkfold("verify", example, "--require-chain").code == 1


def test_a_torn_tail_is_not_whole(rinkfold: Any, fresh: Path) -> None:
    """Other commands leave it out and say so; here the answer is no."""
    with fresh.open("ab") as file:
        file.write(b'{"seq": 2, "kind": "fa')
    assert rinkfold("verify", fresh).code == 1
    ran = rinkfold("strength", fresh)
    assert ran.code == 0
    assert "never finished" in ran.err


def test_a_changed_line_breaks_the_chain(rinkfold: Any, fresh: Path) -> None:
    """The line after the changed one is named."""
    rinkfold("record", fresh, "15:00 go")
    fresh.write_bytes(fresh.read_bytes().replace(b"Elm Owls", b"Elm Oxen"))
    ran = rinkfold("verify", fresh)
    assert (ran.code, ran.out) == (1, f"{fresh}: not whole.\n")
    assert ran.err.startswith(f"{fresh}:2: prev: The chain is broken")


def test_every_broken_log_is_a_no(rinkfold: Any, broken: list[Path]) -> None:
    """Exit code 1, with every problem, and as JSON too."""
    for path in broken:
        ran = rinkfold("verify", path)
        assert (ran.code, ran.out) == (1, f"{path}: not whole.\n")
        answer = rinkfold("verify", path, "--json").answer
        assert (answer["whole"], answer["events"], answer["head_code"]) == (False, None, None)
        assert len(answer["problems"]) == len(path.with_suffix(".expected").read_text("utf-8").splitlines())


def test_a_file_that_is_not_there_has_no_verdict(rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 2: there is nothing to judge."""
    ran = rinkfold("verify", tmp_path / "none.jsonl")
    assert (ran.code, ran.out) == (2, "")


def test_the_shape_for_programs(rinkfold: Any, fresh: Path) -> None:
    """Field for field."""
    assert rinkfold("verify", fresh, "--json").answer == {
        "rinkfold": 1,
        "game": "elm-owls-oak-otters-2026-01-10",
        "whole": True,
        "events": 1,
        "chained": True,
        "head_code": read_log(fresh).head_code,
        "against": None,
        "problems": [],
    }
