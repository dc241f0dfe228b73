"""The played time in which two games differ in who is on the ice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from ..folded import FoldedGame
from ..moment import Moment, moment_at
from .strength import Segment, Strength

__all__ = ["Stretch", "differing_stretches"]


@frozen
class Stretch:
    """A stretch of one period with the strength in both games; ``None`` where one was not played then.

    Attributes:
        start, end: readings, by the board of the second game where it was played there, else of the first.
        tenths: how long it is.
    """

    start: Moment
    end: Moment
    tenths: int
    before: Strength | None
    after: Strength | None

    @property
    def period(self) -> int:
        """The period."""
        return self.start.period


Span = tuple[int, int, Strength]  # from, to: tenths played in the period


def differing_stretches(before: FoldedGame, after: FoldedGame) -> tuple[Stretch, ...]:
    """Where the two differ, in game order; each stretch as long as both strengths last.

    Time is compared period by period, by the tenths played in it.
    """
    old, new = _by_period(before), _by_period(after)
    return tuple(
        stretch
        for period in sorted({*old, *new})
        for stretch in _in_period(before, after, period, old.get(period, []), new.get(period, []))
    )


def _by_period(game: FoldedGame) -> dict[int, list[Span]]:
    starts = {span.period: span.start for span in game.periods}
    found: dict[int, list[Span]] = {}
    for segment in game.segments:
        found.setdefault(segment.period, []).append(_span(segment, starts[segment.period]))
    return found


def _span(segment: Segment, start: int) -> Span:
    return (segment.start - start, segment.end - start, segment.strength)


def _in_period(
    before: FoldedGame, after: FoldedGame, period: int, old: Sequence[Span], new: Sequence[Span]
) -> Iterator[Stretch]:
    cuts = sorted({tenth for span in (*old, *new) for tenth in span[:2]})
    for start, end in pairwise(cuts):
        was, is_now = _during(old, start), _during(new, start)
        if was != is_now:
            board = before if is_now is None else after
            yield Stretch(_moment(board, period, start), _moment(board, period, end), end - start, was, is_now)


def _during(spans: Sequence[Span], tenth: int) -> Strength | None:
    return next((strength for start, end, strength in spans if start <= tenth < end), None)


def _moment(game: FoldedGame, period: int, played: int) -> Moment:
    return moment_at(game.rules, period, played)
