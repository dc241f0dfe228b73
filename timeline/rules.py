"""The ruleset as a value: every knob that the books set differently, in groups, with its unit and meaning.

The fold reads these values and never a ruleset's name. Lengths are integer tenths of a second; in files and in the
log they are written as readings (``"2:00"``). The dotted name of a knob (``"lengths.minor"``) is its path in this
class, which is also the table and key of a ruleset file; `KNOBS` lists them all.
"""

# no lazy annotations here: the knobs are read from them as types, and evaluating texts would cost each start
import typing
from collections.abc import Callable, Iterator, Mapping
from operator import attrgetter
from typing import Any, Literal

import attrs
from attrs import Factory, field, frozen

from .bounds import MOST_COUNT, MOST_PERIOD
from .clock import Counting
from .read_only import ReadOnly

__all__ = [
    "KNOBS",
    "Coincident",
    "DelayedCall",
    "Ejection",
    "GameRules",
    "GoalRules",
    "IceRules",
    "Knob",
    "Lengths",
    "Minutes",
    "Overtime",
    "Ruleset",
    "RunningClock",
    "Shootout",
    "StandIn",
    "knob_value",
]

Unit = Literal["count", "length", "period", "minutes", "goals", "skaters", "yes or no", "choice"]


_WITHOUT_MOST = ("length", "yes or no", "choice")
"""Units that are no numbers in files; a reading has its greatest by how it is written."""


def knob(default: Any, unit: Unit, meaning: str, least: int = 0, most: int | None = None) -> Any:
    """A knob with its default, unit, meaning and, for numbers, the least and the greatest value that makes sense."""
    if most is None and unit not in _WITHOUT_MOST:
        most = MOST_COUNT
    return field(default=default, metadata={"unit": unit, "meaning": meaning, "least": least, "most": most})


@frozen(kw_only=True)
class RunningClock:
    """A clock that runs through stoppages because one side leads by far."""

    starts_at_lead: int = knob(0, "goals", "The clock runs through stoppages from this lead on; 0 never.")
    from_period: int = knob(
        3, "period", "The first period in which a lead makes the clock run.", least=1, most=MOST_PERIOD
    )
    stops_below: int = knob(0, "goals", "The clock stops for stoppages again once the lead is below this; 0 never.")


@frozen(kw_only=True)
class GameRules:
    """Periods, the clock, and what each side may ask for.

    Attributes:
        running_clock: when the clock runs through stoppages because of a lead.
    """

    periods: int = knob(3, "count", "Regulation periods.", least=1, most=9)
    period_length: int = knob(9000, "length", "Length of a regulation period.", least=10)
    clock: Literal["stop", "running"] = knob("stop", "choice", "Whether the clock stands in a stoppage.")
    reading: Counting = knob(
        "remaining", "choice", "Whether the board shows what is left of a period, or what is over."
    )
    running_clock: RunningClock = Factory(RunningClock)
    timeouts: int = knob(1, "count", "Time-outs a side may take.")
    max_assists: int = knob(2, "count", "Assists that one goal may have.")


@frozen(kw_only=True)
class IceRules:
    """How many skate."""

    skaters: int = knob(5, "skaters", "Skaters of a side at full strength.", least=1, most=9)
    min_skaters: int = knob(3, "skaters", "The fewest skaters that penalties leave a side.", least=1, most=9)
    plays_short: bool = knob(True, "yes or no", "Whether a penalized side plays short.")


@frozen(kw_only=True)
class Lengths:
    """How long each part of a penalty is. A bench minor is as long as a minor; a game misconduct has no length."""

    minor: int = knob(1200, "length", "A minor or bench minor.", least=1)
    major: int = knob(3000, "length", "A major.", least=1)
    match: int = knob(3000, "length", "The time that a match penalty puts on the clock.", least=1)
    misconduct: int = knob(6000, "length", "A misconduct.", least=1)


@frozen(kw_only=True)
class Minutes:
    """Penalty minutes written against a player where they are not simply the part's length."""

    game_misconduct: int = knob(10, "minutes", "Minutes written for a game misconduct.")
    match: int = knob(10, "minutes", "Minutes written for a match penalty.")
    washed_out: bool = knob(True, "yes or no", "Whether a minor that a goal washed out counts in the penalty minutes.")


@frozen(kw_only=True)
class GoalRules:
    """What a goal ends."""

    ends_minor: Literal["least_time_left", "first_assessed", "none"] = knob(
        "least_time_left", "choice", "Which running minor of the short-handed side a goal ends."
    )
    penalty_shot_ends_minor: bool = knob(False, "yes or no", "Whether a goal on a penalty shot can end a minor.")
    awarded_ends_minor: bool = knob(False, "yes or no", "Whether an awarded goal can end a minor.")
    shorthanded_ends_own_minor: bool = knob(
        False, "yes or no", "Whether a short-handed goal ends a minor of the side that scored it."
    )


@frozen(kw_only=True)
class DelayedCall:
    """What becomes of a call whose arm was up when a goal went in."""

    even: Literal["wash", "swap", "serve"] = knob(
        "wash",
        "choice",
        "The called side is level and scored on: the minor is washed out, a running one ends, or it is served.",
    )
    shorthanded_goal: Literal["wash", "serve"] = knob(
        "wash",
        "choice",
        "The called side is on the power play and scored on: the minor is washed out, or it is served.",
    )


@frozen(kw_only=True)
class Coincident:
    """Penalties of both sides at one stoppage."""

    lone_minor_pair: Literal["substitute", "four_on_four"] = knob(
        "substitute", "choice", "One minor each and nothing else: substitutes skate, or both sides play one short."
    )
    late_netting: bool = knob(
        False, "yes or no", "In the last 5:00 and in overtime a minor against a major is netted to the difference."
    )


