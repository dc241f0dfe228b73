"""A change as a plain object, for whoever sends it on or makes rows of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import asdict

from ..fold.changes import Change, PlayResumed, PlayStopped
from .explaining.narrate import WHAT

__all__ = ["KINDS_OF_CHANGE", "change_to_dict"]

KINDS_OF_CHANGE: Mapping[type[Any], str] = {**WHAT, PlayStopped: "stopped", PlayResumed: "resumed"}
"""What each kind of change is called: the same words as in the stream and in ``explain --json``."""


def change_to_dict(change: Change) -> dict[str, Any]:
    """`change` as an object for JSON: what it is called under ``"change"``, then its fields in their own units.

    Times are tenths of a second played, as in the change itself; `Game.at` and the answers have moments.

    >>> from rinkfold import rulesets
    >>> from rinkfold.timeline import LiveGame, Stoppage
    >>> live = LiveGame.open(rulesets.load("adult"), home="Larks", away="Herons")
    >>> change = live.record(Stoppage(seq=0, period=1, clock="14:00"))[-1]
    >>> {name: value for name, value in change_to_dict(change).items() if name != "rule"}
    {'change': 'stopped', 'at': 600, 'period': 1, 'seq': 2, 'implied': False}

    Raises:
        TypeError: it is no change.
    """
    called = KINDS_OF_CHANGE.get(type(change))
    if called is None:
        raise TypeError(f"Expected a change as LiveGame.record gives them, found a {type(change).__name__}.")
    fields = change._asdict()
    if "penalties" in fields:
        fields["penalties"] = list(fields["penalties"])
    return {"change": called, **fields, "rule": asdict(change.rule)}
