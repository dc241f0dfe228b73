"""Chains: the parts that one player owes, their order, and what runs (section 3 of the penalty model)."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import evolve

from .changes import Fate, PartEnded, PartStarted, PartSuspended
from .draft import Draft, SideDraft
from .rulebook import SUSPENDED, TIME_STARTS, Rule
from .state import Called, Chain, ChainKey, Part

__all__ = ["end_part", "extended", "new_chain", "start", "suspend", "without_penalty"]


def serving_order(part: Part) -> tuple[bool, bool, int, int]:
    """The begun part first, then majors and matches, then minors, each in order of assessment.

    Source: IIHF 2022/23 Table 14, example B1; NHL Official Rules 26.
    """
    return (not part.begun, part.is_minor, part.penalty, part.index)


def new_chain(call: Called, ejected: bool) -> Chain:
    """An empty chain for whoever `call` is on."""
    return Chain(call.key, call.player, call.keeper, ejected)


def extended(chain: Chain, clock: Iterable[Part], offset: Iterable[Part], misconduct: Iterable[Part]) -> Chain:
    """`chain` with new parts put in at their places."""
    clock, offset, misconduct = tuple(clock), tuple(offset), tuple(misconduct)
    return Chain(
        chain.key,
        chain.player,
        chain.keeper,
        chain.ejected,
        tuple(sorted(chain.clock + clock, key=serving_order)),
        tuple(sorted(chain.offset + offset, key=serving_order)),
        tuple(sorted(chain.misconduct + misconduct, key=serving_order)),
        _with_penalties(chain.on_penalties, clock),
        _with_penalties(chain.off_penalties, offset + misconduct),
    )


def _with_penalties(known: tuple[int, ...], parts: tuple[Part, ...]) -> tuple[int, ...]:
    return tuple(dict.fromkeys(known + tuple(part.penalty for part in parts)))


def start(draft: Draft, side: SideDraft, chain: Chain, rule: Rule = TIME_STARTS) -> Chain:
    """`chain` with its first part running from now on, if it does not run already."""
    for name in ("clock", "offset", "misconduct"):
        parts: tuple[Part, ...] = getattr(chain, name)
        if not parts:
            continue
        part = parts[0]
        if part.ends_at is not None:
            return chain
        started = part.started(draft.now)
        draft.changes.append(
            PartStarted(
                draft.now,
                draft.period,
                draft.seq,
                rule,
                side.team,
                part.penalty,
                part.index,
                name == "clock",
                draft.now + part.left,
            )
        )
        return evolve(chain, **{name: (started, *parts[1:])})
    return chain


def suspend(draft: Draft, side: SideDraft, chain: Chain) -> Chain:
    """`chain` with the part that ran off the clock standing still.

    Source: IIHF 2018-22, delayed penalties, situation 1.
    """
    for name in ("offset", "misconduct"):
        parts: tuple[Part, ...] = getattr(chain, name)
        if parts and parts[0].ends_at is not None:
            part = parts[0].suspended(draft.now)
            draft.changes.append(
                PartSuspended(
                    draft.now, draft.period, draft.seq, SUSPENDED, side.team, part.penalty, part.index, part.left
                )
            )
            return evolve(chain, **{name: (part, *parts[1:])})
    return chain


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
    taken = tuple(part for part in chain.clock + chain.offset + chain.misconduct if part.penalty == penalty)
    kept = [
        tuple(part for part in parts if part.penalty != penalty)
        for parts in (chain.clock, chain.offset, chain.misconduct)
    ]
    return evolve(chain, clock=kept[0], offset=kept[1], misconduct=kept[2]), taken


def key_of(seq: int, player: str | None, bench: bool, keeper: bool) -> ChainKey:
    """The key under which a part is served: the player's number, or a chain of its own.

    A bench minor, a penalty on a goalkeeper, and one whose player is not known are chains of their own (sections 2 and 3). A bench part
    of a goalkeeper's or unknown player's penalty must not share a chain with the rest, hence the negative key.
    """
    if bench:
        return -seq
    return seq if keeper or player is None else player
