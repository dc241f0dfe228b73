"""Play stops and resumes, periods begin and end, and what the board shows meanwhile (sections 1, 5 and 7)."""

from __future__ import annotations

from collections.abc import Mapping

from ..events import Team
from .chains import end_part, extended, penalties_of, stand_still
from .changes import GameEnded, PlayResumed, PlayStopped, StrengthChanged
from .draft import Draft, SideDraft
from .passing import pass_time
from .release import leave, release_at_whistle
from .rulebook import AT_STOPPAGE, EJECTION_ENDS, EQUAL_PAIR, GAME_OVER, RECORDED, WHISTLE_IMPLIED
from .settlement import free_the_penalized, settle, start_everything
from .slots import move_up, set_skaters
from .state import Chain, ChainKey, Sitter, merged, new

__all__ = [
    "begin_period",
    "end_game",
    "end_period",
    "go_to",
    "resume",
    "resumed",
    "set_running",
    "stop",
    "tell_strength",
]


def stop(draft: Draft, *, implied: bool) -> None:
    """The whistle; in a stoppage nothing changes."""
    if not draft.in_play:
        return
    draft.in_play = False
    draft.whistle = draft.now
    rule = WHISTLE_IMPLIED if implied else RECORDED
    draft.changes.append(new(PlayStopped, (draft.now, draft.period, draft.seq, rule, implied)))
    release_at_whistle(draft)


def resume(draft: Draft, *, assumed: bool = False, implied: bool = False) -> None:
    """Play resumes now."""
    if not draft.settled:
        _settle_everything(draft)
    draft.in_play = True
    draft.ended = False
    draft.goals = ()
    draft.opened = True
    draft.over = False
    rule = WHISTLE_IMPLIED if implied else RECORDED
    draft.changes.append(new(PlayResumed, (draft.now, draft.period, draft.seq, rule, assumed)))
    draft.report_strength()


def _settle_everything(draft: Draft) -> None:
    """Settle what was called, start what has to run, and put the skaters on the ice."""
    first_overtime = draft.period > draft.rules.game.periods and not draft.overtime_begun
    stand_ins = _seated_stand_ins(draft) if first_overtime else {}
    all_runs = settle(draft)
    if first_overtime:
        draft.overtime_begun = True
        _take_equal_pairs_off_the_clock(draft, stand_ins)
    free_the_penalized(draft)
    if first_overtime or not all_runs:
        start_everything(draft)
    draft.calls = []
    set_skaters(draft)
    draft.settled = True


def resumed(draft: Draft) -> Draft:
    """A copy of `draft` as it would be if play resumed now, with nothing told yet."""
    copy = Draft(draft.freeze(), draft.rules, draft.seq)
    resume(copy)
    return copy


def tell_strength(draft: Draft) -> None:
    """Report the strength; in a stoppage under a running clock the provisional one (section 1)."""
    if draft.in_play:
        draft.report_strength()
    elif draft.running:
        copy = resumed(draft)
        draft.strength = copy.strength
        draft.changes.extend(change for change in copy.changes if isinstance(change, StrengthChanged))


def go_to(draft: Draft, tenth: int, *, by_faceoff: bool) -> None:
    """Let the game reach `tenth`, where the next event happens.

    In a stoppage an event at another tenth means that play had resumed unseen at the whistle, but for the faceoff
    that ends a stoppage under a running clock.
    """
    if tenth <= draft.now:
        return
    if not draft.in_play and not (by_faceoff and draft.running and draft.opened):
        resume(draft, assumed=draft.running, implied=True)
    pass_time(draft, tenth, tell_strength)


def end_period(draft: Draft, *, implied: bool) -> None:
    """The horn: a stoppage."""
    stop(draft, implied=implied)
    draft.ended = True
    draft.settled = False
    if draft.period >= draft.rules.game.periods and draft.seen_home.score != draft.seen_away.score:
        end_game(draft)


