"""Skaters on the ice, second by second and as segments."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from attrs import frozen

from ..fold.changes import Change, StrengthChanged
from ..fold.state import GameState
from ..moment import PeriodSpan

__all__ = ["Segment", "Strength", "segments", "strength_of"]


@frozen
class Strength:
    """Skaters on the ice, extra attackers included, and who is in net (``None``: nobody, or nobody named).

    Skaters follow from the penalties on the clock (NHL 26.1; IIHF 26; Hockey Canada 4.14; section 4 of the penalty
    model).

    Attributes:
        home, away: skaters, 3 to 6 in most rulesets.
        home_goalie, away_goalie: a number.
        home_short, away_short: penalties leave that side fewer than its opponent.
    """

    home: int
    away: int
    home_goalie: str | None
    away_goalie: str | None
    home_short: bool
    away_short: bool

    @property
    def label(self) -> str:
        """Home first: ``"4 on 5"``."""
        return f"{self.home} on {self.away}"


@frozen
class Segment:
    """A stretch of one period, from `start` up to `end` played tenths, in which the strength is the same.

    Attributes:
        period: 1, 2, 3, and 4 and up for overtimes.
        start, end: tenths of a second played since the opening faceoff.
        strength: skaters a side, and who is in net.
    """

    period: int
    start: int
    end: int
    strength: Strength


def strength_of(state: GameState) -> Strength:
    """The strength in `state` while play is on."""
    home, away = state.ice.home, state.ice.away
    return Strength(
        home.skaters,
        away.skaters,
        home.goalie or None,
        away.goalie or None,
        home.on_ice < away.on_ice,
        away.on_ice < home.on_ice,
    )


def _of_change(change: StrengthChanged) -> Strength:
    return Strength(
        change.home,
        change.away,
        change.home_goalie,
        change.away_goalie,
        change.home_short,
        change.away_short,
    )


def segments(changes: Iterable[Sequence[Change]], periods: Sequence[PeriodSpan]) -> tuple[Segment, ...]:
    """All played time in stretches of one strength: cut at period ends, none of length zero, no gaps."""
    told = [change for some in changes for change in some if isinstance(change, StrengthChanged)]
    result: list[Segment] = []
    for span in periods:
        cuts = [change for change in told if change.at < span.end]
        ends = [*(change.at for change in cuts[1:]), span.end]
        for change, end in zip(cuts, ends, strict=False):  # no cuts: nothing was told yet
            start = max(change.at, span.start)
            if end > start:
                _extend(result, Segment(span.period, start, end, _of_change(change)))
    return tuple(result)


def _extend(result: list[Segment], segment: Segment) -> None:
    """Add a stretch, joined to the one before where nothing differs."""
    last = result[-1] if result else None
    if (
        last is not None
        and last.period == segment.period
        and last.end == segment.start
        and last.strength == segment.strength
    ):
        result[-1] = Segment(last.period, last.start, segment.end, last.strength)
    else:
        result.append(segment)
