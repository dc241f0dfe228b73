"""The two places on the clock, the queue, and what happens when a place opens (section 4 of the penalty model)."""

from __future__ import annotations

from .chains import end_part, start
from .changes import Fate, How, Waits
from .draft import Draft, SideDraft, skaters_on_ice
from .release import hold, leave, time_off_the_clock_is_up
from .rulebook import HELD_LONGEST, ON_EXPIRY, TIME_STARTS, TWO_SLOTS, Rule
from .state import Chain, Sitter

__all__ = ["SLOTS", "clock_part_over", "enter", "move_up", "off_part_over", "set_skaters"]

SLOTS = 2
"""Penalties of a side that run at a time (NHL 26.1; IIHF 26; Hockey Canada 4.14)."""


def enter(draft: Draft, side: SideDraft, chain: Chain) -> None:
    """Put `chain` into a free slot, or at the end of the queue."""
    if len(side.slots) < SLOTS and not side.queue:
        side.slots.append(chain)
        return
    side.queue.append(chain)
    draft.changes.append(
        Waits(draft.now, draft.period, draft.seq, TWO_SLOTS, side.team, chain.key, chain.clock[0].penalty)
    )


def move_up(draft: Draft, side: SideDraft, rule: Rule = TIME_STARTS) -> bool:
    """Start the first chain of the queue in the slot that is free now; false if none waits."""
    if not side.queue:
        return False
    side.slots.append(start(draft, side, side.queue.pop(0), rule, at_stoppage=not draft.in_play))
    return True


def clock_part_over(
    draft: Draft,
    side: SideDraft,
    chain: Chain,
    fate: Fate,
    rule: Rule,
    seq: int | None = None,
    sitter: Sitter | None = None,
) -> None:
    """The part of `chain` that runs in a slot is over now: the next one starts, or the slot frees.

    `rule` is why it is over, and why what follows starts; `seq` the event behind it, if not the one at work;
    `sitter` who sat for it, if the chain no longer tells.
    """
    at = side.slots.index(chain)
    part, rest = chain.clock[0], chain.clock[1:]
    end_part(draft, side, part, fate, rule, seq)
    if rest:
        servers = chain.servers if part.server is None else (*chain.servers, part.server)
        following = chain._replace(clock=rest, servers=servers)
        side.slots[at] = start(draft, side, following, rule, at_stoppage=not draft.in_play and fate != "served")
        return
    leaving = sitter or chain.clock_sitter()
    del side.slots[at]
    if chain.off_the_clock:
        rested = chain._replace(clock=(), on_penalties=(), servers=())
        side.off.append(start(draft, side, rested, rule, at_stoppage=not draft.in_play and fate != "served"))
    _place_opens(draft, side, leaving, by_goal=fate == "ended by goal")


def _place_opens(draft: Draft, side: SideDraft, sitter: Sitter, *, by_goal: bool) -> None:
    """A slot is free and `sitter`'s time is up: who leaves, and who starts.

    Source: NHL 26.2; Hockey Canada 4.14.
    """
    taken = move_up(draft, side)
    if not draft.in_play or draft.period > draft.rules.game.periods:
        draft.settled = False  # the skaters go back to the formula when play resumes
    if not draft.in_play:
        how: How = "at stoppage" if taken or by_goal else "on expiry"
        leave(draft, side, sitter, how, ON_EXPIRY)
    elif taken:
        hold(draft, side, sitter)
    else:
        side.on_ice = min(side.on_ice + 1, draft.rules.ice.skaters)
        if side.held:
            hold(draft, side, sitter)
            leave(draft, side, side.held.pop(0), "on expiry", HELD_LONGEST)
        else:
            leave(draft, side, sitter, "on expiry", ON_EXPIRY)


def off_part_over(draft: Draft, side: SideDraft, chain: Chain, fate: Fate, rule: Rule) -> None:
    """The part of `chain` that runs off the clock is over now: the next one starts, or the person's time is up."""
    at = side.off.index(chain)
    end_part(draft, side, chain.off_the_clock[0], fate, rule)
    if chain.offset:
        rest = chain.with_parts((), chain.offset[1:], chain.misconduct)
    else:
        rest = chain.with_parts((), (), chain.misconduct[1:])
    if rest.off_the_clock:
        at_stoppage = not draft.in_play and fate == "ended by ruling"
        side.off[at] = start(draft, side, rest, rule, at_stoppage=at_stoppage)
        return
    del side.off[at]
    time_off_the_clock_is_up(draft, side, chain.off_sitter())


def set_skaters(draft: Draft) -> None:
    """Put the skaters on the ice that the chains on the clock leave each side."""
    home, away = draft.seen_home, draft.seen_away
    home_skaters, away_skaters = skaters_on_ice(draft.rules, draft.period, len(home.slots), len(away.slots))
    if home_skaters != home.on_ice:
        draft.home.on_ice = home_skaters
    if away_skaters != away.on_ice:
        draft.away.on_ice = away_skaters
