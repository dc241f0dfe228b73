"""Play stops and resumes, periods begin and end, and what the board shows meanwhile (sections 1, 5 and 7)."""

from __future__ import annotations

from attrs import evolve

from .chains import end_part
from .changes import GameEnded, PlayResumed, PlayStopped, StrengthChanged
from .draft import Draft, SideDraft
from .passing import pass_time
from .release import leave, release_at_whistle
from .rulebook import AT_STOPPAGE, EJECTION_ENDS, EQUAL_PAIR, GAME_OVER, RECORDED, WHISTLE_IMPLIED
from .settlement import free_the_penalized, settle, start_everything
from .slots import move_up, set_skaters
from .state import Chain, merged

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
    draft.changes.append(PlayStopped(draft.now, draft.period, draft.seq, rule, implied))
    release_at_whistle(draft)


def resume(draft: Draft, *, assumed: bool = False, implied: bool = False) -> None:
    """Play resumes now: settle what was called, start what has to run, and put the skaters on the ice."""
    settle(draft)
    free_the_penalized(draft)
    if draft.period > draft.rules.game.periods and not draft.overtime_begun:
        draft.overtime_begun = True
        _take_equal_pairs_off_the_clock(draft)
    start_everything(draft)
    set_skaters(draft)
    draft.in_play = True
    draft.ended = False
    draft.goals = ()
    draft.opened = True
    draft.over = False
    rule = WHISTLE_IMPLIED if implied else RECORDED
    draft.changes.append(PlayResumed(draft.now, draft.period, draft.seq, rule, assumed))
    draft.report_strength()


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

    In a stoppage an event at another tenth means that play had resumed unseen at the whistle, but for the faceoff that ends a
    stoppage under a running clock.
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
    if draft.period >= draft.rules.game.periods and draft.home.score != draft.away.score:
        end_game(draft)


def begin_period(draft: Draft, period: int) -> None:
    """Go on to `period`; a period that nobody ended is taken as played out, one without events adds no time."""
    if draft.used and not draft.ended:
        horn = draft.period_start + draft.rules.period_length(draft.period)
        if horn > draft.now:
            go_to(draft, horn, by_faceoff=False)
        end_period(draft, implied=True)
    stop(draft, implied=True)
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
    lead = abs(draft.home.score - draft.away.score)
    if game.clock == "running":
        draft.running = True
    else:
        starts = 0 < by_lead.starts_at_lead <= lead and draft.period >= by_lead.from_period
        draft.running = starts or (draft.running and lead >= by_lead.stops_below)


def end_game(draft: Draft) -> None:
    """The game is decided; what is unserved stays unserved."""
    if not draft.over:
        draft.over = True
        draft.changes.append(GameEnded(draft.now, draft.period, draft.seq, GAME_OVER))


def _take_equal_pairs_off_the_clock(draft: Draft) -> None:
    """Chains of both sides with the same time on the clock become offset time where the ruleset says so."""
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
            _serve_off_the_clock(draft, side, chain)
            move_up(draft, side, EQUAL_PAIR)


def _serve_off_the_clock(draft: Draft, side: SideDraft, chain: Chain) -> None:
    """What is left of `chain` on the clock becomes offset time; a stand-in for it leaves, nobody serves it for an ejected player."""
    sitter = chain.clock_sitter()
    sat = chain.running is not None  # what is entered at this stoppage has not started yet
    penalties = merged(chain.off_penalties, chain.on_penalties)
    if chain.ejected:
        for part in chain.clock:
            end_part(draft, side, part, "ended by ejection", EJECTION_ENDS)
        if sat:
            leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)
        return
    parts = tuple(evolve(part.suspended(draft.now), lone=False) for part in chain.clock)
    second = bool(chain.off_the_clock)
    side.off.append(
        evolve(chain, clock=(), offset=parts + chain.offset, on_penalties=(), off_penalties=penalties, servers=())
    )
    if sat and sitter.role == "stand-in" and not chain.is_bench_minor and (second or not chain.keeper):
        leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)


def _assessed(chain: Chain) -> tuple[int, int]:
    return chain.clock[0].order


def _clock_left(draft: Draft, chain: Chain) -> int:
    return sum(part.left_at(draft.now) for part in chain.clock)
