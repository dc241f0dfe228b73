"""Who sits in the box, as the checks ask for it: a number, and what it still has to serve."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ...fold.state import Chain, ChainKey, Side, Sitter

__all__ = ["Seat", "owes_time", "seat_of", "seats"]


@frozen
class Seat:
    """Somebody in the box.

    Attributes:
        who: the number, ``None`` for a team-mate not named.
        key: whose chain it is.
        penalties: those that are sat for.
        left: tenths still to serve; 0 for somebody who waits for a whistle or a place.
        in_slot: the time that runs leaves the side short.
    """

    who: str | None
    key: ChainKey
    penalties: tuple[int, ...]
    left: int
    in_slot: bool


def seats(side: Side, now: int) -> Iterator[Seat]:
    """Everybody of `side` who sits at the tenth `now`."""
    for chain in side.slots + side.queue:
        yield _on_the_clock(chain, now, in_slot=chain in side.slots)
        yield from _off_the_clock(chain, now)
    for chain in side.off:
        yield from _off_the_clock(chain, now)
    for sitter in side.held + side.finished:
        yield _seat(sitter, 0, in_slot=False)


def _on_the_clock(chain: Chain, now: int, *, in_slot: bool) -> Seat:
    left = sum(part.left_at(now) for part in chain.clock)
    sitter = chain.clock_sitter()
    served = tuple(dict.fromkeys((*sitter.penalties, *(part.penalty for part in chain.clock))))
    return Seat(sitter.who, chain.key, served, left, in_slot)


def _off_the_clock(chain: Chain, now: int) -> Iterator[Seat]:
    sitter = chain.off_sitter()
    if sitter is not None and chain.off_the_clock:
        yield _seat(sitter, sum(part.left_at(now) for part in chain.off_the_clock), in_slot=False)


def _seat(sitter: Sitter, left: int, *, in_slot: bool) -> Seat:
    return Seat(sitter.who, sitter.key, sitter.penalties, left, in_slot)


def seat_of(side: Side, number: str, now: int) -> Seat | None:
    """The place of the one who wears `number`, if he sits; that with the most time left."""
    return max((seat for seat in seats(side, now) if seat.who == number), key=lambda seat: seat.left, default=None)


def owes_time(side: Side, number: str, now: int) -> bool:
    """Whether a penalty of `number` is not finished."""
    return any(
        part.left_at(now) > 0
        for chain in side.chains()
        if chain.player == number
        for part in chain.clock + chain.off_the_clock
    )
