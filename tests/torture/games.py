"""Games that are tortured, and what the tests look at afterwards."""

from __future__ import annotations

import functools
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from strategies import header

from rinkfold.timeline.events import Event, Faceoff, Goal, PenaltyAssessed, Remark, Stoppage
from rinkfold.timeline.problems import ProblemsFound, render
from rinkfold.timeline.record import log_bytes, parse_log

TESTS = Path(__file__).resolve().parents[1]
EXAMPLE = TESTS.parent / "examples" / "game.jsonl"


def short_game() -> list[Event]:
    """Six lines with a little of everything: a number, a null, a list, letters of more than one byte."""
    return [
        header(),
        Faceoff(seq=2, period=1, clock="12:00"),
        PenaltyAssessed(seq=3, period=1, clock="9:15", team="home", player="12", parts=("minor", "minor")),
        Goal(seq=4, period=1, clock="8:50", team="away", scorer="17", assists=("4", "00")),
        Remark(seq=5, text="Nebel über dem Eis – 10 min"),
        Stoppage(seq=6, period=1, clock="7:42", reason="puck out of play"),
    ]


@functools.cache
def example_events() -> tuple[Event, ...]:
    """The events of the example game."""
    return parse_log(EXAMPLE.read_bytes()).events


@functools.cache
def example_bytes() -> bytes:
    """The example game as a chained log."""
    return log_bytes(example_events())


def remark(text: str = "x") -> Remark:
    return Remark(seq=0, text=text)


def texts(path: Path) -> list[str]:
    """The texts of the remarks in the log at `path`, in the order written."""
    return [event.text for event in parse_log(path.read_bytes()).events if isinstance(event, Remark)]


def refusal(act: Callable[[], object]) -> list[str]:
    """The codes of the problems that `act` is refused with; each problem can be shown to people."""
    with pytest.raises(ProblemsFound) as caught:
        act()
    assert caught.value.problems
    assert all(render(problem).encode() and problem.message for problem in caught.value.problems)
    return [problem.code for problem in caught.value.problems]


def files(folder: Path) -> dict[str, bytes]:
    """What is in `folder`, the locks left out."""
    return {file.name: file.read_bytes() for file in sorted(folder.iterdir()) if not file.name.endswith(".lock")}


def started(module: str, *arguments: object) -> subprocess.Popen[str]:
    """The program ``torture.MODULE`` with these arguments, in a process of its own."""
    known = os.pathsep.join(place for place in (str(TESTS), os.environ.get("PYTHONPATH", "")) if place)
    return subprocess.Popen(
        [sys.executable, "-m", f"torture.{module}", *map(str, arguments)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": known},
    )
