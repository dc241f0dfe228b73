"""Chains: the parts that one player owes, their order, and what runs (section 3 of the penalty model)."""

from __future__ import annotations

from collections.abc import Iterable

from .changes import Fate, PartEnded, PartStarted, PartSuspended
from .draft import Draft, SideDraft
from .rulebook import SUSPENDED, TIME_STARTS, Rule
from .state import Called, Chain, ChainKey, Part, merged

__all__ = [
    "end_part",
    "extended",
    "key_of",
    "new_chain",
    "penalties_of",
    "stand_still",
    "start",
    "suspend",
    "without_penalty",
    "without_stand_in",
]


def serving_order(part: Part, now: int) -> tuple[bool, bool, int, int]:
    """The part begun by `now` first, then majors and matches, then minors, each in order of assessment.

    Source: IIHF 2022/23 Table 14, example B1; NHL Official Rules 26.
    """
    return (not part.has_begun(now), part.is_minor, part.place, part.index)


def new_chain(call: Called, ejected: bool, now: int, clock: tuple[Part, ...] = ()) -> Chain:
    """A chain for whoever `call` is on, with these parts on the clock."""
    return Chain(call.key, call.player, call.keeper, ejected, _in_order(clock, now), (), (), penalties_of(clock))


def extended(
    chain: Chain, now: int, clock: Iterable[Part], offset: Iterable[Part], misconduct: Iterable[Part]
) -> Chain:
    """`chain` with new parts put in at their places.

    A player who sat alone for time on the clock, and for whom a stand-in takes it over now, has sat for those
    penalties too.
    """
    clock, offset, misconduct = tuple(clock), tuple(offset), tuple(misconduct)
    if chain.keeper and clock:  # the one named sits for the clock, somebody not named for the rest
        offset, misconduct = (tuple(part._replace(server=None) for part in parts) for parts in (offset, misconduct))
    longer = Chain(
        chain.key,
        chain.player,
        chain.keeper,
        chain.ejected,
        _in_order(chain.clock + clock, now),
        _in_order(chain.offset + offset, now),
        tuple(sorted(chain.misconduct + misconduct, key=_assessed)) if misconduct else chain.misconduct,
        merged(chain.on_penalties, penalties_of(clock)),
        merged(chain.off_penalties, penalties_of(offset + misconduct)),
        chain.servers,
    )
    if chain.clock and not chain.needs_stand_in and longer.needs_stand_in and not longer.ejected:
        sat_for = merged(longer.off_penalties, chain.on_penalties) if longer.off_the_clock else ()
        return longer._replace(on_penalties=penalties_of(longer.clock), off_penalties=sat_for)
    return longer


def penalties_of(parts: tuple[Part, ...]) -> tuple[int, ...]:
    """The penalties that `parts` are of."""
    return merged((), tuple([part.penalty for part in parts])) if parts else ()


def _assessed(part: Part) -> tuple[int, int]:
    return part.assessed


def _in_order(parts: tuple[Part, ...], now: int) -> tuple[Part, ...]:
    if len(parts) < 2:
        return parts
    return tuple(sorted(parts, key=lambda part: serving_order(part, now)))


def start(draft: Draft, side: SideDraft, chain: Chain, rule: Rule = TIME_STARTS, *, at_stoppage: bool = False) -> Chain:
    """`chain`, of which nothing runs, with its first part running from now on.

    `at_stoppage` if a goal, a ruling or a freed slot starts it in a stoppage, so that it has begun at once.
    """
    clock, offset, misconduct = chain.clock, chain.offset, chain.misconduct
    first = (clock or offset or misconduct)[0]
    started = first.started(draft.now, at_stoppage)
    draft.changes.append(
        PartStarted(
            draft.now,
            draft.period,
            draft.seq,
            rule,
            side.team,
            first.penalty,
            first.index,
            bool(clock),
            draft.now + first.left,
        )
    )
    if clock:
        return chain.with_parts((started, *clock[1:]), offset, misconduct)
    if offset:
        return chain.with_parts(clock, (started, *offset[1:]), misconduct)
    return chain.with_parts(clock, offset, (started, *misconduct[1:]))


def suspend(draft: Draft, side: SideDraft, chain: Chain) -> Chain:
    """`chain` with everything that runs and does not stand first standing still.

    Source: IIHF 2018-22, delayed penalties, situation 1.
    """
    everything = chain.clock + chain.offset + chain.misconduct
    if all(part.ends_at is None for part in everything[1:]):
        return chain
    first = everything[0]
    clock, offset, misconduct = (
        tuple(part if part is first else stand_still(draft, side, part) for part in parts)
        for parts in (chain.clock, chain.offset, chain.misconduct)
    )
    return chain.with_parts(clock, offset, misconduct)


def stand_still(draft: Draft, side: SideDraft, part: Part) -> Part:
    """`part` standing still from now on, told if it ran."""
    if part.ends_at is None:
        return part
    still = part.suspended(draft.now)
    draft.changes.append(
        PartSuspended(
            draft.now,
            draft.period,
            draft.seq,
            SUSPENDED,
            side.team,
            part.penalty,
            part.index,
            still.left,
            still.begun,
        )
    )
    return still


def end_part(draft: Draft, side: SideDraft, part: Part, fate: Fate, rule: Rule, seq: int | None = None) -> None:
    """Tell that `part` is over now."""
    draft.changes.append(
        PartEnded(
            draft.now,
            draft.period,
            draft.seq if seq is None else seq,
            rule,
            side.team,
            part.penalty,
            part.index,
            fate,
            part.served_at(draft.now),
        )
    )


def without_penalty(chain: Chain, penalty: int) -> tuple[Chain, tuple[Part, ...]]:
    """`chain` without the parts of the penalty with this `seq`, and the parts taken out."""
    taken = tuple(part for part in chain.clock + chain.off_the_clock if part.penalty == penalty)
    clock, offset, misconduct = (
        tuple(part for part in parts if part.penalty != penalty)
        for parts in (chain.clock, chain.offset, chain.misconduct)
    )
    asked = [part.server for part in chain.clock if part.penalty == penalty and part.server is not None]
    if asked and chain.stand_in:
        asked.insert(0, chain.stand_in)
    shorter = chain._replace(clock=clock, offset=offset, misconduct=misconduct, servers=(*chain.servers, *asked))
    return shorter, taken


def without_stand_in(chain: Chain, player: str) -> Chain:
    """`chain` with `player` no longer named as the one who sits for it."""
    clock, offset, misconduct = (
        tuple(part._replace(server="") if part.server == player else part for part in parts)
        for parts in (chain.clock, chain.offset, chain.misconduct)
    )
    servers = tuple("" if server == player else server for server in chain.servers)
    return chain._replace(clock=clock, offset=offset, misconduct=misconduct, servers=servers)


def key_of(seq: int, player: str | None, bench: bool, keeper: bool) -> ChainKey:
    """The key under which a part is served: the player's number, or a chain of its own.

    A bench minor, a penalty on a goalkeeper, and one whose player is not known are chains of their own (sections 2
    and 3). A bench part of a goalkeeper's or unknown player's penalty must not share a chain with the rest, hence
    the negative key.
    """
    if bench:
        return -seq
    return seq if keeper or player is None else player
