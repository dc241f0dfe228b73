"""The vocabulary of the game log, format 1: one frozen class for each kind, in one closed union.

Readings stay strings, as they stand on the board; jersey numbers are strings (``"7"``, ``"00"``). A field that is
``None`` is absent or not known yet. Which kinds carry a period and a reading is stated by `WHEN`.
"""

# no lazy annotations here: the codec reads them as types, and evaluating texts would cost each start of the program
from collections.abc import Mapping
from typing import Any, ClassVar, Literal

from attrs import fields, frozen

__all__ = [
    "EVENT_CLASSES",
    "KINDS",
    "PART_KINDS",
    "TEAMS",
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
"""A side: ``"home"`` or ``"away"``."""
TEAMS: tuple[Team, Team] = ("home", "away")
"""Both sides, in the order in which they stand everywhere."""
PartKind = Literal["minor", "bench_minor", "major", "match", "misconduct", "game_misconduct"]
"""A part of a penalty, as an official announces it.

``"minor"``, ``"bench_minor"``, ``"major"``, ``"match"``, ``"misconduct"`` or ``"game_misconduct"``.
"""
AttemptResult = Literal["scored", "saved", "missed"]
When = Literal["never", "optional", "no reading", "required"]
Position = Literal["goalkeeper", "forward", "defence"]
Letter = Literal["C", "A"]
Status = Literal["playing", "absent", "injured", "suspended"]

PART_KINDS: tuple[PartKind, ...] = ("minor", "bench_minor", "major", "match", "misconduct", "game_misconduct")


@frozen(kw_only=True)
class Player:
    """One line of a roster; only the number is needed for any answer.

    Attributes:
        number: the jersey number, a string: ``"7"``, ``"00"``.
        name: as it is to be shown; optional everywhere.
        position: ``"goalkeeper"``, ``"forward"`` or ``"defence"``.
        letter: ``"C"`` captain, ``"A"`` alternate.
        status: ``"playing"`` if nothing is said, ``"absent"``, ``"injured"`` or ``"suspended"``.
    """

    number: str
    name: str | None = None
    position: Position | None = None
    letter: Letter | None = None
    status: Status | None = None


@frozen(kw_only=True)
class StaffMember:
    """Somebody on the bench who does not play.

    Attributes:
        name: as it is to be shown.
        role: free text: ``"head coach"``.
        credential: the number of a licence, where a league asks for it.
    """

    name: str
    role: str
    credential: str | None = None


@frozen(kw_only=True)
class TeamSheet:
    """A team as the game is opened: its name, how it is called for short, and who is there.

    Attributes:
        name: the team's full name.
        short: what it is called in entries and tables.
        colour: of its jerseys; entries understand it too.
        roster: its players; None where nobody wrote one.
        staff: who else is on the bench.
    """

    name: str
    short: str | None = None
    colour: str | None = None
    roster: tuple[Player, ...] | None = None
    staff: tuple[StaffMember, ...] | None = None


@frozen(kw_only=True)
class Officials:
    """Who officiates and who sits at the table.

    Attributes:
        referees, linespersons: their names, as many as there are.
        scorekeeper, timekeeper: who keeps the record, and the clock.
        penalty_box: who tends the doors.
    """

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
        recorded_at: when it was written: UTC after RFC 3339, ``"2026-01-10T18:30:05Z"``.
        by: who wrote it, a role by default.
        note: free text.
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
        """By kind and values; of an object, which may be changed, only by the names in it."""
        values = (frozenset(value) if isinstance(value, Mapping) else value for value in values_of(self))
        return hash((type(self), *values))

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
    """Line 1: the game, the teams, and the ruleset that applies.

    Attributes:
        format: the number of the log's format: 1.
        game: the game's id, of the league's choosing.
        ruleset: the name of the ruleset it is played by.
        settings: single knobs set otherwise, by dotted names: ``{"lengths.minor": "1:30"}``.
        pinned: the whole resolved ruleset as `rulesets.pin` makes it; what counts where it is there.
        home, away: the teams.
        date, start, rink, competition: free text; a date is best written ``"2026-01-10"``.
        officials: who officiates and keeps the record.
    """

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
    """Play stops without a goal.

    Attributes:
        reason: free text: ``"offside"``.
    """

    kind: ClassVar[str] = "stoppage"
    reason: str | None = None


@frozen(kw_only=True, eq=False, repr=False)
class ClockSet(Event):
    """The officials corrected the clock: the stoppage just before happened at the reading `to`.

    Attributes:
        to: the reading that is right.
        reason: free text.
    """

    kind: ClassVar[str] = "clock_set"
    to: str
    reason: str | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Shot(Event):
    """Shots on goal by `team` that were saved; `count` of them.

    Attributes:
        team: who shot.
        player: the shooter's number; None: not known.
        count: how many; None is one.
    """

    kind: ClassVar[str] = "shot"
    team: Team
    player: str | None = None
    count: int | None = None


@frozen(kw_only=True, eq=False, repr=False)
class Goal(Event):
    """A goal for `team`; `ends` is the penalty whose minor the captain chose to have ended, among equals.

    Attributes:
        team: the side credited.
        scorer: a number of that side, of an own goal too; None: not known yet.
        assists: numbers; None: not known yet, empty: unassisted.
        ends: the `seq` of the penalty chosen.
        own_goal: a defender put it in; it counts for the scorer like any goal.
        awarded: given without a shot going in.
        empty_net: nobody was seen in net.
    """

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
    """A penalty as the official announced it, with its parts in the order given.

    Attributes:
        team: the penalized side.
        player: a number; None for a bench penalty, or one still to come.
        staff: the name of somebody on the bench who was penalized.
        parts: ``"minor"``, ``"bench_minor"``, ``"major"``, ``"match"``, ``"misconduct"``,
            ``"game_misconduct"``: ``("minor", "minor")`` for a double minor. At least one.
        infraction: what for, free text.
        announced: the length that the official said, a reading.
        served_by: the number of the team-mate who sits for it.
        delayed_call: the arm was up when the goal at this reading went in.
        on_clock: where the captain chose, whether this one stays on the clock.
        penalty_shot: a shot was awarded in place of the first minor.
        minutes: penalty minutes written for it, where they differ from the ruleset's.
        rule: the rule that the official cited, free text.
    """

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
    """The door opened (``"released"``), or an official ended the penalty (``"ruling"``).

    Attributes:
        team: the penalized side.
        penalty: the `seq` of the penalty.
        cause: ``"released"`` or ``"ruling"``.
    """

    kind: ClassVar[str] = "penalty_ended"
    team: Team
    penalty: int
    cause: Literal["released", "ruling"]


@frozen(kw_only=True, eq=False, repr=False)
class GoalieChange(Event):
    """`goalie` is in net from here on; ``None`` is an empty net.

    Attributes:
        team: whose net.
        goalie: a number, or None.
    """

    kind: ClassVar[str] = "goalie_change"
    team: Team
    goalie: str | None


@frozen(kw_only=True, eq=False, repr=False)
class PenaltyShot(Event):
    """A penalty shot was taken by `team`.

    Attributes:
        team: the side that shot.
        player: a number; None: not known.
        result: ``"scored"`` (a goal and a shot), ``"saved"`` (a shot) or ``"missed"``.
    """

    kind: ClassVar[str] = "penalty_shot"
    team: Team
    player: str | None = None
    result: AttemptResult


@frozen(kw_only=True, eq=False, repr=False)
class Timeout(Event):
    """A time-out of `team`.

    Attributes:
        team: who asked for it.
    """

    kind: ClassVar[str] = "timeout"
    team: Team


@frozen(kw_only=True, eq=False, repr=False)
class PeriodEnd(Event):
    """The horn; the reading shows the end unless the period was cut short."""

    kind: ClassVar[str] = "period_end"


@frozen(kw_only=True, eq=False, repr=False)
class ShootoutAttempt(Event):
    """One attempt of the shootout; no goal, shot or save.

    Attributes:
        team: the side that shot.
        player: a number; None: not known.
        result: ``"scored"``, ``"saved"`` or ``"missed"``.
    """

    kind: ClassVar[str] = "shootout_attempt"
    team: Team
    player: str | None = None
    result: AttemptResult


@frozen(kw_only=True, eq=False, repr=False)
class RosterChange(Event):
    """A late arrival, a scratch, or a new number (`was` is the old one).

    Attributes:
        team: whose player.
        number: the number from here on.
        was: the number until here, where it is another.
        name, position, letter, status: as in `Player`.
    """

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
    """Skaters that somebody saw on the ice; compared with what the rules owe.

    Attributes:
        home, away: skaters a side.
    """

    kind: ClassVar[str] = "observed_strength"
    home: int
    away: int


@frozen(kw_only=True, eq=False, repr=False)
class ObservedPlayer(Event):
    """Where somebody saw one player.

    Attributes:
        team: whose player.
        player: a number.
        where: ``"ice"`` or ``"box"``.
    """

    kind: ClassVar[str] = "observed_player"
    team: Team
    player: str
    where: Literal["ice", "box"]


@frozen(kw_only=True, eq=False, repr=False)
class Figures(Event):
    """Totals that stand elsewhere; never folded, only compared.

    Attributes:
        team: whose.
        goals, shots, saves: totals of the period, or of the game without a period; None: not told.
        goalie: whose saves they are, a number.
        source: where they stand: ``"board"``, ``"shot sheet"``.
    """

    kind: ClassVar[str] = "figures"
    team: Team
    goals: int | None = None
    shots: int | None = None
    saves: int | None = None
    goalie: str | None = None
    source: str


@frozen(kw_only=True, eq=False, repr=False)
class Remark(Event):
    """Free text that belongs to the record.

    Attributes:
        text: what is to be remembered.
    """

    kind: ClassVar[str] = "remark"
    text: str


@frozen(kw_only=True, eq=False, repr=False)
class Void(Event):
    """The event `target` never counted.

    Attributes:
        target: the `seq` of that event, which was written before.
        reason: free text.
    """

    kind: ClassVar[str] = "void"
    target: int
    reason: str


@frozen(kw_only=True, eq=False, repr=False)
class Amend(Event):
    """The event `target` counts with these fields changed.

    Attributes:
        target: the `seq` of that event, which was written before.
        changes: field: new value, as the log writes it; None clears an optional field.
        reason: free text.
    """

    kind: ClassVar[str] = "amend"
    target: int
    changes: Mapping[str, Any]
    reason: str


@frozen(kw_only=True, eq=False, repr=False)
class GameClosed(Event):
    """The record is complete.

    Attributes:
        outcome: ``"played"``, ``"shortened"``, ``"abandoned"`` or ``"forfeit"``.
        signed: who signed: a name, or several.
        reason: free text.
    """

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
    "game_opened": "never",
    "faceoff": "required",
    "stoppage": "required",
    "clock_set": "required",
    "shot": "no reading",
    "goal": "required",
    "penalty_assessed": "required",
    "penalty_ended": "required",
    "goalie_change": "required",
    "penalty_shot": "required",
    "timeout": "required",
    "period_end": "required",
    "shootout_attempt": "required",
    "roster_change": "optional",
    "observed_strength": "required",
    "observed_player": "required",
    "figures": "optional",
    "remark": "optional",
    "void": "optional",
    "amend": "optional",
    "game_closed": "optional",
}
"""Whether a kind carries `period` and `clock`.

Never, optionally (both or neither), period without a reading, or both always.
"""
