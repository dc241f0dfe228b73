"""A moment of a game as people say it, and the way between moments and played time."""

from __future__ import annotations

from attrs import frozen

from .clock import BadReading, format_reading, parse_moment, parse_reading, reading_in_period
from .rules import Ruleset

__all__ = ["Moment", "PeriodSpan", "moment_at", "typed_moment"]


@frozen(order=False)
class Moment:
    """A period and what the board shows in it.

    Attributes:
        period: 1, 2, 3, and 4 and up for overtimes.
        clock: the reading, which counts the way the ruleset says.

    >>> str(Moment(2, "7:42"))
    '2 7:42'
    """

    period: int
    clock: str

    def __str__(self) -> str:
        """Period and reading, as they are typed."""
        return f"{self.period} {self.clock}"


@frozen
class PeriodSpan:
    """A period as far as it was played.

    Attributes:
        period: 1, 2, 3, and 4 and up for overtimes.
        start, end: played tenths since the opening faceoff.
    """

    period: int
    start: int
    end: int


def moment_at(rules: Ruleset, period: int, played: int) -> Moment:
    """The moment at which `played` tenths of `period` are over."""
    return Moment(period, reading_in_period(played, rules.period_length(period), rules.game.reading))


def typed_moment(text: str, rules: Ruleset, recorded: int = 0) -> Moment:
    """The moment that was typed, for example ``"2 7:42"``, in a game by `rules` whose record reaches period `recorded`.

    Raises:
        BadReading: it is none; or neither the rules nor the record have such a period, or it is not as long.
    """
    period, reading = parse_moment(text, rules.game.periods)
    overtimes = rules.overtime.periods
    if period < 1 or (overtimes and period > max(rules.game.periods + overtimes, recorded)):
        raise BadReading(text, f"is no time of this game: under its rules there is no period {period}")
    length = rules.period_length(period)
    if parse_reading(reading) > length:
        raise BadReading(text, f"is no time of this game: period {period} is {format_reading(length)} long")
    return Moment(period, reading)
