"""Both judges of one line: the schema and the reader."""

from __future__ import annotations

import functools
import json
from typing import Any

from jsonschema import Draft202012Validator

from rinkfold.rulesets import unpin, with_settings
from rinkfold.timeline import GameOpened, ProblemsFound, Ruleset, log_schema
from rinkfold.timeline.events import KINDS
from rinkfold.timeline.record import event_from_line
from rinkfold.timeline.record.upgrades import FORMATS

VALIDATOR = Draft202012Validator(log_schema())
"""The whole schema."""


@functools.cache
def _of_kind(kind: str) -> Draft202012Validator:
    return Draft202012Validator({**log_schema(), "allOf": [{"$ref": f"#/$defs/{kind}"}]})


def fits(value: Any) -> bool:
    """Whether the schema accepts a parsed line.

    Only the kind that the line names is tried, which is many times as quick: the others are for other kinds.
    """
    kind = value.get("kind") if isinstance(value, dict) else None
    judge = _of_kind(kind) if isinstance(kind, str) and kind in KINDS else VALIDATOR
    return judge.is_valid(value)


def is_read(value: Any) -> bool:
    """Whether the reader takes the line that `value` is, with the rules that a first line carries."""
    try:
        _read(json.dumps(value))
    except ProblemsFound as found:
        return {problem.code for problem in found.problems} == {"impossible_combination"}
    return True


def _read(line: str) -> None:
    event = event_from_line(line)
    if isinstance(event, GameOpened):
        FORMATS.upgrade_from(event.format)
        if event.pinned is not None:
            unpin(event.pinned)
        with_settings(Ruleset(), event.settings)
