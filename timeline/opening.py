"""The first line of a new game, from a ruleset, single settings and what is known of the game."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import attrs

from .events import GameOpened
from .knobs.checking import right_rules
from .knobs.pinning import pin
from .knobs.settings import settings_of_game
from .problems import Problem, ProblemsFound
from .record.codec import as_written, event_from_dict, event_from_line, event_to_line
from .record.upgrades import FORMAT
from .rules import Ruleset

__all__ = ["first_line"]

_MADE_HERE = ("seq", "kind", "format", "ruleset", "pinned", "prev")


def first_line(
    rules: Ruleset, fields: Mapping[str, Any], settings: Mapping[str, Any] | None
) -> tuple[GameOpened, Ruleset]:
    """The first line of a game by `rules` with `settings` set in them, and the ruleset that comes of it.

    Args:
        rules: what the game is played by.
        fields: the other fields of `GameOpened`; a team is its name or its sheet.
        settings: by dotted names, as a log writes them.

    Raises:
        ProblemsFound: the ruleset, a setting or a field is not right.
    """
    applied = settings_of_game(right_rules(rules), settings) if settings else right_rules(rules)
    if wrong := [_made_here(name) for name in fields if name in _MADE_HERE]:
        raise ProblemsFound(wrong)
    written = {name: _written(name, value) for name, value in fields.items()}
    made = event_from_dict(
        {
            "seq": 1,
            "kind": GameOpened.kind,
            "format": FORMAT,
            "ruleset": rules.name,
            **({"settings": dict(settings)} if settings else {}),
            "pinned": pin(applied),
            **written,
        }
    )
    opened = event_from_line(event_to_line(made).decode())
    assert isinstance(opened, GameOpened)
    return opened, applied


def _written(name: str, value: Any) -> Any:
    """A field as the log writes it."""
    if name in ("home", "away") and isinstance(value, str):
        return {"name": value}
    return as_written(value) if attrs.has(type(value)) else value


def _made_here(name: str) -> Problem:
    fix = "Give another ruleset, or settings." if name in ("ruleset", "pinned") else "Leave it out."
    return Problem(code="fixed_field", message="The game is opened with a value of its own there.", fix=fix, field=name)
