"""The frozen state of a game: who sits, for what, until when, and how many skate.

The values are named tuples, made several times faster than other frozen classes: folding a game makes thousands.
All times are tenths of played time since the opening faceoff. `GameState` is small and shares what does not change,
so a state for every event of a game can be kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple

from ..events import PartKind, Team

__all__ = [
    "CLEAN",
    "NEVER",
    "Called",
    "Chain",
    "GameState",
    "GoalContext",
    "Ice",
    "Part",
    "PlayerRecord",
    "Side",
    "Sitter",
    "new",
]

NEVER = 1 << 60
"""A tenth that no game reaches."""

new = tuple.__new__
"""`new(Side, (…))` is `Side(…)` in two thirds of the time; for the values of which every step makes one."""

Role = Literal["player", "stand-in", "second stand-in"]
ChainKey = str | int


class Part(NamedTuple):
    """A part of a penalty, or the share of it that is on or off the clock, as far as it is not over.

    Attributes:
        penalty, index: the penalty's `seq` and the place in its `parts`.
        length: tenths of this share in full.
        left: tenths still to serve when it last stood still.
        ends_at: the tenth at which it runs out if nothing happens; ``None`` while it does not run.
        begun: it had run for some time when it last stood still, or was started at a stoppage.
        lone: it is half of a lone pair, which no goal ends.
        server: the team-mate named to sit for it, ``""`` for one not named, ``None`` where none was asked for.
        place: its penalty is the one assessed in this place of the game; a late entry has a high `seq` all the same.
    """

    penalty: int
    index: int  # type: ignore[assignment]  # tuples have a method of this name, which nobody needs here
    kind: PartKind
    length: int
    left: int
    ends_at: int | None = None
    begun: bool = False
    lone: bool = False
    server: str | None = None
    place: int = 0

    def started(self, now: int, begun: bool) -> Part:
        """This part, running from `now` on; `begun` from its first tenth if it is started at a stoppage."""
        ends_at = now + self.left
        return new(
            Part,
            (
                self.penalty,
                self.index,
                self.kind,
                self.length,
                self.left,
                ends_at,
                self.begun or begun,
                self.lone,
                self.server,
                self.place,
            ),
        )

    def suspended(self, now: int) -> Part:
        """This part, standing still from `now` on with what is left of it."""
        left = self.left_at(now)
        begun = self.has_begun(now)
        return self._replace(left=left, ends_at=None, begun=begun)

    def has_begun(self, now: int) -> bool:
        """Whether it has run for any time, or was started at a stoppage."""
        return self.begun or self.served_at(now) > 0

    def left_at(self, now: int) -> int:
        """Tenths still to serve at `now`."""
        if self.ends_at is None:
            return self.left
        return self.ends_at - now if self.ends_at > now else 0

    def served_at(self, now: int) -> int:
        """Tenths served up to `now`."""
        return self.length - self.left_at(now)

    @property
    def is_minor(self) -> bool:
        """Whether a goal could end it by its kind."""
        return self.kind == "minor" or self.kind == "bench_minor"

    @property
    def order(self) -> tuple[int, int]:
        """Which part it is: its penalty, and its place in that penalty's parts."""
        return (self.penalty, self.index)

    @property
    def assessed(self) -> tuple[int, int]:
        """The order of assessment: the place in the game, then in the penalty."""
        return (self.place, self.index)


