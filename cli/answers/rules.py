"""`rules --json`: the rulesets, and one of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ... import rulesets
from ...timeline.rules import KNOBS, Ruleset, knob_value
from .common import ANSWER_FORMAT, DECIDES

__all__ = ["list_answer", "show_answer"]


def list_answer(known: Iterable[Ruleset]) -> dict[str, Any]:
    """``{"rulesets": [{"name", "title", "applied"}], "note"}``."""
    rows = [{"name": one.name, "title": one.title, "applied": rulesets.applied_line(one)} for one in known]
    return {"rinkfold": ANSWER_FORMAT, "rulesets": rows, "note": DECIDES}


def show_answer(rules: Ruleset) -> dict[str, Any]:
    """``{"name", "title", "applied", "knobs": {dotted name: knob}, "infractions", "note"}``.

    A knob is ``{"value", "unit", "meaning", "source"}``, its value as files write it.
    """
    knobs = {
        name: {
            "value": rulesets.written(knob_value(rules, name), name),
            "unit": knob.unit,
            "meaning": knob.meaning,
            "source": rules.sources.get(name),
        }
        for name, knob in KNOBS.items()
    }
    return {
        "rinkfold": ANSWER_FORMAT,
        "name": rules.name,
        "title": rules.title,
        "applied": rulesets.applied_line(rules),
        "knobs": knobs,
        "infractions": list(rules.infractions),
        "note": DECIDES,
    }
