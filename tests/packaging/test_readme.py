"""The README's first block is what CI executes, what it shows is what the tool says, and its table is complete."""

import re
import shlex
import shutil
import tomllib
from pathlib import Path

import pytest

from rinkfold.cli.group import COMMANDS
from rinkfold.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    """The contents of each block fenced as `language`, in order."""
    return re.findall(rf"^```{language}\n(.*?)^```$", README, flags=re.MULTILINE | re.DOTALL)


def shown(block: str) -> list[tuple[str, str]]:
    """Each command of a console block with the answer shown below it."""
    return re.findall(r"^\$ rinkfold (.*)\n((?:(?!\$ ).*\n)*)", block, flags=re.MULTILINE)


def answer(arguments: str, capsys: pytest.CaptureFixture[str]) -> str:
    """What the command prints; it must succeed."""
    with pytest.raises(SystemExit) as end:
        app(shlex.split(arguments))
    assert end.value.code == 0
    return capsys.readouterr().out


def test_the_first_sh_block_is_two_commands() -> None:
    """Line 1 installs and runs the example game, line 2 installs what the tests need and runs them all."""
    run_the_job, run_the_tests = blocks("sh")[0].splitlines()
    assert run_the_job.endswith(" && .venv/bin/rinkfold demo")
    assert run_the_tests.endswith(" && .venv/bin/python -m pytest -n auto")


def test_a_result_is_shown_within_a_dozen_lines() -> None:
    """Whoever opens the README sees at once what the tool answers."""
    first_lines = README.splitlines()[:12]
    assert any(line.startswith("$ rinkfold ") for line in first_lines)


@pytest.mark.parametrize("block", blocks("console"), ids=lambda block: shown(block)[0][0])
def test_what_the_readme_shows_is_what_the_tool_says(
    block: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each command shown gives the answer shown, word for word, typed in a folder that holds the examples."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    commands = shown(block)
    assert commands
    for arguments, expected in commands:
        assert answer(arguments, capsys) == expected


def test_every_command_stands_in_the_table_and_no_other() -> None:
    """A command that is not in the README is not found; one that is only in the README does not work."""
    in_the_table = re.findall(r"^\| `rinkfold ([a-z-]+)", README, flags=re.MULTILINE)
    assert sorted(in_the_table) == sorted(COMMANDS)


def test_every_dependency_has_its_reason() -> None:
    """Each runtime dependency is named in the README's list of dependencies, and nothing else is."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = [re.split(r"[<>=!~\[ ;]", wanted)[0] for wanted in project["dependencies"]]
    explained = re.findall(r"^\* \*\*([a-z0-9-]+)\*\*: ", README, flags=re.MULTILINE)
    assert sorted(explained) == sorted(needed)
