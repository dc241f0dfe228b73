"""What the naive simulator remembers: pieces of penalty time, chains of them, the two sides, the game.

All times are integer tenths of a second of played time. Nothing here is fast or clever on purpose.
"""

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from .rules import RULES_COUNTED

TEAMS = ("home", "away")
MINORS = ("minor", "bench_minor")
MAJORS = ("major", "match")
SHORT = MINORS + MAJORS
KNOWN_RULES = frozenset(RULES_COUNTED)

Key = tuple[Any, ...]


def other(team: str) -> str:
    return "away" if team == "home" else "home"


@dataclass(eq=False)
class Piece:
    """One part of one penalty, or one of the two shares of a part that late netting split."""

    seq: int
    index: int
    kind: str
    left: int
    order: tuple[int, int]  # order of assessment: place of the call, place in `parts`
    key: Key  # which chain it belongs to
    period: int
    e: int
    served_by: str | None
    wish: bool | None
    category: str = "new"  # new, clock, offset, misconduct
    lone: bool = False  # one of a lone pair: no goal can end it
    running: bool = False
    begun: bool = False  # started at a stoppage by a goal, a ruling or a freed slot
    start: int | None = None
    end: int | None = None
    served: int = 0
    fate: str | None = None
    spell: int = 0

    def has_begun(self) -> bool:
        return self.begun or self.served > 0

    def finish(self, fate: str, t: int) -> None:
        self.fate, self.end, self.running = fate, t, False


@dataclass(eq=False)
class Seat:
    """Somebody in the box: his number (None: not named), as what, and the penalties he has sat for."""

    who: str | None
    role: str  # player, stand-in
    seqs: set[int] = field(default_factory=set)


@dataclass(eq=False)
class Chain:
    """Everything one player owes, one part after another."""

    team: str
    key: Key  # ("player", number), ("goalkeeper", number, seq), ("unknown", seq), ("bench", seq, index, who)
    pieces: list[Piece] = field(default_factory=list)
    past: list[Piece] = field(default_factory=list)  # what has run out or been ended, in the order in which it was
    place: str = "new"  # new, slot, queue, off
    out: bool = False  # of a player not known: thrown out by the call itself
    seat: Seat | None = None  # the player; of a goalkeeper the second team-mate; of a bench minor the one who sits
    stand_in: Seat | None = None
    gone: set[str] = field(default_factory=set)  # stand-ins who were penalized themselves
    spell: int = 0  # how often all its clock time was over
    kept: tuple[int, str] | None = None  # who goes on sitting in this spell whatever a ruling took away

    @property
    def owner(self) -> str | None:
        return str(self.key[1]) if self.key[0] in ("player", "goalkeeper") else None

    def todo(self) -> list[Piece]:
        return [p for p in self.pieces if p.fate is None]

    def finish(self, piece: Piece, fate: str, t: int) -> None:
        piece.finish(fate, t)
        self.past.append(piece)

    def clock_left(self) -> list[Piece]:
        """What is on the clock and unserved: the begun one, majors and matches, minors; by assessment."""
        mine = [p for p in self.todo() if p.category == "clock"]
        return sorted(mine, key=lambda p: (not p.has_begun(), p.kind in MINORS, p.order))

    def off_left(self) -> list[Piece]:
        """Offset parts in the same order, then misconducts in order of assessment."""
        offset = [p for p in self.todo() if p.category == "offset"]
        offset.sort(key=lambda p: (not p.has_begun(), p.kind in MINORS, p.order))
        misconducts = [p for p in self.todo() if p.category == "misconduct"]
        return offset + sorted(misconducts, key=lambda p: p.order)


@dataclass(eq=False)
class Side:
    slots: list[Chain] = field(default_factory=list)
    queue: list[Chain] = field(default_factory=list)
    chains: list[Chain] = field(default_factory=list)  # every chain with something left
    pending: list[Piece] = field(default_factory=list)  # called at this stoppage, not settled yet
    held: list[Seat] = field(default_factory=list)  # time up in play, first in first out
    leaving: list[Seat] = field(default_factory=list)  # off-the-clock time up, waits for a whistle


