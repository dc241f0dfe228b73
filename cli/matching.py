"""Which events of two records of one game are the same one, and how they differ."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence

from attrs import frozen

from ..timeline.events import Event, names_of
from ..timeline.game import Game
from ..timeline.script.placed import Placed

__all__ = ["Matched", "Matching", "match_events"]

NOT_COMPARED = frozenset({"seq", "period", "clock", "after", "recorded_at", "by", "note", "prev"})
"""When and by whom it was written, and what the match itself is about."""

POINTERS = frozenset({"penalty", "ends"})
"""Fields that hold the `seq` of another event of the same record."""

NEAR = 1200
"""Tenths within which an event that is else the same was written at another reading of it."""


@frozen
class Matched:
    """An event of both records, with the fields that differ."""

    one: Placed
    other: Placed
    fields: Mapping[str, tuple[object, object]]


@frozen
class Matching:
    """The events that count in two records.

    Attributes:
        same: those that both have, whether with differing fields or not.
        only: those that only the first, and only the second has.
    """

    same: tuple[Matched, ...]
    only: tuple[tuple[Placed, ...], tuple[Placed, ...]]

    @property
    def seqs(self) -> dict[int, int]:
        """The `seq` in the first record of each event of the second that both have."""
        return {pair.other.event.seq: pair.one.event.seq for pair in self.same}

    @property
    def differing(self) -> tuple[Matched, ...]:
        """Those that both have, with something else in them."""
        return tuple(pair for pair in self.same if pair.fields)

    def __bool__(self) -> bool:
        """Whether anything is different."""
        return any(self.only) or any(pair.fields for pair in self.same)


def match_events(one: Game, other: Game) -> Matching:
    """The events of two records, matched by kind, period, reading and team; then those else alike at a reading near by.

    Of several alike the ones with the same details go together first, then each in turn.
    """
    rest, others = [*one.folded.placed], [*other.folded.placed]
    pairs = [
        *_pairs(rest, others, lambda placed: (*_when(placed), _details(placed.event))),
        *_pairs(rest, others, _when),
        *_near(rest, others),
    ]
    pairs.sort(key=lambda pair: one.folded.placed.index(pair[0]))
    seqs = {new.event.seq: old.event.seq for old, new in pairs}
    return Matching(
        tuple(Matched(old, new, _differing(old, new, seqs)) for old, new in pairs), (tuple(rest), tuple(others))
    )


def _when(placed: Placed) -> tuple[Hashable, ...]:
    return placed.event.kind, placed.period, placed.played, getattr(placed.event, "team", None)


def _details(event: Event) -> tuple[Hashable, ...]:
    """What an event says beside when and whose it is, but for what it points at."""
    names = (name for name in names_of(type(event)) if name not in NOT_COMPARED | POINTERS)
    return tuple(repr(getattr(event, name)) for name in names)


def _pairs(
    rest: list[Placed], others: list[Placed], key: Callable[[Placed], Hashable]
) -> Iterator[tuple[Placed, Placed]]:
    """Pairs of the same key, each in turn; they are taken out of both lists."""
    waiting: dict[Hashable, list[Placed]] = {}
    for placed in others:
        waiting.setdefault(key(placed), []).append(placed)
    for placed in [*rest]:
        if found := waiting.get(key(placed)):
            partner = found.pop(0)
            _take(rest, placed)
            _take(others, partner)
            yield placed, partner


def _near(rest: list[Placed], others: list[Placed]) -> Iterator[tuple[Placed, Placed]]:
    """Pairs that are alike but for a reading near by, the nearest first."""
    candidates = [
        (abs(placed.played - partner.played), placed, partner)
        for placed in rest
        for partner in others
        if placed.played is not None and partner.played is not None and _is_like(placed, partner)
    ]
    for distance, placed, partner in sorted(candidates, key=lambda candidate: candidate[0]):
        if distance <= NEAR and _has(rest, placed) and _has(others, partner):
            _take(rest, placed)
            _take(others, partner)
            yield placed, partner


def _is_like(one: Placed, other: Placed) -> bool:
    """Whether all but the reading is the same, and it is no event of which a game has very many."""
    if one.event.kind in ("faceoff", "stoppage", "shot") or one.event.kind != other.event.kind:
        return False
    whose = getattr(one.event, "team", None) == getattr(other.event, "team", None)
    return whose and one.period == other.period and _details(one.event) == _details(other.event)


def _has(places: Sequence[Placed], wanted: Placed) -> bool:
    return any(placed is wanted for placed in places)


def _take(places: list[Placed], wanted: Placed) -> None:
    del places[next(index for index, placed in enumerate(places) if placed is wanted)]


def _differing(one: Placed, other: Placed, seqs: Mapping[int, int]) -> dict[str, tuple[object, object]]:
    """The fields in which two events differ, with both values; pointers are compared by what they point at."""
    found: dict[str, tuple[object, object]] = {}
    if one.played != other.played:
        found["clock"] = (one.event.clock, other.event.clock)
    for name in names_of(type(one.event)):
        if name in NOT_COMPARED:
            continue
        old, new = getattr(one.event, name), getattr(other.event, name)
        meant = seqs.get(new, -1) if name in POINTERS and new is not None else new
        if old != meant:
            found[name] = (old, new)
    return found
