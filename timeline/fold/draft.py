"""A state being worked on: mutable, local to one step of the fold, never seen outside it.

A step thaws a frozen state into a `Draft`, the modules of the fold work on that, and the step freezes it again.
Values inside (chains, parts, sitters) stay frozen and are replaced, not changed.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..events import Team
from ..rules import Ruleset
from .changes import Change, StrengthChanged
from .rulebook import FORMULA
from .state import CLEAN, NEVER, Called, Chain, GameState, GoalContext, Ice, PlayerRecord, Return, Side, Sitter, new

__all__ = ["TEAMS", "Draft", "SideDraft", "other", "skaters_on_ice"]

TEAMS: tuple[Team, Team] = ("home", "away")


def skaters_on_ice(rules: Ruleset, period: int, home_slots: int, away_slots: int) -> tuple[int, int]:
    """The skaters of both sides when play resumes.

    With `a` and `b` slots in use and base strength `s`: `s - a` and `s - b`; if the smaller is below the fewest
    allowed, both go up by the same number until it is not; never above full strength. Source: NHL 26.1; IIHF 26;
    Hockey Canada 4.14.
    """
    most = rules.ice.skaters
    base = most if period <= rules.game.periods else rules.overtime.skaters
    home, away = base - home_slots, base - away_slots
    lift = rules.ice.min_skaters - (home if home < away else away)
    if lift > 0:
        home, away = home + lift, away + lift
    return (home if home < most else most), (away if away < most else most)


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
        "withdrawn",
    )

    def __init__(self, team: Team, side: Side) -> None:
        """Thaw `side`."""
        self.team: Team = team
        self.returned: tuple[Return, ...]
        self.withdrawn: tuple[Return, ...]
        self.records: Mapping[str, PlayerRecord]
        (
            self.on_ice,
            slots,
            queue,
            off,
            held,
            finished,
            self.returned,
            self.withdrawn,
            self.goalie,
            self.keepers,
            self.records,
            self.score,
            _due,
        ) = side  # taken apart at once, which is quicker than field by field
        self.slots: list[Chain] = [*slots]
        self.queue: list[Chain] = [*queue]
        self.off: list[Chain] = [*off]
        self.held: list[Sitter] = [*held]
        self.finished: list[Sitter] = [*finished]

    def due(self) -> int:
        """The next tenth at which something of this side runs out."""
        due = NEVER
        for chain in self.slots:
            ends_at = chain.clock[0].ends_at
            if ends_at is not None and ends_at < due:
                due = ends_at
        for chain in self.off:  # each of which has something to serve
            ends_at = (chain.offset or chain.misconduct)[0].ends_at
            if ends_at is not None and ends_at < due:
                due = ends_at
        return due

    def freeze(self) -> Side:
        """The frozen side."""
        return new(
            Side,
            (
                self.on_ice,
                tuple(self.slots),
                tuple(self.queue),
                tuple(self.off),
                tuple(self.held),
                tuple(self.finished),
                self.returned,
                self.withdrawn,
                self.goalie,
                self.keepers,
                self.records,
                self.score,
                self.due(),
            ),
        )

    def record(self, player: str) -> PlayerRecord:
        """What `player` was given so far."""
        return self.records.get(player, CLEAN)

    def chains(self) -> tuple[Chain, ...]:
        """Every chain, those on the clock first."""
        return (*self.slots, *self.queue, *self.off)


class Draft:
    """A game being worked on; the fields are those of `GameState` and `Ice`, and `seq` is the event at work.

    A side is thawed when it is first asked for with `home`, `away` or `side`; whoever only looks takes `seen`, or
    `seen_home` and `seen_away`.
    """

    __slots__ = (
        "_away",
        "_frozen",
        "_home",
        "assessed",
        "calls",
        "changes",
        "closed",
        "ended",
        "goals",
        "in_play",
        "now",
        "opened",
        "over",
        "overtime_begun",
        "period",
        "period_start",
        "rules",
        "running",
        "seen_away",
        "seen_home",
        "seq",
        "settled",
        "strength",
        "used",
        "whistle",
    )

    def __init__(self, state: GameState, rules: Ruleset, seq: int | None) -> None:
        """Thaw `state`."""
        self.now, self.in_play, self.whistle, ice = state
        self.rules = rules
        self.seq = seq
        self.changes: list[Change] = []
        self._frozen = ice
        self._home: SideDraft | None = None
        self._away: SideDraft | None = None
        self.seen_home: Side | SideDraft
        self.seen_away: Side | SideDraft
        self.goals: tuple[GoalContext, ...]
        (
            self.period,
            self.period_start,
            self.used,
            self.ended,
            self.running,
            _due,
            self.seen_home,
            self.seen_away,
            self.strength,
            calls,
            self.goals,
            self.over,
            self.closed,
            self.overtime_begun,
            self.opened,
            self.assessed,
            self.settled,
            _quiet,
        ) = ice  # taken apart at once, which is quicker than field by field
        self.calls: list[Called] = [*calls]

    def freeze(self) -> GameState:
        """The frozen state."""
        home = self._frozen.home if self._home is None else self._home.freeze()
        away = self._frozen.away if self._away is None else self._away.freeze()
        due = home.due if home.due < away.due else away.due
        whistle_tells = self.goals or home.held or away.held or home.finished or away.finished
        ice = new(
            Ice,
            (
                self.period,
                self.period_start,
                self.used,
                self.ended,
                self.running,
                due,
                home,
                away,
                self.strength,
                tuple(self.calls),
                self.goals,
                self.over,
                self.closed,
                self.overtime_begun,
                self.opened,
                self.assessed,
                self.settled,
                due if self.settled and self.opened and not whistle_tells else 0,
            ),
        )
        return new(GameState, (self.now, self.in_play, self.whistle, ice))

    @property
    def home(self) -> SideDraft:
        """The home side, thawed."""
        if self._home is None:
            self._home = self.seen_home = SideDraft("home", self._frozen.home)
        return self._home

    @property
    def away(self) -> SideDraft:
        """The away side, thawed."""
        if self._away is None:
            self._away = self.seen_away = SideDraft("away", self._frozen.away)
        return self._away

    def side(self, team: Team) -> SideDraft:
        """The side of `team`, thawed."""
        known = self._home if team == "home" else self._away
        return known or (self.home if team == "home" else self.away)

    def seen(self, team: Team) -> Side | SideDraft:
        """The side of `team` as it is now, to be looked at only."""
        return self.seen_home if team == "home" else self.seen_away

    def due(self) -> int:
        """The next tenth at which something runs out."""
        home = self._frozen.home.due if self._home is None else self._home.due()
        away = self._frozen.away.due if self._away is None else self._away.due()
        return home if home < away else away

    def report_strength(self) -> None:
        """Tell the skaters on the ice if they, or the goalkeepers, are others than last told."""
        home, away = self.seen_home, self.seen_away
        strength = (home.on_ice, away.on_ice, home.goalie, away.goalie)
        if strength == self.strength:
            return
        self.strength = strength
        self.changes.append(
            new(
                StrengthChanged,
                (
                    self.now,
                    self.period,
                    self.seq,
                    FORMULA,
                    home.on_ice + (home.goalie is None),
                    away.on_ice + (away.goalie is None),
                    home.goalie or None,
                    away.goalie or None,
                    home.on_ice < away.on_ice,
                    away.on_ice < home.on_ice,
                ),
            )
        )
