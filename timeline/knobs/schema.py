"""The knobs of a ruleset as a JSON Schema: what `settings` and `pinned` of a log's first line may hold."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..clock import READING
from ..record.meanings import whole_text
from ..rules import KNOBS, Knob
from .pinning import PARTS

__all__ = ["pinned_schema", "settings_schema"]


def settings_schema() -> dict[str, Any]:
    """Single knobs by their dotted names, with values as files and logs write them."""
    return {
        "title": "Settings",
        "description": "Single rules by their dotted names; lengths are readings.",
        "type": "object",
        "properties": {name: _knob_schema(knob) for name, knob in KNOBS.items()},
        "additionalProperties": False,
    }


def pinned_schema(settings: Mapping[str, Any]) -> dict[str, Any]:
    """A whole ruleset as it is pinned; `settings` is the schema of its knobs, or a reference to it."""
    parts = {
        name: {"description": part.means, **(settings if name == "knobs" else part.schema)}
        for name, part in PARTS.items()
    }
    return {
        "title": "PinnedRuleset",
        "description": "The whole ruleset that the game is played by; a rule that is left out has the engine's value.",
        "type": "object",
        "properties": parts,
        "required": [name for name, part in PARTS.items() if part.needed],
        "additionalProperties": False,
    }


def _knob_schema(knob: Knob) -> dict[str, Any]:
    return {"description": knob.meaning, **_values(knob)}


def _values(knob: Knob) -> dict[str, Any]:
    if knob.unit == "length":
        return {"type": "string", **whole_text(READING, _too_short(knob.least))}
    if knob.unit == "yes or no":
        return {"type": "boolean"}
    if knob.unit == "choice":
        return {"enum": list(knob.values)}
    most = {} if knob.most is None else {"maximum": knob.most}
    return {"type": "integer", "minimum": knob.least, **most}


def _too_short(least: int) -> str:
    """The readings below `least` tenths, which is at most a second."""
    assert 1 <= least <= 10
    return rf"0{{1,3}}:00(?:\.[0-{least - 1}])?"
