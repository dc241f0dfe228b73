"""A state being worked on: mutable, local to one step of the fold, never seen outside it.

A step thaws a frozen state into a `Draft`, the modules of the fold work on that, and the step freezes it again. Values inside (chains, parts,
sitters) stay frozen and are replaced, not changed.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..events import Team
from ..rules import Ruleset
from .changes import Change, StrengthChanged
from .rulebook import FORMULA
from .state import NEVER, Called, Chain, GameState, GoalContext, Ice, PlayerRecord, Side, Sitter

__all__ = ["Draft", "SideDraft", "other"]


def other(team: Team) -> Team:
    """The opponent."""
    return "away" if team == "home" else "home"


class SideDraft:
    """One side being worked on; the fields are those of `Side`."""

    __slots__ = (
        "finished",
        "goalie",
        "held",
        "keepers",
        "off",
        "on_ice",
        "queue",
        "records",
        "returned",
        "score",
        "slots",
        "team",
    )

    def __init__(self, team: Team, side: Side) -> None:
        """Thaw `side`."""
        self.team: Team = team
        self.on_ice = side.on_ice
        self.slots: list[Chain] = list(side.slots)
        self.queue: list[Chain] = list(side.queue)
        self.off: list[Chain] = list(side.off)
        self.held: list[Sitter] = list(side.held)
        self.finished: list[Sitter] = list(side.finished)
        self.returned: tuple[tuple[int, Sitter], ...] = side.returned
        self.goalie = side.goalie
        self.keepers = side.keepers
        self.records: Mapping[str, PlayerRecord] = side.records
        self.score = side.score

    def freeze(self) -> Side:
        """The frozen side."""
        return Side(
            self.on_ice,
            tuple(self.slots),
            tuple(self.queue),
            tuple(self.off),
            tuple(self.held),
            tuple(self.finished),
            self.returned,
            self.goalie,
            self.keepers,
            self.records,
            self.score,
        )

    def record(self, player: str) -> PlayerRecord:
        """What `player` was given so far."""
        return self.records.get(player) or PlayerRecord()

    def chains(self) -> list[Chain]:
        """Every chain, those on the clock first."""
        return self.slots + self.queue + self.off

    @property
    def skaters(self) -> int:
        """Skaters on the ice, an extra attacker included."""
        return self.on_ice + (self.goalie is None)


class Draft:
    """A game being worked on; the fields are those of `GameState` and `Ice`, and `seq` is the event at work."""

    __slots__ = (
        "away",
        "calls",
        "changes",
        "closed",
        "ended",
        "goal",
        "home",
        "in_play",
        "now",
        "over",
        "overtime_begun",
        "period",
        "period_start",
        "rules",
        "running",
        "seq",
        "strength",
        "used",
        "whistle",
    )

    def __init__(self, state: GameState, rules: Ruleset, seq: int | None) -> None:
        """Thaw `state`."""
        ice = state.ice
        self.rules = rules
        self.seq = seq
        self.changes: list[Change] = []
        self.now = state.now
        self.in_play = state.in_play
        self.whistle = state.whistle
        self.period = ice.period
        self.period_start = ice.period_start
        self.used = ice.used
        self.ended = ice.ended
        self.running = ice.running
        self.home = SideDraft("home", ice.home)
        self.away = SideDraft("away", ice.away)
        self.calls: list[Called] = list(ice.calls)
        self.goal: GoalContext | None = ice.goal
        self.over = ice.over
        self.closed = ice.closed
        self.overtime_begun = ice.overtime_begun
        self.strength = ice.strength

    def freeze(self) -> GameState:
        """The frozen state."""
        ice = Ice(
            self.period,
            self.period_start,
            self.used,
            self.ended,
            self.running,
            self.due(),
            self.home.freeze(),
            self.away.freeze(),
            self.strength,
            tuple(self.calls),
            self.goal,
            self.over,
            self.closed,
            self.overtime_begun,
        )
        return GameState(self.now, self.in_play, self.whistle, ice)

    def side(self, team: Team) -> SideDraft:
        """The side of `team`."""
        return self.home if team == "home" else self.away

    def due(self) -> int:
        """The next tenth at which something runs out."""
        due = NEVER
        for side in (self.home, self.away):
            for chains in (side.slots, side.off):
                for chain in chains:
                    part = chain.running
                    if part is not None and part.ends_at is not None and part.ends_at < due:
                        due = part.ends_at
        return due

    def report_strength(self) -> None:
        """Tell the skaters on the ice if they, or the goalkeepers, are others than last told."""
        home, away = self.home, self.away
        strength = (home.on_ice, away.on_ice, home.goalie, away.goalie)
        if strength == self.strength:
            return
        self.strength = strength
        self.changes.append(
            StrengthChanged(
                self.now,
                self.period,
                self.seq,
                FORMULA,
                home.skaters,
                away.skaters,
                home.goalie or None,
                away.goalie or None,
                home.on_ice < away.on_ice,
                away.on_ice < home.on_ice,
            )
        )
