"""The table of a random game: what is written down, and what is kept in mind of both sides while it is."""

from __future__ import annotations

import random
from collections import Counter
from datetime import UTC, datetime, timedelta
from typing import Any, Literal

from attrs import Factory, define

from rinkfold.timeline import Event, LiveGame, Ruleset, TeamSheet
from rinkfold.timeline.clock import reading_in_period
from rinkfold.timeline.views.box import Sitting

__all__ = ["SECOND", "TEAMS", "Bench", "Table", "Team"]

Team = Literal["home", "away"]
TEAMS: tuple[Team, Team] = ("home", "away")
SECOND = 10


@define
class Bench:
    """One side: who may be named on the ice.

    Attributes:
        sitting: who sat when play last went on, or was called since: nobody of them is named before that is clear.
        out: whose game is over.
        fouls: penalties, majors and misconducts by number, as ejections count them.
    """

    team: Team
    sheet: TeamSheet
    skaters: list[str]
    keepers: list[str]
    net: str | None = None
    sitting: set[str] = Factory(set)
    out: set[str] = Factory(set)
    fouls: Counter[tuple[str, str]] = Factory(Counter)
    timeouts: int = 0

    @classmethod
    def of(cls, team: Team, sheet: TeamSheet) -> Bench:
        keepers = [player.number for player in sheet.roster or () if player.position == "goalkeeper"]
        skaters = [player.number for player in sheet.roster or () if player.position != "goalkeeper"]
        return cls(team, sheet, skaters, keepers)

    def free(self) -> list[str]:
        """Skaters who surely do not sit and may play."""
        return [number for number in self.skaters if number not in self.sitting and number not in self.out]


@define
class Table:
    """One game as it is played and written down; `e` is how much of the period is over, in tenths."""

    rng: random.Random
    live: LiveGame
    home: Bench
    away: Bench
    period: int = 1
    e: int = 0
    tempo: int = 400
    doors: bool = True
    busy: bool = False
    box: tuple[Sitting, ...] = ()
    faced_off: int = 0
    goals: Counter[tuple[int, Team]] = Factory(Counter)
    shots: Counter[tuple[int, Team]] = Factory(Counter)
    written: datetime = datetime(2026, 9, 5, 18, 0, tzinfo=UTC)

    @property
    def rules(self) -> Ruleset:
        return self.live.rules

    @property
    def benches(self) -> tuple[Bench, Bench]:
        return self.home, self.away

    def other(self, bench: Bench) -> Bench:
        return self.away if bench is self.home else self.home

    def chance(self, p: float) -> bool:
        return self.rng.random() < p

    def clock(self, e: int) -> str:
        return reading_in_period(e, self.rules.period_length(self.period), self.rules.game.reading)

    def write(self, cls: type[Event], e: int | None = None, **fields: Any) -> int:
        """Write one event at `e`, or where the game stands; its number."""
        self.written += timedelta(seconds=self.rng.randrange(2, 30))
        stamp = self.written.isoformat().replace("+00:00", "Z")
        clock = self.clock(self.e if e is None else e)
        self.live.record(cls(seq=0, period=self.period, clock=clock, recorded_at=stamp, **fields))
        return self.live.next_seq - 1

    def aside(self, cls: type[Event], **fields: Any) -> None:
        """Write something that has no place on the clock."""
        self.live.record(cls(seq=0, **fields))

    def level(self) -> bool:
        return self.total(self.goals, "home") == self.total(self.goals, "away")

    def total(self, counted: Counter[tuple[int, Team]], team: Team) -> int:
        return sum(count for (_, side), count in counted.items() if side == team)

    def score(self, bench: Bench) -> None:
        self.goals[self.period, bench.team] += 1
        self.shots[self.period, bench.team] += 1
