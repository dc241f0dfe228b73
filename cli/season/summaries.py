"""What a season keeps of one game: plain frozen values that are small and can be sent between processes."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from ...timeline.events import PartKind, Team
from ...timeline.problems import Severity

__all__ = [
    "FindingCount",
    "GameSummary",
    "GoalieSummary",
    "Outcome",
    "PenaltySummary",
    "PlayerSummary",
    "Record",
    "Side",
]

Outcome = Literal["played", "shortened", "abandoned", "forfeit", "open"]
"""How the record was closed; ``open`` where it was not."""


@frozen
class Side:
    """One team in one game; `minutes` are penalty minutes."""

    name: str
    goals: int
    shots: int
    minutes: float
    power_plays: int
    power_play_goals: int


@frozen
class PlayerSummary:
    """What one number did; `name` only where names were asked for and the roster has one."""

    team: Team
    number: str
    name: str | None
    goals: int
    assists: int
    penalties: int
    minutes: float


@frozen
class GoalieSummary:
    """One goalkeeper's game; `number` is ``None`` where nobody was named in net.

    Attributes:
        time: played tenths in net.
    """

    team: Team
    number: str | None
    name: str | None
    time: int
    shots: int
    goals: int


@frozen
class PenaltySummary:
    """One penalty: what for, its parts, and the minutes written for it."""

    team: Team
    infraction: str | None
    parts: tuple[PartKind, ...]
    minutes: float


@frozen
class FindingCount:
    """How often one kind of finding was made."""

    code: str
    severity: Severity
    count: int


@frozen
class Record:
    """A game that could be read.

    Attributes:
        game, date, competition: as the game was opened; the last two empty where they were not given.
        rules: the ruleset's name, and what the game sets otherwise in words.
        scorekeeper: who kept the record: by the officials' list, or else the `by` of most lines; ``None`` for nobody.
        decided_in, winner: ``None`` in a game that is level or not decided.
        digest: SHA-256 (hex) of the file, by which copies of it are told.
    """

    game: str
    date: str
    competition: str
    rules: tuple[str, str]
    scorekeeper: str | None
    outcome: Outcome
    decided_in: Literal["regulation", "overtime", "shootout"] | None
    winner: Team | None
    home: Side
    away: Side
    players: tuple[PlayerSummary, ...]
    goalies: tuple[GoalieSummary, ...]
    penalties: tuple[PenaltySummary, ...]
    findings: tuple[FindingCount, ...]
    digest: str

    @property
    def counts(self) -> bool:
        """Whether it has a result for the standings.

        A winner, or a tie in a closed record; of an abandoned game and a forfeit the league says what they count.
        """
        if self.outcome in ("abandoned", "forfeit"):
            return False
        return self.winner is not None or self.outcome != "open"

    def found(self, severity: Severity) -> int:
        """How many findings of that severity there are."""
        return sum(one.count for one in self.findings if one.severity == severity)


@frozen
class GameSummary:
    """What came of one file: a record, or the problems for which it cannot be read, one line each."""

    file: str
    record: Record | None
    problems: tuple[str, ...] = ()
