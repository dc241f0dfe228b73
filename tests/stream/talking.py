"""A conversation with the program, in a process of its own or without one."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from rinkfold.cli.streaming.game import StreamedGame
from rinkfold.cli.streaming.session import Session

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "game.jsonl"
COMMAND = (sys.executable, "-m", "rinkfold.cli.main", "stream")
OPENING: dict[str, Any] = {
    "kind": "game_opened",
    "format": 1,
    "game": "g-1",
    "ruleset": "youth-12u",
    "home": {"name": "Larks"},
    "away": {"name": "Otters"},
}
MINOR: dict[str, Any] = {
    "kind": "penalty_assessed",
    "period": 1,
    "clock": "9:15",
    "team": "home",
    "player": "12",
    "parts": ["minor"],
}


def goal(clock: str, team: str = "away", **more: Any) -> dict[str, Any]:
    return {"kind": "goal", "period": 1, "clock": clock, "team": team, "scorer": "17", **more}


def talk(*lines: Any, log: Path | None = None) -> list[dict[str, Any]]:
    """The answers to `lines`, in this process: objects, or bytes sent as they are."""
    session = Session(StreamedGame.of(None if log is None else str(log)))
    return [session.answer(number, _bytes(line)) for number, line in enumerate(lines, 1)]


def _bytes(line: Any) -> bytes | None:
    return line if line is None or isinstance(line, bytes) else json.dumps(line).encode()


def sent(lines: Iterable[Any]) -> bytes:
    """The lines as they are written."""
    return b"".join((line if isinstance(line, bytes) else json.dumps(line).encode()) + b"\n" for line in lines)


def ran(data: bytes, *arguments: str) -> subprocess.CompletedProcess[bytes]:
    """A whole run of the program."""
    return subprocess.run([*COMMAND, *arguments], input=data, capture_output=True, timeout=60)


def answers(out: bytes) -> list[dict[str, Any]]:
    """What it answered, line by line."""
    return [json.loads(line) for line in out.splitlines()]


def codes(answer: dict[str, Any]) -> list[str]:
    """The problems of an answer."""
    return [problem["code"] for problem in answer["problems"]]
