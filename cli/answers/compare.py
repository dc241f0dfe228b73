"""`compare --json`: two records of one game side by side."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...timeline.moment import moment_at
from ...timeline.rules import Ruleset
from ...timeline.script.placed import Placed
from ..comparing import Comparison
from ..matching import Matched
from ..names import plain_fields
from .common import ANSWER_FORMAT, head, time
from .differences import differences_answer

__all__ = ["compare_answer"]


def compare_answer(comparison: Comparison, *, names: bool = False) -> dict[str, Any]:
    """``{"a", "b", "same", "opening", "knobs", "events", "answers"}``; `a` and `b` are the heads of both.

    Without `names` the events have no names of people and no free text; `fields` says where such a one differs.
    """
    events = comparison.events
    return {
        "rinkfold": ANSWER_FORMAT,
        "a": _head(comparison.one.header),
        "b": _head(comparison.other.header),
        "same": comparison.same,
        "opening": _pairs(comparison.opening),
        "knobs": _pairs(comparison.knobs),
        "events": {
            "same": not events,
            "only_a": [_event(placed, comparison.one.rules, names=names) for placed in events.only[0]],
            "only_b": [_event(placed, comparison.other.rules, names=names) for placed in events.only[1]],
            "differing": [_differing(pair, comparison, names=names) for pair in events.differing],
        },
        "answers": differences_answer(comparison.answers),
    }


def _head(header: Any) -> dict[str, Any]:
    return {name: value for name, value in head(header).items() if name != "rinkfold"}


def _pairs(pairs: Mapping[str, tuple[object, object]]) -> list[dict[str, Any]]:
    return [{"name": name, "a": one, "b": other} for name, (one, other) in pairs.items()]


def _event(placed: Placed, rules: Ruleset, *, names: bool) -> dict[str, Any]:
    """An event as it counts, with the time at which it does."""
    at = None if placed.played is None else moment_at(rules, placed.period, placed.played)
    event = plain_fields(placed.event, names=names)
    return {"seq": placed.event.seq, "kind": placed.event.kind, "at": time(at), "event": event}


def _differing(pair: Matched, comparison: Comparison, *, names: bool) -> dict[str, Any]:
    return {
        "a": _event(pair.one, comparison.one.rules, names=names),
        "b": _event(pair.other, comparison.other.rules, names=names),
        "fields": sorted(pair.fields),
    }
