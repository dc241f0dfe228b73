"""Which events of two records of one game are the same one, and how they differ."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Hashable, Mapping, Sequence

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
    place = {placed.event.seq: index for index, placed in enumerate(one.folded.placed)}
    pairs.sort(key=lambda pair: place[pair[0].event.seq])
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


Pair = tuple[Placed, Placed]


def _pairs(rest: list[Placed], others: list[Placed], key: Callable[[Placed], Hashable]) -> list[Pair]:
    """Pairs of the same key, each in turn; they are taken out of both lists."""
    waiting: dict[Hashable, deque[Placed]] = {}
    for placed in others:
        waiting.setdefault(key(placed), deque()).append(placed)
    pairs = [(placed, found.popleft()) for placed in rest if (found := waiting.get(key(placed)))]
    _take_out(rest, others, pairs)
    return pairs


def _near(rest: list[Placed], others: list[Placed]) -> list[Pair]:
    """Pairs that are alike but for a reading near by, the nearest first; they are taken out of both lists."""
    alike: dict[Hashable, list[Placed]] = {}
    for partner in filter(_may_be_near, others):
        alike.setdefault(_likeness(partner), []).append(partner)
    candidates = [
        (distance, placed, partner)
        for placed in filter(_may_be_near, rest)
        for partner in alike.get(_likeness(placed), ())
        if (distance := abs((placed.played or 0) - (partner.played or 0))) <= NEAR
    ]
    pairs: list[Pair] = []
    taken: set[int] = set()
    partners: set[int] = set()
    for _, placed, partner in sorted(candidates, key=lambda candidate: candidate[0]):
        if placed.event.seq not in taken and partner.event.seq not in partners:
            taken.add(placed.event.seq)
            partners.add(partner.event.seq)
            pairs.append((placed, partner))
    _take_out(rest, others, pairs)
    return pairs


def _may_be_near(placed: Placed) -> bool:
    """Whether it has a reading and is no event of which a game has very many."""
    return placed.played is not None and placed.event.kind not in ("faceoff", "stoppage", "shot")


def _likeness(placed: Placed) -> Hashable:
    """All but the reading."""
    return placed.event.kind, placed.period, getattr(placed.event, "team", None), _details(placed.event)


def _take_out(rest: list[Placed], others: list[Placed], pairs: Sequence[Pair]) -> None:
    """Leave in both lists what is in none of `pairs`."""
    for index, places in enumerate((rest, others)):
        taken = {pair[index].event.seq for pair in pairs}
        places[:] = [placed for placed in places if placed.event.seq not in taken]


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
