"""Broken ruleset files, each with the exact text that people see."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from rinkfold import rulesets
from rinkfold.rulesets.places import is_path
from rinkfold.rulesets.sheet import read_sheet
from rinkfold.timeline import GameOpened, Log, TeamSheet
from rinkfold.timeline.problems import ProblemsFound

FOLDER = Path(__file__).resolve().parents[1] / "data" / "broken_rulesets"
BROKEN = sorted(FOLDER.glob("*.toml"))


def refusal(name_or_path: str | os.PathLike[str]) -> str:
    with pytest.raises(ProblemsFound) as caught:
        rulesets.load(name_or_path)
    return str(caught.value)


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_each_broken_file_is_refused_with_its_text(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every problem of the file is told at once, with file and key, what was found and expected, and the remedy."""
    monkeypatch.chdir(FOLDER)
    with pytest.raises(ProblemsFound) as caught:
        rulesets.load(Path(path.name))
    assert f"{caught.value}\n" == path.with_suffix(".expected").read_text(encoding="utf-8")
    assert all(problem.file and (problem.field or problem.line) for problem in caught.value.problems)


def test_each_expected_text_belongs_to_a_file() -> None:
    """No expectation stands there unread."""
    assert len(BROKEN) >= 30
    assert {path.stem for path in FOLDER.glob("*.expected")} == {path.stem for path in BROKEN}


def test_a_name_that_is_not_known_gets_a_suggestion_and_the_list() -> None:
    """Who mistypes a name sees the right one, and all of them."""
    text = refusal("yuoth-14u")
    assert text.startswith(
        'ruleset: There is no ruleset "yuoth-14u". Did you mean "youth-14u"? The rulesets are adult, '
    )
    assert text.endswith("youth-18u; a file is named by its path, for example ./our-league.toml.")


def test_a_file_named_without_its_folder_is_pointed_at(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A word without a folder or .toml is a name; if a file is there, the message says how to name it."""
    (tmp_path / "our-league.toml").write_text('extends = "adult"\n', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert "If the file is meant, write ./our-league.toml." in refusal("our-league")
    assert rulesets.load("./our-league.toml").name == rulesets.load("our-league.toml").name == "our-league"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """The message names the file."""
    path = tmp_path / "none.toml"
    assert refusal(path) == f"{path}: There is no such file. Look for a wrong name or folder."


@pytest.mark.skipif(os.name == "nt", reason="Windows says that permission is denied")
def test_a_folder_in_place_of_a_file(tmp_path: Path) -> None:
    """A folder is no ruleset."""
    assert refusal(tmp_path) == f"{tmp_path}: This is a folder, not a ruleset file. Name the .toml file in it."


def test_a_file_that_takes_a_shipped_name(tmp_path: Path) -> None:
    """A log names its ruleset by its name alone, so a league's file has a name of its own."""
    path = tmp_path / "adult.toml"
    path.write_text('extends = "adult"\n', encoding="utf-8")
    assert refusal(path) == (
        f'{path}: A file of your own cannot be called "adult": a shipped ruleset has this name. '
        'Call it for example our-adult.toml; it can say extends = "adult".'
    )


def test_a_shipped_file_needs_a_source_for_each_value() -> None:
    """A value without a source is refused in what is shipped, and only there."""
    data = b'[lengths]\nminor = "1:30"\nmajor = "3:00"\n[sources]\n"lengths.major" = "common practice"\n'
    sheet = read_sheet(data, "new-class.toml", sources_needed=True)
    assert [(each.code, each.field, each.fix) for each in sheet.problems] == [
        (
            "no_source",
            "lengths.minor",
            'Add "lengths.minor" = "…" below [sources]: publisher, edition and rule, or common practice.',
        )
    ]
    assert read_sheet(data, "our-league.toml").problems == ()


@pytest.mark.parametrize(
    "text",
    ["x = " + "[" * 5000, "[game]\nperiods = " + "9" * 5000, "game." + ".".join("a" * 900) + " = 1", "[" * 200],
    ids=["deep lists", "a long number", "deep tables", "brackets alone"],
)
def test_what_is_too_much_for_a_reader_is_no_fault(text: str, tmp_path: Path) -> None:
    """Brackets and tables without end, and numbers of thousands of figures, are told as what is wrong with the file."""
    path = tmp_path / "ours.toml"
    path.write_text(text, encoding="utf-8")
    assert refusal(path).startswith((f"{path}: This is not TOML that can be read: ", f"{path}:1: This is not TOML: "))


@pytest.mark.parametrize(
    "named", ["../ours", "C:\\rules\\ours", "rules\\ours", "\\\\server\\ours", "ours.TOML", "./ours"]
)
def test_what_has_a_folder_in_it_is_a_file(named: str) -> None:
    """Whichever way the slash leans: a log that came by mail makes the program read no file, on Windows either."""
    assert is_path(named)
    assert not is_path("ours")
    header = GameOpened(
        seq=1, format=1, game="g", ruleset=named, home=TeamSheet(name="Elm"), away=TeamSheet(name="Oak")
    )
    with pytest.raises(ProblemsFound, match="a log's ruleset is found by name only"):
        rulesets.of(Log(name="g.jsonl", header=header, events=(header,), chained=False, head=""))
