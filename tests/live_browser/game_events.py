"""The events of a log as the tests compare them, and the example game as it is to be entered."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from attrs import evolve

from rinkfold.timeline import read_log
from rinkfold.timeline.events import Event, GameOpened

__all__ = ["as_lines", "compared", "example", "example_lines"]

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "game.jsonl"


def compared(log: Path) -> list[Event]:
    """The events of `log` with every field but those that no two writings share.

    Left out are when and by whom each was written, the chain, which follows from that, and of the opening the game's
    id, which is given anew, and the ruleset in full, which the example does not write down: tests compare the rules
    that are applied. A number that is null and one that is absent are the same.
    """
    return [_compared(event) for event in read_log(log).events]


def _compared(event: Event) -> Event:
    event = evolve(event, recorded_at=None, prev=None, by=None)
    return evolve(event, game="", pinned=None) if isinstance(event, GameOpened) else event


def example() -> list[Event]:
    """The example game, compared in the same way."""
    return compared(EXAMPLE)


def example_lines() -> list[dict[str, Any]]:
    """The example game as it stands in its file."""
    return as_lines(EXAMPLE)


def as_lines(log: Path) -> list[dict[str, Any]]:
    """Each line of a log."""
    return [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
