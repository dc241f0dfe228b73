"""The vocabulary of the game log, format 1: one frozen class for each kind, in one closed union.

Readings stay strings, as they stand on the board; jersey numbers are strings (``"7"``, ``"00"``). A field that is
``None`` is absent or not known yet. Which kinds carry a period and a reading is stated by `WHEN`.
"""

# no lazy annotations here: the codec reads them as types, and evaluating texts would cost each start of the program
from collections.abc import Mapping
from typing import Any, ClassVar, Literal

from attrs import fields, frozen

__all__ = [
    "ATTEMPT_RESULTS",
    "EVENT_CLASSES",
    "KINDS",
    "PART_KINDS",
    "WHEN",
    "Amend",
    "AttemptResult",
    "ClockSet",
    "Event",
    "Faceoff",
    "Figures",
    "GameClosed",
    "GameOpened",
    "Goal",
    "GoalieChange",
    "ObservedPlayer",
    "ObservedStrength",
    "Officials",
    "PartKind",
    "PenaltyAssessed",
    "PenaltyEnded",
    "PenaltyShot",
    "PeriodEnd",
    "Player",
    "Remark",
    "RosterChange",
    "ShootoutAttempt",
    "Shot",
    "StaffMember",
    "Stoppage",
    "Team",
    "TeamSheet",
    "Timeout",
    "Void",
    "When",
]

Team = Literal["home", "away"]
PartKind = Literal["minor", "bench_minor", "major", "match", "misconduct", "game_misconduct"]
AttemptResult = Literal["scored", "saved", "missed"]
When = Literal["never", "optional", "no reading", "required"]
Position = Literal["goalkeeper", "forward", "defence"]
Letter = Literal["C", "A"]
Status = Literal["playing", "absent", "injured", "suspended"]

PART_KINDS: tuple[PartKind, ...] = ("minor", "bench_minor", "major", "match", "misconduct", "game_misconduct")
ATTEMPT_RESULTS: tuple[AttemptResult, ...] = ("scored", "saved", "missed")


@frozen(kw_only=True)
class Player:
    """One line of a roster; only the number is needed for any answer."""

    number: str
    name: str | None = None
    position: Position | None = None
    letter: Letter | None = None
    status: Status | None = None


@frozen(kw_only=True)
class StaffMember:
    """Somebody on the bench who does not play."""

    name: str
    role: str
    credential: str | None = None


@frozen(kw_only=True)
class TeamSheet:
    """A team as the game is opened: its name, how it is called for short, and who is there."""

    name: str
    short: str | None = None
    colour: str | None = None
    roster: tuple[Player, ...] | None = None
    staff: tuple[StaffMember, ...] | None = None


@frozen(kw_only=True)
class Officials:
    """Who officiates and who sits at the table."""

    referees: tuple[str, ...] = ()
    linespersons: tuple[str, ...] = ()
    scorekeeper: str | None = None
    timekeeper: str | None = None
    penalty_box: tuple[str, ...] | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Event:
    """What every line carries.

    Attributes:
        seq: 1, 2, 3 … in the order written.
        period: 1, 2, 3 for regulation, 4 and up for overtimes.
        clock: the reading as it stands on the scoreboard.
        after: this event takes its place directly after the event with that `seq`.
        prev: SHA-256 (hex) of the previous line's bytes without its newline.
    """

    kind: ClassVar[str]

    seq: int
    period: int | None = None
    clock: str | None = None
    after: int | None = None
    recorded_at: str | None = None
    by: str | None = None
    note: str | None = None
    prev: str | None = None

    # one comparison for all kinds: generating one for each would cost every start of the program
    def __eq__(self, other: object) -> bool:
        """Equal to an event of the same kind with the same values."""
        return type(other) is type(self) and values_of(self) == values_of(other)

    def __hash__(self) -> int:
        """By kind and values."""
        return hash((type(self), values_of(self)))

    def __repr__(self) -> str:
        """The kind and the values that are set."""
        pairs = zip(names_of(type(self)), values_of(self), strict=True)
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in pairs if value is not None)})"


def names_of(cls: type[Event]) -> tuple[str, ...]:
    """The fields of a kind of event."""
    return tuple(attribute.name for attribute in fields(cls))


def values_of(event: Event) -> tuple[object, ...]:
    """The values of `event`, in the order of its fields."""
    return tuple(getattr(event, name) for name in names_of(type(event)))


@frozen(kw_only=True, eq=False, repr=False)
class GameOpened(Event):
    """Line 1: the game, the teams, and the ruleset that applies."""

    kind: ClassVar[str] = "game_opened"
    format: int
    game: str
    ruleset: str
    settings: Mapping[str, Any] | None = None
    pinned: Mapping[str, Any] | None = None
    home: TeamSheet
    away: TeamSheet
    date: str | None = None
    start: str | None = None
    rink: str | None = None
    competition: str | None = None
    officials: Officials | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Faceoff(Event):
    """Play resumes."""

    kind: ClassVar[str] = "faceoff"


@frozen(kw_only=True, eq=False, repr=False)
class Stoppage(Event):
    """Play stops without a goal."""

    kind: ClassVar[str] = "stoppage"
    reason: str | None = None


