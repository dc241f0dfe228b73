"""Two games and what they differ in: each thing in both, numbered as in each, and the first reading of all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property

from attrs import frozen

from ..timeline.clock import parse_reading, played_in_period
from ..timeline.game import Game
from ..timeline.moment import Moment
from ..timeline.views.difference import Differences, PartOf, Release, Two

__all__ = ["TwoGames"]


@frozen(slots=False, eq=False)
class TwoGames:
    """One game as it is and as it would be, or two records of one game.

    Attributes:
        titles: what the two are called.
        seqs: for records written apart, the `seq` in `before` of what is the same event in `after`; ``None`` where
            both number alike.
    """

    before: Game
    after: Game
    found: Differences
    titles: tuple[str, str]
    seqs: Mapping[int, int] | None = None

    @cached_property
    def _back(self) -> Mapping[int, int]:
        return {old: new for new, old in (self.seqs or {}).items()}

    def in_before(self, seq: int) -> int | None:
        """The number of an event in `before`, as the differences count; ``None`` where it is not in it."""
        return seq if seq > 0 and (self.seqs is not None or seq <= len(self.before.events)) else None

    def in_after(self, seq: int) -> int | None:
        """The number of an event in `after`, as the differences count; ``None`` where it is not in it."""
        return seq if self.seqs is None else -seq if seq < 0 else self._back.get(seq)

    @cached_property
    def first(self) -> Moment | None:
        """The first reading at which anything is different; ``None`` where no time is."""
        return min(self._moments(), key=self._place, default=None)

    def _place(self, moment: Moment) -> tuple[int, int]:
        rules = self.after.rules
        length = rules.period_length(moment.period)
        return moment.period, played_in_period(parse_reading(moment.clock), length, rules.game.reading)

    def _moments(self) -> Iterator[Moment]:
        """Where each difference begins."""
        found = self.found
        yield from (stretch.start for stretch in found.stretches)
        for two in found.goals:
            yield from (goal.at for goal in (two.before, two.after) if goal is not None)
        for release in found.releases:
            yield from _differing_times(_times_of_release(release.before), _times_of_release(release.after))
        for part in found.parts:
            yield from self._part(part)

    def _part(self, two: Two[PartOf]) -> Iterator[Moment]:
        """Where a part differs; where only one game has it, or has it served, its call."""
        times = [*_differing_times(_times_of_part(two.before), _times_of_part(two.after))]
        yield from times
        if not times:
            game, seq = (self.after, self.in_after) if two.before is None else (self.before, self.in_before)
            number = seq(two.either.penalty)
            yield from (life.at for life in game.penalties if life.penalty == number)


Times = tuple[Moment | None, ...]


def _differing_times(before: Times, after: Times) -> Iterator[Moment]:
    """The times in which the two differ; all of the one where the other is not."""
    longest = max(len(before), len(after))
    pairs = zip(before + (None,) * (longest - len(before)), after + (None,) * (longest - len(after)), strict=True)
    for old, new in pairs:
        if old != new:
            yield from (time for time in (old, new) if time is not None)


def _times_of_release(release: Release | None) -> Times:
    return () if release is None else (release.at,)


def _times_of_part(part: PartOf | None) -> Times:
    return () if part is None else (part.life.start, part.life.end)
