"""How people, penalties and their parts are called in an explanation."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from attrs import frozen

from ...clock import format_reading
from ...events import PartKind, PenaltyAssessed, Team
from ...rules import Ruleset

__all__ = ["KINDS_OF_PART", "Naming", "Numbers", "Words"]

KINDS_OF_PART: Mapping[PartKind, str] = {
    "minor": "minor",
    "bench_minor": "bench minor",
    "major": "major",
    "match": "match penalty",
    "misconduct": "misconduct",
    "game_misconduct": "game misconduct",
}
_TURNS = ("first", "second", "third", "fourth")


class Naming(Protocol):
    """How a player is called, and whether the record has him as injured."""

    @property
    def names(self) -> bool:
        """Whether names are shown, and free text that may hold one."""

    def called(self, team: Team, number: str | None) -> str:
        """What the player is called; `number` is ``None`` for one still to come."""

    def is_injured(self, team: Team, number: str | None) -> bool:
        """Whether the record says so."""


@frozen
class Numbers:
    """Everybody by number; nobody is known to be injured."""

    @property
    def names(self) -> bool:
        """They are not."""
        return False

    def called(self, team: Team, number: str | None) -> str:
        """The number, ``"?"`` for one still to come."""
        return number or "?"

    def is_injured(self, team: Team, number: str | None) -> bool:
        """Not known."""
        return False


@frozen
class Words:
    """People, penalties and parts in words."""

    naming: Naming
    rules: Ruleset
    penalties: Mapping[int, PenaltyAssessed]

    def person(self, team: Team, number: str | None) -> str:
        """``"away 24"``."""
        return f"{team} {self.naming.called(team, number)}"

    def offender(self, penalty: PenaltyAssessed) -> str:
        """Who was penalized: ``"away 24"``, ``"the away bench"``, ``"the away staff"``."""
        if penalty.staff is not None:
            return f"the {penalty.team} staff"
        if penalty.player is None and "bench_minor" in penalty.parts:
            return f"the {penalty.team} bench"
        return self.person(penalty.team, penalty.player)

    def part(self, seq: int, index: int) -> str:
        """One part of a penalty: ``"away 24's minor"``, ``"the second minor of home 9"``, ``"the bench minor"``."""
        penalty = self.penalties[seq]
        kind = penalty.parts[index]
        if kind == "bench_minor":
            return f"the {penalty.team} bench minor"
        word = KINDS_OF_PART[kind]
        same = [at for at, other in enumerate(penalty.parts) if other == kind]
        if len(same) > 1 and same.index(index) < len(_TURNS):
            return f"the {_TURNS[same.index(index)]} {word} of {self.offender(penalty)}"
        if penalty.staff is not None:
            return f"the {word} of {self.offender(penalty)}"
        return f"{self.offender(penalty)}'s {word}"

    def parts(self, penalty: PenaltyAssessed) -> str:
        """All parts with their lengths: ``"double minor 4:00"``, ``"minor 2:00 + misconduct 10:00"``."""
        if penalty.parts == ("minor", "minor"):
            return f"double minor {format_reading(2 * self.rules.part_length('minor'))}"
        return " + ".join(self._with_length(kind) for kind in penalty.parts)

    def _with_length(self, kind: PartKind) -> str:
        length = self.rules.part_length(kind)
        return f"{KINDS_OF_PART[kind]} {format_reading(length)}" if length else KINDS_OF_PART[kind]
