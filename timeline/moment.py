"""A moment of a game as people say it, and the way between moments and played time."""

from __future__ import annotations

from attrs import frozen

from .clock import reading_in_period
from .rules import Ruleset

__all__ = ["Moment", "PeriodSpan", "moment_at"]


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
