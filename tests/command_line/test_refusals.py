"""What is wrong in what was handed in: exit code 2, one clear message, no traceback, and the file as it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

READING = ("box", "strength", "penalties", "summary")


@pytest.mark.parametrize("command", READING)
def test_broken_logs_are_refused_with_every_problem(command: str, rinkfold: Any, broken: list[Path]) -> None:
    """Each problem of the file in one run, with file and line."""
    for path in broken:
        ran = rinkfold(command, path)
        assert (ran.code, ran.out) == (2, "")
        expected = path.with_suffix(".expected").read_text("utf-8")
        assert ran.err.replace(f"{path.parent}/", "").replace(f"{path.parent}\\", "") == expected


def test_nothing_is_appended_to_a_broken_log(rinkfold: Any, broken: list[Path], copied: Any) -> None:
    """It stays as it was, byte for byte."""
    for path in broken:
        copy = copied(path)
        assert rinkfold("record", copy, "remark x").code == 2
        assert copy.read_bytes() == path.read_bytes()


@pytest.mark.parametrize("command", [*READING, "record"])
def test_a_file_that_is_not_there_and_a_folder(command: str, rinkfold: Any, tmp_path: Path) -> None:
    """One message with the remedy."""
    entry = ["remark x"] if command == "record" else []
    missing = rinkfold(command, tmp_path / "none.jsonl", *entry)
    assert (missing.code, missing.out) == (2, "")
    assert missing.err == (
        f"{tmp_path / 'none.jsonl'}: The file cannot be read: it, or the folder it is in, is not there. "
        "Look for a wrong name, or a drive that was taken out.\n"
    )
    folder = rinkfold(command, tmp_path, *entry)
    assert (folder.code, folder.out) == (2, "")
    assert folder.err.startswith(f"{tmp_path}: The file cannot be read: ")


MOMENTS = [
    ("7:42", "'7:42' is not a game time."),
    ("2", "'2' is not a game time."),
    ("2 7:72", "'2 7:72' is not a game time."),
    ("two 7:42", "'two 7:42' is not a game time."),
    ("0 7:42", "'0 7:42': under these rules there is no period 0."),
    ("5 1:00", "'5 1:00': under these rules there is no period 5."),
    ("OT2 1:00", "'OT2 1:00': under these rules there is no period 5."),
    ("2 15:01", "'2 15:01': period 2 is 15:00 long."),
    ("OT 5:00.1", "'OT 5:00.1': period 4 is 5:00 long."),
]


@pytest.mark.parametrize(("at", "message"), MOMENTS)
def test_a_moment_that_is_none(at: str, message: str, rinkfold: Any, example: Path) -> None:
    """What was typed, why it is no game time, and how one is written."""
    ran = rinkfold("box", example, "--at", at)
    assert (ran.code, ran.out) == (2, "")
    assert (
        ran.err == f'{message} Write the period and what the board shows: --at "2 7:42", in overtime --at "OT 3:10".\n'
    )


def test_a_ruleset_that_nobody_knows(rinkfold: Any, tmp_path: Path, example: Path) -> None:
    """The log names it, and is not answered by another one."""
    path = tmp_path / "g.jsonl"
    path.write_bytes(example.read_bytes().replace(b'"ruleset": "youth-14u"', b'"ruleset": "youth-99u"', 1))
    ran = rinkfold("box", path)
    assert (ran.code, ran.out) == (2, "")
    assert "youth-99u" in ran.err


@pytest.mark.parametrize(
    "arguments", [("box",), ("bxo",), ("box", "g.jsonl", "--when", "2 7:42"), ("record", "g.jsonl"), ()]
)
def test_wrong_usage(arguments: tuple[str, ...], rinkfold: Any) -> None:
    """Exit code 2, and nothing on standard output that could be taken for an answer."""
    ran = rinkfold(*arguments)
    assert ran.code == 2
    assert "Traceback" not in ran.err


def test_a_slip_in_the_command_is_offered(rinkfold: Any) -> None:
    """The likely one is named."""
    assert "Did you mean 'box'?" in rinkfold("bxo").err


def test_interrupted(rinkfold: Any, example: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Exit code 130, a word, no traceback."""

    def interrupt(path: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("rinkfold.timeline.record.read_log", interrupt)
    ran = rinkfold("box", example)
    assert (ran.code, ran.out, ran.err) == (130, "", "Interrupted.\n")


def test_a_fault_of_the_program_is_called_so(rinkfold: Any, example: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not the user's doing, and still no traceback."""

    def fail(path: object) -> None:
        raise ZeroDivisionError("x")

    monkeypatch.setattr("rinkfold.timeline.record.read_log", fail)
    ran = rinkfold("box", example)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("A fault in rinkfold itself: ZeroDivisionError: x.")


@pytest.mark.parametrize("line", ["1", '{"a": 1}', "seq,kind", "\udcff"])
@pytest.mark.parametrize("command", ["check", "verify", "summary"])
def test_a_file_that_is_no_log(command: str, line: str, rinkfold: Any, tmp_path: Path) -> None:
    """The first five lines that are wrong, and how many more: nobody repairs such a file line by line."""
    path = tmp_path / "letters.txt"
    path.write_text(f"{line}\n" * 159, encoding="utf-8", errors="surrogateescape")
    ran = rinkfold(command, path)
    assert ran.code == (1 if command == "verify" else 2)
    *first, last = ran.err.splitlines()
    assert [told.startswith(f"{path}:{number}: ") for number, told in enumerate(first, 1)] == [True] * 5
    assert last == f"{path}: and 154 more. It is no game log."


def test_programs_are_told_everything(rinkfold: Any, tmp_path: Path) -> None:
    """The shortening is for people."""
    path = tmp_path / "letters.txt"
    path.write_text("x\n" * 159, encoding="utf-8")
    assert len(rinkfold("verify", path, "--json").answer["problems"]) == 159


def test_a_log_with_wrong_lines_is_told_whole(rinkfold: Any, tmp_path: Path, example: Path) -> None:
    """Whoever repairs a log sees all of it at once."""
    lines = example.read_text("utf-8").splitlines(keepends=True)
    path = tmp_path / "broken.jsonl"
    path.write_text("".join([*lines[:5], *("x\n" for _ in range(20)), *lines[25:]]), encoding="utf-8", newline="\n")
    ran = rinkfold("check", path)
    assert sum(told.startswith(f"{path}:") for told in ran.err.splitlines()) >= 20
    assert "more. It is no game log." not in ran.err