def begin_period(draft: Draft, period: int) -> None:
    """Go on to `period`; a period that nobody ended is taken as played out, one without events adds no time."""
    if draft.used and not draft.ended:
        horn = draft.period_start + draft.rules.period_length(draft.period)
        if horn > draft.now:
            go_to(draft, horn, by_faceoff=False)
        end_period(draft, implied=True)
    stop(draft, implied=True)
    draft.settled = False
    draft.whistle = draft.now
    draft.period = period
    draft.period_start = draft.now
    draft.ended = False
    draft.used = False
    draft.opened = False
    set_running(draft)


def set_running(draft: Draft) -> None:
    """Whether the clock runs through stoppages, by rule or by the lead."""
    game = draft.rules.game
    by_lead = game.running_clock
    lead = abs(draft.seen_home.score - draft.seen_away.score)
    if game.clock == "running":
        draft.running = True
    else:
        starts = 0 < by_lead.starts_at_lead <= lead and draft.period >= by_lead.from_period
        draft.running = starts or (draft.running and lead >= by_lead.stops_below)


def end_game(draft: Draft) -> None:
    """The game is decided; what is unserved stays unserved."""
    if not draft.over:
        draft.over = True
        draft.settled = False
        draft.changes.append(GameEnded(draft.now, draft.period, draft.seq, GAME_OVER))


def _seated_stand_ins(draft: Draft) -> Mapping[tuple[Team, ChainKey], Sitter]:
    """Who sits in for whom, for the chains on the clock."""
    return {
        (side.team, chain.key): chain.clock_sitter()
        for side in (draft.home, draft.away)
        for chain in side.slots
        if chain.needs_stand_in
    }


def _take_equal_pairs_off_the_clock(draft: Draft, stand_ins: Mapping[tuple[Team, ChainKey], Sitter]) -> None:
    """Chains of both sides with the same time on the clock become offset time where the ruleset says so.

    `stand_ins` are those who sat in for somebody when the overtime began.
    """
    rules = draft.rules
    if rules.overtime.equal_pair != "off_the_clock" or rules.overtime.skaters >= rules.ice.skaters:
        return
    partners = sorted(draft.away.slots, key=_assessed)
    pairs: list[tuple[Chain, Chain]] = []
    for chain in sorted(draft.home.slots, key=_assessed):
        same = next((other for other in partners if _clock_left(draft, other) == _clock_left(draft, chain)), None)
        if same is not None:
            partners.remove(same)
            pairs.append((chain, same))
    for pair in pairs:
        for side, chain in zip((draft.home, draft.away), pair, strict=True):
            side.slots.remove(chain)
            _serve_off_the_clock(draft, side, chain, stand_ins.get((side.team, chain.key)))
            move_up(draft, side, EQUAL_PAIR)


def _serve_off_the_clock(draft: Draft, side: SideDraft, chain: Chain, stand_in: Sitter | None) -> None:
    """What is left of `chain` on the clock becomes offset time.

    The `stand_in` who sat for it leaves, unless it is a bench minor or nobody else sits for the goalkeeper; nobody
    serves it for an ejected player.
    """
    own = penalties_of(chain.clock) if stand_in else chain.on_penalties
    if chain.ejected:
        for part in chain.clock:
            end_part(draft, side, part, "ended by ejection", EJECTION_ENDS)
    else:
        parts = tuple(part.suspended(draft.now)._replace(lone=False) for part in chain.clock)
        penalties = merged(chain.off_penalties, own)
        rest = chain._replace(clock=(), offset=(), on_penalties=(), off_penalties=penalties, servers=())
        longer = extended(rest, draft.now, (), parts + chain.offset, ())
        running = chain.running
        if running is not None and running.order != longer.offset[0].order:
            stand_still(draft, side, running)
        side.off.append(longer)
    stays = chain.is_bench_minor or (chain.keeper and not chain.off_the_clock)
    if stand_in is not None and (chain.ejected or not stays):
        leave(draft, side, stand_in, "at stoppage", AT_STOPPAGE)


def _assessed(chain: Chain) -> tuple[int, int]:
    return chain.clock[0].assessed


def _clock_left(draft: Draft, chain: Chain) -> int:
    return sum(part.left_at(draft.now) for part in chain.clock)
