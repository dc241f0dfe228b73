"""Play resumes: everything called since the whistle is settled together (section 5 of the penalty model)."""

from __future__ import annotations

from ..events import Team
from .chains import end_part, extended, new_chain, start, suspend, without_stand_in
from .changes import PartSetAside, PowerPlayCounted
from .draft import TEAMS, Draft, SideDraft, other
from .ejections import is_out
from .offsetting import Decision, PartId, decide
from .rulebook import EJECTION_ENDS, NEVER_SHORT, OFFSET, POWER_PLAY
from .slots import SLOTS, enter
from .state import Called, Chain, Part, Side

__all__ = ["free_the_penalized", "settle", "start_everything"]


def settle(draft: Draft) -> bool:
    """Offset what offsets, put the rest into chains, these into slots and queue; whether all of it runs already."""
    if not draft.calls:
        return True
    if _settled_alone(draft):
        return True
    decision = decide(draft)
    _count_power_plays(draft, decision)
    for team in TEAMS:
        own = [call for call in draft.calls if call.team == team]
        if not own:
            continue
        side = draft.side(team)
        entering = [
            chain
            for key in dict.fromkeys(call.key for call in own)
            if (chain := _take_in(draft, side, [call for call in own if call.key == key], decision)) is not None
        ]
        for chain in sorted(entering, key=_entering_order):
            enter(draft, side, chain)
    return False


def _settled_alone(draft: Draft) -> bool:
    """What one player who owes nothing was given, the commonest case, begins a chain if all of it goes on the clock."""
    first = draft.calls[0]
    rules = draft.rules
    if not rules.ice.plays_short:
        return False
    if draft.period > rules.game.periods and not draft.overtime_begun:  # equal pairs are looked for before time starts
        return False
    for call in draft.calls:
        if call.team != first.team or call.key != first.key or call.part.kind == "misconduct":
            return False
    side = draft.side(first.team)
    for chain in side.chains():
        if chain.key == first.key:
            return False
    given = tuple([call.part for call in draft.calls])
    chain = new_chain(first, is_out(side, first), draft.now, given)
    _tell_power_play(draft, other(first.team), len(chain.on_penalties))
    if len(side.slots) < SLOTS and not side.queue:
        side.slots.append(start(draft, side, chain))
    else:
        enter(draft, side, chain)
    return True


def _entering_order(chain: Chain) -> tuple[bool, int, int]:
    """Minors before majors by the part served first, else in order of assessment (NHL 26.3)."""
    first = chain.clock[0]
    return (not first.is_minor, first.place, first.index)


def start_everything(draft: Draft) -> None:
    """Start what stands first in each slot and off the clock and does not run yet."""
    for team in TEAMS:
        seen = draft.seen(team)
        for name in ("slots", "off"):
            for at, chain in enumerate(getattr(seen, name)):
                if chain.running is None:
                    side = draft.side(team)
                    getattr(side, name)[at] = start(draft, side, chain)


def free_the_penalized(draft: Draft) -> None:
    """Whoever is out of the game, or owes time himself, sits for nobody else: a team-mate not named does."""
    for team in TEAMS:
        seen = draft.seen(team)
        if not (seen.slots or seen.queue or seen.off) or not _names_stand_ins(seen):
            continue
        side = draft.side(team)
        for chains in (side.slots, side.queue, side.off):
            for at, chain in enumerate(chains):
                for name in chain.named_stand_ins():
                    if _is_busy(side, chain, name):
                        chains[at] = without_stand_in(chains[at], name)


def _names_stand_ins(seen: Side | SideDraft) -> bool:
    for chains in (seen.slots, seen.queue, seen.off):  # asked at each resumption: a generator costs more than the rest
        for chain in chains:
            if chain.names_stand_ins:
                return True
    return False


def _is_busy(side: SideDraft, chain: Chain, name: str) -> bool:
    if side.record(name).ejected_at is not None:
        return True
    return any(other.key == name and other is not chain for other in side.chains())


def _take_in(draft: Draft, side: SideDraft, calls: list[Called], decision: Decision) -> Chain | None:
    """Put what one player was given into a chain; the chain, if it has to be entered into a slot or the queue."""
    clock, offset, misconduct = _shares(draft, side, calls, decision)
    key = calls[0].key
    for chains in (side.slots, side.queue):
        for at, chain in enumerate(chains):
            if chain.key == key:
                chains[at] = suspend(draft, side, extended(chain, draft.now, clock, offset, misconduct))
                return None
    chain = _taken_from_off(draft, side, calls[0])
    longer = suspend(draft, side, extended(chain, draft.now, clock, offset, misconduct))
    if longer.clock:
        return longer
    if longer.off_the_clock:
        side.off.append(longer)
    return None


def _taken_from_off(draft: Draft, side: SideDraft, call: Called) -> Chain:
    """The chain that `call` goes on, taken from those off the clock, or a new one."""
    for chain in side.off:
        if chain.key == call.key:
            side.off.remove(chain)
            return chain
    return new_chain(call, is_out(side, call), draft.now)


def _shares(
    draft: Draft, side: SideDraft, calls: list[Called], decision: Decision
) -> tuple[list[Part], list[Part], list[Part]]:
    """What of `calls` goes on the clock, is offset, and is a misconduct; an ejected player owes only the first."""
    clock: list[Part] = []
    offset: list[Part] = []
    misconduct: list[Part] = []
    for call in calls:
        part = call.part
        if call.is_misconduct:
            misconduct.append(part)
        elif part.order in decision.offset:
            offset.append(part)
            _tell_set_aside(draft, side, part)
        elif part.order in decision.netted:
            share = decision.netted[part.order]
            clock.append(part._replace(length=share, left=share))
            offset.append(part._replace(length=part.length - share, left=part.length - share))
        else:
            clock.append(part._replace(lone=True) if part.order in decision.lone else part)
    if is_out(side, calls[0]):
        for part in offset + misconduct:
            end_part(draft, side, part, "ended by ejection", EJECTION_ENDS)
        return clock, [], []
    return clock, offset, misconduct


def _tell_set_aside(draft: Draft, side: SideDraft, part: Part) -> None:
    rule = OFFSET if draft.rules.ice.plays_short else NEVER_SHORT
    draft.changes.append(PartSetAside(draft.now, draft.period, draft.seq, rule, side.team, part.penalty, part.index))


def _count_power_plays(draft: Draft, decision: Decision) -> None:
    """One for each penalty that goes on the clock or into the queue, less the other side's; a lone pair counts none."""
    aside: frozenset[PartId] = decision.offset | decision.lone
    given: dict[Team, set[int]] = {"home": set(), "away": set()}
    for call in draft.calls:
        if call.part.kind != "misconduct" and call.part.order not in aside:
            given[call.team].add(call.part.penalty)
    difference = len(given["away"]) - len(given["home"])
    if difference:
        _tell_power_play(draft, "home" if difference > 0 else "away", abs(difference))


def _tell_power_play(draft: Draft, team: Team, count: int) -> None:
    draft.changes.append(PowerPlayCounted(draft.now, draft.period, draft.seq, POWER_PLAY, team, count))
