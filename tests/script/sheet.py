"""Logs written line by line, and their script told by the lines' numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rinkfold.timeline.events import KINDS, Event
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.script import Placed, Script

RULES = Ruleset()
"""Periods of 15:00, and a board that counts down."""

_NEEDED: dict[str, dict[str, Any]] = {
    "game_opened": {"format": 1, "game": "g", "ruleset": "youth-12u", "home": None, "away": None},
    "shot": {"team": "home"},
    "goal": {"team": "home"},
    "penalty_assessed": {"team": "away", "parts": ("minor",)},
    "penalty_ended": {"team": "away", "penalty": 1, "cause": "released"},
    "goalie_change": {"team": "home", "goalie": "31"},
    "penalty_shot": {"team": "home", "result": "missed"},
    "timeout": {"team": "home"},
    "shootout_attempt": {"team": "home", "result": "missed"},
    "roster_change": {"team": "home", "number": "7"},
    "observed_strength": {"home": 5, "away": 5},
    "observed_player": {"team": "home", "player": "7", "where": "ice"},
    "figures": {"team": "home", "source": "board"},
    "remark": {"text": "a remark"},
    "void": {"reason": "wrong"},
    "amend": {"reason": "wrong"},
    "game_closed": {"outcome": "played"},
}


def event(kind: str, seq: int, **fields: Any) -> Event:
    """An event of `kind` with the least that it needs."""
    return KINDS[kind](seq=seq, **(_NEEDED.get(kind, {}) | fields))


class Sheet:
    """A log being written; `write` gives the seq of the line."""

    def __init__(self, rules: Ruleset = RULES) -> None:
        self.rules = rules
        self.events: list[Event] = [event("game_opened", 1)]

    def write(self, kind: str, clock: str | None = None, period: int | None = None, **fields: Any) -> int:
        """Write one line; where there is a reading and no period, in period 1."""
        if clock is not None and period is None:
            period = 1
        seq = len(self.events) + 1
        self.events.append(event(kind, seq, period=period, clock=clock, **fields))
        return seq

    def void(self, target: int) -> int:
        return self.write("void", target=target)

    def amend(self, target: int, /, **changes: Any) -> int:
        return self.write("amend", target=target, changes=changes)

    @property
    def placed(self) -> Sequence[Placed]:
        """The script, which is the same built at once and event by event."""
        at_once = Script.build(self.events, self.rules)
        grown = Script(self.rules)
        for one in self.events:
            grown.append(one)
        for script in (at_once, grown):
            script._check()
        assert list(at_once.placed) == list(grown.placed)
        return at_once.placed

    @property
    def order(self) -> list[int]:
        """The seqs in game order."""
        return [one.event.seq for one in self.placed]

    def find(self, seq: int) -> Placed:
        """Where the event `seq` stands."""
        return next(one for one in self.placed if one.event.seq == seq)
