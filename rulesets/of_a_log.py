"""The ruleset a log was played by: the one pinned in its first line, or the one named there with its settings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from attrs import evolve

from ..timeline.knobs.pinning import pin, unpin
from ..timeline.knobs.settings import settings_of_game
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.rules import Ruleset
from ..timeline.wording import show
from .library import load
from .places import is_path

if TYPE_CHECKING:
    from ..timeline.events import GameOpened
    from ..timeline.game import RecordedGame

__all__ = ["effective_header", "of", "pinned_anew"]


def effective_header(log: RecordedGame) -> GameOpened:
    """The first line of `log` as it counts, its amendments applied.

    `pinned` is None where the ruleset or the settings were amended and not pinned anew: what was pinned before is then
    no longer what the game is played by.
    """
    from ..timeline.pinned import effective_header as of_events

    return of_events(log.events)


def of(log: RecordedGame) -> Ruleset:
    """The ruleset of `log`: the one pinned in it, else the one it names, with its settings.

    Raises:
        ProblemsFound: what is pinned, the name or a setting is not right; each with the log's name and the first
            line's `seq`.
    """
    header = effective_header(log)
    try:
        return _rules_of(header)
    except ProblemsFound as found:
        name = getattr(log, "name", None) or None
        raise ProblemsFound(_in_log(problem, name, header.seq) for problem in found.problems) from None


def _in_log(problem: Problem, name: str | None, seq: int) -> Problem:
    """`problem` with its place in the log, unless its place is a ruleset file."""
    return problem if problem.file else evolve(problem, file=name, seq=seq)


def _rules_of(header: GameOpened) -> Ruleset:
    if header.pinned is not None:
        return unpin(header.pinned)
    return settings_of_game(_named_in_log(header.ruleset), header.settings)


def _named_in_log(name: str) -> Ruleset:
    if not is_path(name):
        return load(name)
    # a log that came by mail does not make the program read other files
    message = f"The log names the file {show(name)} for its rules; a log's ruleset is found by name only."
    fix = f"Give the rules yourself: rulesets.load({name!r})."
    raise ProblemsFound([Problem(code="unknown_ruleset", message=message, fix=fix, field="ruleset")])


def pinned_anew(log: RecordedGame, changes: Mapping[str, Any]) -> dict[str, Any]:
    """The `changes` of an amendment of the first line of `log`, with the whole ruleset pinned if they touch it.

    Where only settings change and every knob that was set before is set again, what was pinned is kept for the rest; so
    a game by a league's own file needs the file no more. Else the ruleset is found again; so it is where `changes` take
    the pinned one away (``{"pinned": None}``).

    Raises:
        ProblemsFound: the ruleset is not found, or a setting is not right.
    """
    if changes.keys().isdisjoint(("ruleset", "settings")) and not _takes_away(changes):
        return dict(changes)
    header = effective_header(log)
    rules = settings_of_game(_base(header, changes), changes.get("settings", header.settings))
    named = {"ruleset": rules.name} if "ruleset" in changes else {}
    return {**changes, **named, "pinned": pin(rules)}


def _takes_away(changes: Mapping[str, Any]) -> bool:
    """Whether what is pinned shall not count any more."""
    return "pinned" in changes and changes["pinned"] is None


def _base(header: GameOpened, changes: Mapping[str, Any]) -> Ruleset:
    """What the settings are set in."""
    if "ruleset" in changes:
        return load(changes["ruleset"])
    before, after = header.settings or {}, changes.get("settings", header.settings) or {}
    if not _takes_away(changes) and header.pinned is not None and before.keys() <= after.keys():
        return unpin(header.pinned)
    return _named_in_log(header.ruleset)