class Chain(NamedTuple):
    """All that one player owes, served one after another; or a bench minor, or one penalty of a goalkeeper.

    Attributes:
        key: the player's number, or a `seq` for a chain of its own: negative for a bench minor.
        player: the penalized player's number, ``None`` for a bench minor and a number still to come.
        keeper: the player keeps goal, so that team-mates sit.
        ejected: the player is out of the game.
        clock, offset, misconduct: the parts not yet over, each in the order in which they are served.
        on_penalties, off_penalties: the penalties that were, or are, served by whoever sits on and off the clock.
        servers: who was asked to sit for the parts on the clock that are over, each as `Part.server`.
    """

    key: ChainKey
    player: str | None
    keeper: bool
    ejected: bool
    clock: tuple[Part, ...] = ()
    offset: tuple[Part, ...] = ()
    misconduct: tuple[Part, ...] = ()
    on_penalties: tuple[int, ...] = ()
    off_penalties: tuple[int, ...] = ()
    servers: tuple[str, ...] = ()

    @property
    def off_the_clock(self) -> tuple[Part, ...]:
        """Offset parts, then misconducts."""
        return self.offset + self.misconduct

    @property
    def needs_stand_in(self) -> bool:
        """Whether somebody other than the player sits for the time on the clock."""
        if self.ejected or self.keeper or self.offset or self.misconduct or self.servers or self.is_bench_minor:
            return True
        for part in self.clock:  # noqa: SIM110  # asked often: a generator costs more than the rest
            if part.server is not None:
                return True
        return False

    def with_parts(self, clock: tuple[Part, ...], offset: tuple[Part, ...], misconduct: tuple[Part, ...]) -> Chain:
        """The chain with these parts."""
        return new(
            Chain,
            (
                self.key,
                self.player,
                self.keeper,
                self.ejected,
                clock,
                offset,
                misconduct,
                self.on_penalties,
                self.off_penalties,
                self.servers,
            ),
        )

    @property
    def is_bench_minor(self) -> bool:
        """Whether the chain is a bench minor, which nobody was given in person."""
        return isinstance(self.key, int) and self.key < 0

    @property
    def stand_in(self) -> str | None:
        """The number of the one who sits for the time on the clock in the player's place, as far as it was named."""
        named = (*self.servers, *(part.server for part in self.clock))
        return next((server for server in named if server), None)

    @property
    def names_stand_ins(self) -> bool:
        """Whether anybody was named to sit for this chain."""
        for parts in (self.clock, self.offset, self.misconduct):
            for part in parts:
                if part.server:
                    return True
        return any(self.servers)

    def named_stand_ins(self) -> list[str]:
        """Everybody who was named to sit for this chain."""
        named = [server for server in self.servers if server]
        for parts in (self.clock, self.offset, self.misconduct):
            for part in parts:
                if part.server and part.server not in named:
                    named.append(part.server)
        return named

    @property
    def running(self) -> Part | None:
        """The part that runs."""
        if self.clock:
            return self.clock[0] if self.clock[0].ends_at is not None else None
        parts = self.offset or self.misconduct
        return parts[0] if parts and parts[0].ends_at is not None else None

    def clock_sitter(self) -> Sitter:
        """Who sits for time on the clock."""
        if self.needs_stand_in:
            return Sitter(self.stand_in, "stand-in", self.key, self.on_penalties)
        return Sitter(self.player, "player", self.key, merged(self.off_penalties, self.on_penalties))

    def off_sitter(self) -> Sitter | None:
        """Who sits for offset time and misconducts; nobody for an ejected player."""
        if self.ejected:
            return None
        if self.keeper or self.is_bench_minor:
            named = next((part.server for part in self.offset + self.misconduct if part.server), None)
            role: Role = "second stand-in" if self.keeper else "stand-in"
            return Sitter(named, role, self.key, self.off_penalties)
        return Sitter(self.player, "player", self.key, self.off_penalties)


def merged(known: tuple[int, ...], more: tuple[int, ...]) -> tuple[int, ...]:
    """Both, each once, in order of assessment."""
    if not more or (len(more) == 1 and not known):
        return known or more
    return tuple(sorted({*known, *more}))


class Sitter(NamedTuple):
    """Somebody in the box.

    Attributes:
        who: the number, ``None`` for a team-mate whom the log does not name.
        penalties: the penalties that this person sat for.
    """

    who: str | None
    role: Role
    key: ChainKey
    penalties: tuple[int, ...]


Return = tuple[int, Sitter, Literal["on expiry", "at stoppage"]]
"""Somebody who left the box, with the tenth and the way."""


class PlayerRecord(NamedTuple):
    """What a player has been given so far, and whether it ended his game."""

    majors: int = 0
    misconducts: int = 0
    penalties: int = 0
    ejected_at: int | None = None


CLEAN = PlayerRecord()
"""Who was given nothing."""


