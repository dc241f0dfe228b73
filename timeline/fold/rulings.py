"""An official ends a penalty before its time (section 8 of the penalty model)."""

from __future__ import annotations

from .chains import end_part, penalties_of, start, without_penalty
from .draft import Draft, SideDraft
from .release import restore_returns, time_off_the_clock_is_up
from .rulebook import RULING
from .slots import clock_part_over, off_part_over
from .state import Chain, Part

__all__ = ["rule_ended"]


def rule_ended(draft: Draft, side: SideDraft, penalty: int) -> None:
    """End every part of `penalty`, with the effect of running out now; what is not settled yet takes no part in it."""
    draft.settled = False
    for call in [call for call in draft.calls if call.part.penalty == penalty and call.team == side.team]:
        draft.calls.remove(call)
        end_part(draft, side, call.part, "ended by ruling", RULING)
        if call.player is not None:
            restore_returns(draft, side, call.player)
    for chain in side.chains():
        if any(part.penalty == penalty for part in chain.clock + chain.off_the_clock):
            _end_in_chain(draft, side, chain, penalty)


def _end_in_chain(draft: Draft, side: SideDraft, chain: Chain, penalty: int) -> None:
    """End the parts of `penalty` in `chain`: those that do not run first, then the one that does."""
    running = chain.running if chain not in side.queue else None
    shorter, taken = without_penalty(chain, penalty)
    off_is_over = bool(chain.clock) and bool(chain.off_the_clock) and not shorter.off_the_clock
    sits_on = bool(shorter.clock) and not shorter.needs_stand_in
    if off_is_over:
        on = penalties_of(shorter.clock) if sits_on else shorter.on_penalties
        shorter = shorter._replace(on_penalties=on, off_penalties=shorter.off_penalties if sits_on else ())
    for part in taken:
        if part is not running:
            end_part(draft, side, part, "ended by ruling", RULING)
    if running is not None and running.penalty == penalty:
        _end_running(draft, side, chain, shorter, running)
    else:
        _take_out(draft, side, chain, shorter)
    if off_is_over:
        time_off_the_clock_is_up(draft, side, chain.clock_sitter() if sits_on else chain.off_sitter())


def _end_running(draft: Draft, side: SideDraft, chain: Chain, shorter: Chain, running: Part) -> None:
    """End the part that runs, with what running out there brings."""
    if chain.clock:
        left = shorter._replace(clock=(running, *shorter.clock))
        side.slots[side.slots.index(chain)] = left
        clock_part_over(draft, side, left, "ended by ruling", RULING, sitter=chain.clock_sitter())
    else:
        if running in chain.offset:
            left = shorter.with_parts((), (running, *shorter.offset), shorter.misconduct)
        else:
            left = shorter.with_parts((), shorter.offset, (running, *shorter.misconduct))
        side.off[side.off.index(chain)] = left
        off_part_over(draft, side, left, "ended by ruling", RULING)


def _take_out(draft: Draft, side: SideDraft, chain: Chain, shorter: Chain) -> None:
    """Put `shorter` where `chain` is.

    A waiting chain with nothing left for the clock gives up its place in the queue.
    """
    if chain in side.queue and not shorter.clock:
        side.queue.remove(chain)
        rested = shorter._replace(on_penalties=(), servers=())
        if shorter.off_the_clock:
            side.off.append(start(draft, side, rested, RULING, at_stoppage=not draft.in_play))
        time_off_the_clock_is_up(draft, side, chain.clock_sitter())
        return
    for chains in (side.slots, side.queue, side.off):
        if chain in chains:
            chains[chains.index(chain)] = shorter
