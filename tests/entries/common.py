"""The game that entries are typed into, in these tests."""

from __future__ import annotations

from typing import Any

from attrs import evolve

from rinkfold.cli.entries import Entry, EntryContext, EntryProblem, parse_entry
from rinkfold.timeline.events import Event

GAME = EntryContext(
    home=("White",),
    away=("Green",),
    period=2,
    played=3400,
    last_seq=40,
    sitting={("home", "12"): (23,), ("home", "8"): (31, 35)},
)
"""White (home) against Green (away); the second of three periods of 15:00, counted down, at 9:20."""


def entered(text: str, context: EntryContext = GAME) -> Event:
    result = parse_entry(text, context)
    assert isinstance(result, Entry), f"{text}: {result.message} {result.fix}"
    return result.event


def refused(text: str, context: EntryContext = GAME, **changes: Any) -> EntryProblem:
    result = parse_entry(text, evolve(context, **changes))
    assert isinstance(result, EntryProblem), f"{text} is understood: {result}"
    return result