class Side(NamedTuple):
    """One team.

    Attributes:
        on_ice: skaters that penalties leave it, as play last went on (no extra attacker).
        slots: up to two chains on the clock.
        queue: chains that wait for a slot.
        off: chains of which nothing is on the clock.
        held: people whose time on the clock is up and who wait for a stoppage or a place, longest first.
        finished: people whose time off the clock is up and who wait for a stoppage.
        returned: people who left since the latest whistle, with the tenth and the way: a penalty there keeps them in.
        withdrawn: those of them who were kept in.
        goalie: who is in net; ``None`` for an empty net, ``""`` while nobody was named.
        keepers: everybody whom roster or log name as a goalkeeper.
        records: what each penalized player was given.
        due: the next tenth at which something of this side runs out.
    """

    on_ice: int
    slots: tuple[Chain, ...] = ()
    queue: tuple[Chain, ...] = ()
    off: tuple[Chain, ...] = ()
    held: tuple[Sitter, ...] = ()
    finished: tuple[Sitter, ...] = ()
    returned: tuple[Return, ...] = ()
    withdrawn: tuple[Return, ...] = ()
    goalie: str | None = ""
    keepers: frozenset[str] = frozenset()
    records: Mapping[str, PlayerRecord] = MappingProxyType({})
    score: int = 0
    due: int = NEVER

    @property
    def skaters(self) -> int:
        """Skaters on the ice, an extra attacker for a pulled goalkeeper included."""
        return self.on_ice + (self.goalie is None)

    def chains(self) -> tuple[Chain, ...]:
        """Every chain, those on the clock first."""
        return self.slots + self.queue + self.off

    def record(self, player: str) -> PlayerRecord:
        """What `player` was given so far."""
        return self.records.get(player, CLEAN)


class Called(NamedTuple):
    """A part that was assessed since the whistle and is not settled yet.

    Attributes:
        wish: whether the captain wants it on the clock, where he said so.
        late: announced in the last 5:00 of regulation or in overtime.
        out: the penalty ended the game of a player whose number is not known.
    """

    team: Team
    key: ChainKey
    player: str | None
    keeper: bool
    wish: bool | None
    late: bool
    out: bool
    part: Part

    @property
    def is_misconduct(self) -> bool:
        """Whether it never goes on the clock."""
        return self.part.kind == "misconduct"


class GoalContext(NamedTuple):
    """The goal at this stoppage, as a delayed call is judged by it.

    Attributes:
        conceding: the side scored on.
        relation: how that side stood: short-handed, level, or on the power play.
        ended: the goal ended a minor of that side.
        washed: a call was washed out already.
        seq, ends: the goal event and the captain's choice.
    """

    conceding: Team
    relation: Literal["short-handed", "level", "power play"]
    ended: bool
    washed: bool
    seq: int
    ends: int | None


class Ice(NamedTuple):
    """Everything about a game that most events leave alone, so that states share it.

    Attributes:
        period_start: tenths played before the period.
        used: the period has seen an event.
        ended: the period's horn was recorded.
        running: the clock runs through stoppages.
        due: the next tenth at which something runs out, `NEVER` if nothing runs.
        strength: skaters and goalkeepers as last told.
        calls: parts assessed since the whistle.
        goals: the last goal of this stoppage against each side that was scored on.
        opened: play has been on in this period.
        over: the game was decided by its last event.
        closed: the record was closed.
        overtime_begun: the first faceoff of the first overtime has been.
        assessed: how many penalties were assessed so far.
        settled: since play last went on nothing happened that would change who plays when it resumes.
        quiet: a whistle or faceoff before this tenth changes nothing but whether play is on; 0 if there is none such.
    """

    period: int
    period_start: int
    used: bool
    ended: bool
    running: bool
    due: int
    home: Side
    away: Side
    strength: tuple[int, int, str | None, str | None]
    calls: tuple[Called, ...] = ()
    goals: tuple[GoalContext, ...] = ()
    over: bool = False
    closed: bool = False
    overtime_begun: bool = False
    opened: bool = False
    assessed: int = 0
    settled: bool = False
    quiet: int = 0


class GameState(NamedTuple):
    """A game at one instant.

    Attributes:
        now: played tenths.
        in_play: whether play goes on.
        whistle: the tenth of the last whistle.
        ice: the rest.
    """

    now: int
    in_play: bool
    whistle: int
    ice: Ice

    @property
    def period(self) -> int:
        """The period."""
        return self.ice.period

    @property
    def home(self) -> Side:
        """The home side."""
        return self.ice.home

    @property
    def away(self) -> Side:
        """The away side."""
        return self.ice.away

    @property
    def played(self) -> int:
        """Tenths played in this period."""
        return self.now - self.ice.period_start

    def side(self, team: Team) -> Side:
        """The side of `team`."""
        return self.ice.home if team == "home" else self.ice.away