@frozen(kw_only=True)
class Ejection:
    """What ends a player's game, besides a match and a game misconduct."""

    major: Literal["always", "second", "third", "never"] = knob(
        "second", "choice", "Which of a player's majors ends his game."
    )
    misconducts: int = knob(2, "count", "The misconduct of this number ends a player's game; 0 none does.")
    player_penalties: int = knob(0, "count", "The penalty of this number ends a player's game; 0 none does.")
    counts_washed_out: bool = knob(True, "yes or no", "Whether a washed-out penalty counts among a player's penalties.")

    @property
    def ending_major(self) -> int:
        """The number of the major that ends a player's game; 0: none does."""
        return {"always": 1, "second": 2, "third": 3, "never": 0}[self.major]


@frozen(kw_only=True)
class StandIn:
    """Who sits for somebody who cannot."""

    ejected: Literal["at_once", "before_expiry"] = knob(
        "at_once", "choice", "When the stand-in of an ejected player must be in the box."
    )


@frozen(kw_only=True)
class Overtime:
    """Periods after regulation."""

    skaters: int = knob(5, "skaters", "Skaters of a side at full strength in overtime.", least=1, most=9)
    length: int = knob(3000, "length", "Length of an overtime period.", least=10)
    periods: int = knob(1, "count", "Overtime periods; 0 until the game is decided.", most=MOST_PERIOD - 9)
    sudden_victory: bool = knob(True, "yes or no", "Whether a goal in overtime ends the game.")
    equal_pair: Literal["on_the_clock", "off_the_clock"] = knob(
        "on_the_clock", "choice", "Chains of both sides with the same time left when a smaller overtime begins."
    )


@frozen(kw_only=True)
class Shootout:
    """What decides a game that is level after overtime."""

    rounds: int = knob(3, "count", "Rounds of a shootout; 0 there is none.")


@frozen(kw_only=True)
class Ruleset:
    """All rules of one age class, as a value.

    Attributes:
        game, ice, lengths, minutes, goals, delayed_call, coincident, ejection, stand_in, overtime,
            shootout: the knobs in groups, each with its unit and meaning in `KNOBS`.
        name: the name it is found under, for example ``"youth-12u"``.
        title: one line for people.
        sources: for each knob's dotted name where its value comes from: publisher, edition and rule, or *common
            practice*.
        infractions: the words offered for what a penalty is for.
    """

    name: str = "unnamed"
    title: str = ""
    game: GameRules = Factory(GameRules)
    ice: IceRules = Factory(IceRules)
    lengths: Lengths = Factory(Lengths)
    minutes: Minutes = Factory(Minutes)
    goals: GoalRules = Factory(GoalRules)
    delayed_call: DelayedCall = Factory(DelayedCall)
    coincident: Coincident = Factory(Coincident)
    ejection: Ejection = Factory(Ejection)
    stand_in: StandIn = Factory(StandIn)
    overtime: Overtime = Factory(Overtime)
    shootout: Shootout = Factory(Shootout)
    sources: Mapping[str, str] = field(factory=dict, eq=False, repr=False)
    infractions: tuple[str, ...] = field(default=(), eq=False, repr=False)

    def period_length(self, period: int) -> int:
        """Nominal length of `period`, in tenths."""
        return self.game.period_length if period <= self.game.periods else self.overtime.length

    def base_skaters(self, period: int) -> int:
        """Skaters of a side at full strength in `period`."""
        return self.ice.skaters if period <= self.game.periods else self.overtime.skaters

    def part_length(self, part_kind: str) -> int:
        """Full length of a part of the kind `part_kind`, in tenths; a game misconduct has none: 0.

        >>> Ruleset().part_length("major")
        3000
        """
        return _PART_LENGTHS[part_kind](self.lengths)


_PART_LENGTHS: Mapping[str, Callable[[Lengths], int]] = {
    "minor": attrgetter("minor"),
    "bench_minor": attrgetter("minor"),
    "major": attrgetter("major"),
    "match": attrgetter("match"),
    "misconduct": attrgetter("misconduct"),
    "game_misconduct": lambda lengths: 0,
}


@frozen(kw_only=True)
class Knob:
    """What a knob is: its dotted name, unit, meaning, default, and the values it can take.

    Attributes:
        name: its dotted name, ``"lengths.minor"``.
        unit: ``"length"`` is tenths of a second, written as a reading; the others are what they say.
        meaning: one sentence.
        default: the engine's own value, in its unit.
        values: what a choice can be.
        least, most: the bounds of a number; None: a length or a choice.
    """

    name: str
    unit: Unit
    meaning: str
    default: Any
    values: tuple[str, ...] = ()
    least: int = 0
    most: int | None = None


def _knobs_of(cls: type[Any], prefix: str = "") -> Iterator[Knob]:
    hints = typing.get_type_hints(cls)
    for attribute in attrs.fields(cls):
        hint = hints[attribute.name]
        name = f"{prefix}{attribute.name}"
        if isinstance(hint, type) and attrs.has(hint):
            yield from _knobs_of(hint, f"{name}.")
        elif "unit" in attribute.metadata:
            values = typing.get_args(hint) if typing.get_origin(hint) is Literal else ()
            yield Knob(name=name, default=attribute.default, values=values, **attribute.metadata)


KNOBS: Mapping[str, Knob] = ReadOnly({knob.name: knob for knob in _knobs_of(Ruleset)})
"""Every knob by its dotted name, in the order of the classes."""


def knob_value(rules: Ruleset, name: str) -> Any:
    """The value of the knob with the dotted `name`.

    >>> knob_value(Ruleset(), "lengths.minor")
    1200
    """
    value: Any = rules
    for step in name.split("."):
        value = getattr(value, step)
    return value
