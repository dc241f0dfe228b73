"""Settings: single knobs of a ruleset set otherwise for one game."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from ..problems import ProblemsFound
from ..rules import Ruleset
from .combinations import impossible_combinations
from .values import read_values, with_values

__all__ = ["settings_of_game", "with_settings"]

_SOURCE = "set for this game"


def with_settings(rules: Ruleset, settings: Mapping[str, Any] | None) -> Ruleset:
    """`rules` with `settings`, by dotted names as a log writes them; their source then reads *set for this game*.

    Raises:
        ProblemsFound: every setting that is no knob or no value of it, or what does not go together.
    """
    values, problems = read_values(settings or {})
    changed = with_values(rules, values)
    problems = problems or list(impossible_combinations(changed))
    if problems:
        raise ProblemsFound(problems)
    return evolve(changed, sources={**rules.sources, **dict.fromkeys(values, _SOURCE)})


def settings_of_game(rules: Ruleset, settings: Mapping[str, Any] | None) -> Ruleset:
    """The same for `settings` of a log's first line: a problem has a field such as ``settings.lengths.minor``.

    Raises:
        ProblemsFound: as `with_settings`.
    """
    try:
        return with_settings(rules, settings)
    except ProblemsFound as found:
        raise ProblemsFound(evolve(each, field=f"settings.{each.field}") for each in found.problems) from None