@frozen(kw_only=True, eq=False, repr=False)
class ClockSet(Event):
    """The officials corrected the clock: the stoppage just before happened at the reading `to`."""

    kind: ClassVar[str] = "clock_set"
    to: str
    reason: str | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Shot(Event):
    """Shots on goal by `team` that were saved; `count` of them."""

    kind: ClassVar[str] = "shot"
    team: Team
    player: str | None = None
    count: int | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Goal(Event):
    """A goal for `team`; `ends` is the penalty whose minor the captain chose to have ended, among equals."""

    kind: ClassVar[str] = "goal"
    team: Team
    scorer: str | None = None
    assists: tuple[str, ...] | None = None
    ends: int | None = None
    own_goal: bool | None = None
    awarded: bool | None = None
    empty_net: bool | None = None


@frozen(kw_only=True, eq=False, repr=False)
class PenaltyAssessed(Event):
    """A penalty as the official announced it, with its parts in the order given."""

    kind: ClassVar[str] = "penalty_assessed"
    team: Team
    player: str | None = None
    staff: str | None = None
    parts: tuple[PartKind, ...]
    infraction: str | None = None
    announced: str | None = None
    served_by: str | None = None
    delayed_call: bool | None = None
    on_clock: bool | None = None
    penalty_shot: bool | None = None
    minutes: float | None = None
    rule: str | None = None


@frozen(kw_only=True, eq=False, repr=False)
class PenaltyEnded(Event):
    """The door opened (``"released"``), or an official ended the penalty (``"ruling"``)."""

    kind: ClassVar[str] = "penalty_ended"
    team: Team
    penalty: int
    cause: Literal["released", "ruling"]


@frozen(kw_only=True, eq=False, repr=False)
class GoalieChange(Event):
    """`goalie` is in net from here on; ``None`` is an empty net."""

    kind: ClassVar[str] = "goalie_change"
    team: Team
    goalie: str | None


@frozen(kw_only=True, eq=False, repr=False)
class PenaltyShot(Event):
    """A penalty shot was taken by `team`."""

    kind: ClassVar[str] = "penalty_shot"
    team: Team
    player: str | None = None
    result: AttemptResult


@frozen(kw_only=True, eq=False, repr=False)
class Timeout(Event):
    """A time-out of `team`."""

    kind: ClassVar[str] = "timeout"
    team: Team


@frozen(kw_only=True, eq=False, repr=False)
class PeriodEnd(Event):
    """The horn; the reading shows the end unless the period was cut short."""

    kind: ClassVar[str] = "period_end"


@frozen(kw_only=True, eq=False, repr=False)
class ShootoutAttempt(Event):
    """One attempt of the shootout; no goal, shot or save."""

    kind: ClassVar[str] = "shootout_attempt"
    team: Team
    player: str | None = None
    result: AttemptResult


@frozen(kw_only=True, eq=False, repr=False)
class RosterChange(Event):
    """A late arrival, a scratch, or a new number (`was` is the old one)."""

    kind: ClassVar[str] = "roster_change"
    team: Team
    number: str
    was: str | None = None
    name: str | None = None
    position: Position | None = None
    letter: Letter | None = None
    status: Status | None = None


@frozen(kw_only=True, eq=False, repr=False)
class ObservedStrength(Event):
    """Skaters that somebody saw on the ice; compared with what the rules owe."""

    kind: ClassVar[str] = "observed_strength"
    home: int
    away: int


@frozen(kw_only=True, eq=False, repr=False)
class ObservedPlayer(Event):
    """Where somebody saw one player."""

    kind: ClassVar[str] = "observed_player"
    team: Team
    player: str
    where: Literal["ice", "box"]


@frozen(kw_only=True, eq=False, repr=False)
class Figures(Event):
    """Totals that stand elsewhere; never folded, only compared."""

    kind: ClassVar[str] = "figures"
    team: Team
    goals: int | None = None
    shots: int | None = None
    saves: int | None = None
    goalie: str | None = None
    source: str


@frozen(kw_only=True, eq=False, repr=False)
class Remark(Event):
    """Free text that belongs to the record."""

    kind: ClassVar[str] = "remark"
    text: str


@frozen(kw_only=True, eq=False, repr=False)
class Void(Event):
    """The event `target` never counted."""

    kind: ClassVar[str] = "void"
    target: int
    reason: str


@frozen(kw_only=True, eq=False, repr=False)
class Amend(Event):
    """The event `target` counts with these fields changed."""

    kind: ClassVar[str] = "amend"
    target: int
    changes: Mapping[str, Any]
    reason: str


@frozen(kw_only=True, eq=False, repr=False)
class GameClosed(Event):
    """The record is complete."""

    kind: ClassVar[str] = "game_closed"
    outcome: Literal["played", "shortened", "abandoned", "forfeit"]
    signed: str | tuple[str, ...] | None = None
    reason: str | None = None


EVENT_CLASSES: tuple[type[Event], ...] = (
    GameOpened,
    Faceoff,
    Stoppage,
    ClockSet,
    Shot,
    Goal,
    PenaltyAssessed,
    PenaltyEnded,
    GoalieChange,
    PenaltyShot,
    Timeout,
    PeriodEnd,
    ShootoutAttempt,
    RosterChange,
    ObservedStrength,
    ObservedPlayer,
    Figures,
    Remark,
    Void,
    Amend,
    GameClosed,
)

KINDS: Mapping[str, type[Event]] = {cls.kind: cls for cls in EVENT_CLASSES}
"""Every kind of the format, by its name."""

WHEN: Mapping[str, When] = {
    kind: "never"
    if kind == "game_opened"
    else "no reading"
    if kind == "shot"
    else "optional"
    if kind in {"roster_change", "figures", "remark", "void", "amend", "game_closed"}
    else "required"
    for kind in KINDS
}
"""Whether a kind carries `period` and `clock`.

Never, optionally (both or neither), period without a reading, or both always.
"""
