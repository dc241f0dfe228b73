"""The package in examples/ruleset_package: installed without network, then found like a shipped ruleset."""

from __future__ import annotations

import importlib.util
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline.rules import KNOBS

FOLDER = Path(__file__).resolve().parents[2] / "examples" / "ruleset_package"
NAME = "tidewater-12u"

pytestmark = pytest.mark.skipif(
    importlib.util.find_spec("setuptools") is None or importlib.util.find_spec("pip") is None,
    reason="needs pip and setuptools 77 or later, to install a package without network: pip install 'rinkfold[dev]'",
)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder into which the package was installed."""
    source = shutil.copytree(FOLDER, tmp_path_factory.mktemp("source") / "ruleset_package")
    target = tmp_path_factory.mktemp("site")
    pip = (sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-index")
    how = ("--no-deps", "--no-build-isolation", "--target", str(target), str(source))
    run = subprocess.run([*pip, *how], capture_output=True, text=True, timeout=120)
    assert run.returncode == 0, run.stdout + run.stderr
    return target


def rinkfold(site: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The program, in a process that finds what is installed in `site`."""
    command = (sys.executable, "-m", "rinkfold.cli.main", *arguments)
    paths = os.pathsep.join([str(site), *filter(None, [os.environ.get("PYTHONPATH")])])
    environment = os.environ | {"PYTHONPATH": paths, "PYTHONUTF8": "1"}
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", env=environment, timeout=60)


def answer(site: Path, *arguments: str) -> Any:
    run = rinkfold(site, *arguments, "--json")
    assert run.returncode == 0, run.stderr
    return json.loads(run.stdout)


def test_it_stands_in_the_list(site: Path) -> None:
    """After the shipped ones, with what it applies; without the package it does not."""
    assert [one["name"] for one in answer(site, "rules", "list")["rulesets"]] == [*rulesets.names(), NAME]
    assert NAME not in rulesets.names()


def test_it_is_shown_with_the_source_of_every_value(site: Path) -> None:
    """Its own and the inherited ones."""
    shown = answer(site, "rules", "show", NAME)
    assert (shown["name"], shown["title"]) == (NAME, "Tidewater Youth League, under 12")
    assert shown["knobs"]["lengths.minor"] == {
        "value": "1:30",
        "unit": "length",
        "meaning": KNOBS["lengths.minor"].meaning,
        "source": "Tidewater by-laws 2026, 7",
    }
    assert all(knob["source"] for knob in shown["knobs"].values())


def test_a_game_is_opened_by_it_and_needs_it_no_more(site: Path, tmp_path: Path) -> None:
    """The rules are pinned in the first line: where the package is not installed the game is answered by them too."""
    path = tmp_path / "game.jsonl"
    opened = rinkfold(site, "new", str(path), "--ruleset", NAME, "--home", "Larks", "--away", "Otters")
    assert (opened.returncode, opened.stderr) == (0, "")
    assert "minor 1:30 · period 13:00" in opened.stdout
    elsewhere = tmp_path / "nothing-installed"
    recorded = rinkfold(elsewhere, "record", str(path), "9:15 home penalty 12 minor tripping")
    assert (recorded.returncode, recorded.stderr) == (0, "")
    assert "out at 7:45" in recorded.stdout


def test_a_stream_finds_it(site: Path) -> None:
    """By its name in the first line."""
    line = {
        "kind": "game_opened",
        "format": 1,
        "game": "g",
        "ruleset": NAME,
        "home": {"name": "A"},
        "away": {"name": "B"},
    }
    command = (sys.executable, "-m", "rinkfold.cli.main", "stream")
    environment = os.environ | {"PYTHONPATH": str(site)}
    run = subprocess.run(
        command, input=json.dumps(line), capture_output=True, text=True, env=environment, timeout=60, encoding="utf-8"
    )
    assert json.loads(run.stdout)["event"]["pinned"]["knobs"]["lengths.minor"] == "1:30"


def test_it_can_be_checked_and_compared(site: Path) -> None:
    """By its name, like any other."""
    assert answer(site, "rules", "check", NAME)["findings"] == []
    differing = rinkfold(site, "rules", "diff", "youth-12u", NAME, "--json")
    assert differing.returncode == 1
    assert [one["knob"] for one in json.loads(differing.stdout)["differences"]] == [
        "game.period_length",
        "game.running_clock.starts_at_lead",
        "game.running_clock.stops_below",
        "lengths.minor",
        "overtime.skaters",
    ]


def test_its_readme_shows_what_is_so() -> None:
    """The console block, word for word."""
    shown = (FOLDER / "README.md").read_text("utf-8").partition("```console\n")[2].partition("```")[0]
    command, _, expected = shown.partition("\n")
    run = subprocess.run(
        (sys.executable, "-m", "rinkfold.cli.main", *command.removeprefix("$ rinkfold ").split()),
        cwd=FOLDER, capture_output=True, text=True, encoding="utf-8", timeout=60,
        env=os.environ | {"PYTHONUTF8": "1"},
    )  # fmt: skip
    assert (run.stdout, run.stderr) == (expected, "")
