"""Two records of one game: what opened them, whose rules, their events, and their answers."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from attrs import frozen

from ..timeline.events import TeamSheet
from ..timeline.game import Game
from ..timeline.knobs.values import as_written
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.views.difference import differences
from .matching import Matching, match_events
from .opening import open_game
from .two_games import TwoGames

__all__ = ["Comparison", "open_both"]

Pair = tuple[object, object]

_OPENING = ("game", "ruleset", "date", "start")
_TEAM = ("name", "short", "colour")


def open_both(one: str, other: str) -> tuple[Game, Game]:
    """The games in two logs.

    Raises:
        ProblemsFound: one of them, or both, cannot be read, or their rulesets are not known; with all problems of both.
    """
    games: list[Game] = []
    problems: list[Problem] = []
    for path in (one, other):
        try:
            games.append(open_game(path))
        except ProblemsFound as found:
            problems.extend(found.problems)
    if problems:
        raise ProblemsFound(problems)
    return games[0], games[1]


@frozen(slots=False, eq=False)
class Comparison:
    """Two games laid side by side."""

    one: Game
    other: Game

    @cached_property
    def opening(self) -> Mapping[str, Pair]:
        """What differs in the first lines, by name."""
        old, new = self.one.header, self.other.header
        found = {name: (getattr(old, name), getattr(new, name)) for name in _OPENING}
        for team, (was, is_now) in {"home": (old.home, new.home), "away": (old.away, new.away)}.items():
            found.update({f"{team} {name}": (getattr(was, name), getattr(is_now, name)) for name in _TEAM})
            found[f"{team} numbers"] = (_numbers(was), _numbers(is_now))
            found[f"{team} goalkeepers"] = (_goalkeepers(was), _goalkeepers(is_now))
        return {name: pair for name, pair in found.items() if pair[0] != pair[1]}

    @cached_property
    def knobs(self) -> Mapping[str, Pair]:
        """The knobs by which the two were answered differently."""
        old, new = as_written(self.one.rules), as_written(self.other.rules)
        return {name: (old[name], new[name]) for name in old if old[name] != new[name]}

    @cached_property
    def events(self) -> Matching:
        """The events of the two, those that are the same one together."""
        return match_events(self.one, self.other)

    @cached_property
    def answers(self) -> TwoGames:
        """What the two records answer."""
        seqs = self.events.seqs
        return TwoGames(self.one, self.other, differences(self.one, self.other, seqs), ("A", "B"), seqs)

    @property
    def same(self) -> bool:
        """Whether nothing at all differs."""
        return not (self.opening or self.knobs or self.events or self.answers.found)


def _numbers(team: TeamSheet) -> list[str]:
    return sorted(player.number for player in team.roster or ())


def _goalkeepers(team: TeamSheet) -> list[str]:
    return sorted(player.number for player in team.roster or () if player.position == "goalkeeper")
