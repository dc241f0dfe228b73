"""`rules --json`: the rulesets, one of them, what is wrong with one, and two side by side."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from ... import rulesets
from ...timeline.problems import Problem
from ...timeline.rules import KNOBS, Ruleset, knob_value
from .common import ANSWER_FORMAT, DECIDES, problem_answer

__all__ = ["check_answer", "diff_answer", "list_answer", "show_answer", "words_apart"]


def list_answer(known: Iterable[Ruleset]) -> dict[str, Any]:
    """``{"rulesets": [{"name", "title", "applied"}], "note"}``."""
    return {"rinkfold": ANSWER_FORMAT, "rulesets": [_in_short(one) for one in known], "note": DECIDES}


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


def check_answer(name: str, rules: Ruleset | None, found: Sequence[Problem]) -> dict[str, Any]:
    """``{"ruleset", "applied", "findings": [finding], "note"}``; nothing is applied where the ruleset is wrong.

    A finding is ``{"code", "severity", "file", "line", "field", "message", "fix"}``.
    """
    findings = [problem_answer(problem) for problem in found]
    for finding in findings:
        del finding["seq"]
    return {
        "rinkfold": ANSWER_FORMAT,
        "ruleset": name,
        "applied": None if rules is None else rulesets.applied_line(rules),
        "findings": findings,
        "note": DECIDES,
    }


def diff_answer(a: Ruleset, b: Ruleset) -> dict[str, Any]:
    """``{"a": ruleset, "b": ruleset, "differences": [{"knob", "meaning", "a": value, "b": value}], "infractions"}``.

    A ruleset is ``{"name", "title", "applied"}`` as in the list, a value ``{"value", "source"}``; `infractions` has the
    words that only one offers, ``{"a": [], "b": []}``.
    """
    words = words_apart(a, b)
    return {
        "rinkfold": ANSWER_FORMAT,
        "a": _in_short(a),
        "b": _in_short(b),
        "differences": [
            {
                "knob": name,
                "meaning": KNOBS[name].meaning,
                "a": {"value": mine, "source": a.sources.get(name)},
                "b": {"value": theirs, "source": b.sources.get(name)},
            }
            for name, mine, theirs in rulesets.diff(a, b)
        ],
        "infractions": {"a": words[0], "b": words[1]},
        "note": DECIDES,
    }


def _in_short(rules: Ruleset) -> dict[str, Any]:
    return {"name": rules.name, "title": rules.title, "applied": rulesets.applied_line(rules)}


def words_apart(a: Ruleset, b: Ruleset) -> tuple[list[str], list[str]]:
    """The words for infractions that only the one and only the other offers."""
    return (
        [word for word in a.infractions if word not in b.infractions],
        [word for word in b.infractions if word not in a.infractions],
    )