@dataclass(eq=False)
class Call:
    """What is remembered of one penalty event for ejections, delayed calls and withdrawn returns."""

    team: str
    player: str | None
    pieces: list[Piece]
    delayed: bool


@dataclass(eq=False)
class Goal:
    seq: int
    team: str
    touches: bool  # judged like any goal (not awarded or on a penalty shot, but for the knobs)
    ends: int | None = None  # the captain's choice
    ended: tuple[int, int] | None = None
    washed: tuple[int, int] | None = None
    serves_calls: bool = False  # it ended a minor of the side scored on, or swapped one


@dataclass(eq=False)
class Game:
    knobs: dict[str, Any]
    goalkeepers: dict[str, set[str]]
    t: int = 0
    period: int = 0  # 0: nothing has happened
    e: int = 0
    playing: bool = False
    intermission: bool = True
    used: bool = False  # the period has seen an event
    ended: bool = False  # its end is written
    stoppage_start: int = 0
    running_clock: bool = False
    first_overtime_begun: bool = False
    over: bool = False
    over_at: int | None = None
    score: dict[str, int] = field(default_factory=lambda: {"home": 0, "away": 0})
    sides: dict[str, Side] = field(default_factory=lambda: {"home": Side(), "away": Side()})
    ice: dict[str, int] = field(default_factory=lambda: {"home": 0, "away": 0})
    ice_before: dict[str, int] = field(default_factory=lambda: {"home": 0, "away": 0})  # when the whistle blew
    ran_before: set[tuple[int, int]] = field(default_factory=set)  # parts that ran in slots then
    calls: list[Call] = field(default_factory=list)
    calls_here: list[Call] = field(default_factory=list)  # at this stoppage
    goals_here: list[Goal] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)
    base_t: int = 0  # played time at which the period began
    goals: dict[int, dict[str, Any]] = field(default_factory=dict)
    ejected: dict[tuple[str, str], int] = field(default_factory=dict)
    returns: list[tuple[int, str, tuple[int, ...], str | None, str, str]] = field(default_factory=list)
    skaters: list[tuple[int, int]] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    provisional: tuple[int, int] | None = None  # remembered while nothing changes in a running stoppage

    def count(self, rule: str) -> None:
        if rule not in KNOWN_RULES:
            raise KeyError(rule)
        self.counts[rule] += 1

    def overtime(self) -> bool:
        return self.period > int(self.knobs["game.periods"])

    def base(self) -> int:
        return int(self.knobs["overtime.skaters" if self.overtime() else "ice.skaters"])

    def period_length(self) -> int:
        return int(self.knobs["overtime.length" if self.overtime() else "game.period_length"])

    def formula(self) -> dict[str, int]:
        """Section 4: the base less the slots in use, both raised together to the minimum, never above the most."""
        least, most = int(self.knobs["ice.min_skaters"]), int(self.knobs["ice.skaters"])
        numbers = {team: self.base() - len(self.sides[team].slots) for team in TEAMS}
        while min(numbers.values()) < least:
            numbers = {team: n + 1 for team, n in numbers.items()}
            self.count("slots: numbers raised to the minimum")
        return {team: min(n, most) for team, n in numbers.items()}

    def is_out(self, chain: Chain) -> bool:
        return chain.out or (chain.team, chain.owner or "") in self.ejected


def start_head(g: Game, chain: Chain, begun: bool = False) -> None:
    """Let the part of a chain run that is its turn; `begun`: started at a stoppage by a goal, ruling or freed slot."""
    ran = [p for p in chain.todo() if p.running]
    clock, off = chain.clock_left(), chain.off_left()
    head = None
    if clock:
        head = clock[0] if chain.place == "slot" else None
    elif off:
        head = off[0]
    for piece in ran:
        piece.running = False
        if piece.category == "misconduct" and piece is not head and piece.served:
            g.count("chain: misconduct suspended")
    if head is not None:
        if head not in ran and head.served:
            g.count("chain: suspended time resumes")
        if head.start is None:
            head.start = g.t
        head.running = True
        head.begun = head.begun or begun
    for piece in chain.todo():
        if not piece.running and not piece.has_begun():
            piece.start = None  # it was put aside at the tenth at which it started
