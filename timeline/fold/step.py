"""One event after another: the frozen state before, the frozen state after, and the changes between.

`step` is the fold. What an event does stands in one small function for each kind, found through `HANDLERS`; a kind
that is not listed there only lets time pass.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from ..events import (
    Event,
    Faceoff,
    Figures,
    GameClosed,
    GameOpened,
    Goal,
    GoalieChange,
    ObservedPlayer,
    ObservedStrength,
    PenaltyAssessed,
    PenaltyEnded,
    PenaltyShot,
    PeriodEnd,
    Remark,
    RosterChange,
    ShootoutAttempt,
    Shot,
    Stoppage,
    TeamSheet,
    Timeout,
)
from ..rules import Ruleset
from ..script.placed import Placed
from .calls import assess
from .changes import Change, GoalieChanged, PlayResumed, PlayStopped
from .draft import Draft, SideDraft
from .goals import score_goal
from .passing import pass_time
from .renumbering import renumber
from .rulebook import RECORDED, WHISTLE_IMPLIED
from .rulings import rule_ended
from .state import NEVER, GameState, Ice, Side, new
from .whistle import begin_period, end_game, end_period, go_to, resume, resumed, stop, tell_strength

__all__ = [
    "advance",
    "advance_in_stoppage",
    "begin",
    "begin_next_period",
    "if_play_resumed",
    "play_resumed",
    "sound_horn",
    "step",
]

TIMELESS = frozenset({Remark, Figures})
"""Kinds that let no time pass, whatever their reading."""

CHANGES_NOTHING = TIMELESS | {ObservedPlayer, ObservedStrength, Shot}
"""Kinds that change nothing in who plays and who sits, but that time passes."""


def begin(rules: Ruleset, header: GameOpened) -> GameState:
    """The state before the opening faceoff."""
    skaters = rules.ice.skaters
    ice = Ice(
        period=1,
        period_start=0,
        used=False,
        ended=False,
        running=rules.game.clock == "running",
        due=NEVER,
        home=Side(skaters, keepers=_keepers(header.home)),
        away=Side(skaters, keepers=_keepers(header.away)),
        strength=(-1, -1, "", ""),
    )
    return GameState(0, False, 0, ice)


def _keepers(team: TeamSheet) -> frozenset[str]:
    return frozenset(player.number for player in team.roster or () if player.position == "goalkeeper")


def step(state: GameState, placed: Placed, rules: Ruleset) -> tuple[GameState, tuple[Change, ...]]:
    """Fold one event that counts into `state`: the state after it, and what it changed, each with its reason."""
    ice = state.ice
    event = placed.event
    if placed.played is not None and placed.period == ice.period:
        tenth = ice.period_start + placed.played
        if tenth < ice.quiet and (state.in_play or tenth == state.now):
            quick = QUICK.get(type(event))
            if quick is not None:
                return quick(state, ice, tenth, event.seq)
        if tenth < ice.due and ice.opened and (state.in_play or tenth == state.now):
            if type(event) in TIMELESS:
                return state, ()
            draft = Draft(state, rules, event.seq)
            draft.now = tenth
            return _handled(draft, event)
    elif placed.period == ice.period and ice.used and type(event) in CHANGES_NOTHING:
        return state, ()
    draft = Draft(state, rules, event.seq)
    _let_time_pass(draft, placed)
    return _handled(draft, event)


def _handled(draft: Draft, event: Event) -> tuple[GameState, tuple[Change, ...]]:
    """What `event` does, its time having come."""
    handler = HANDLERS.get(type(event))
    if handler is not None:
        handler(draft, event)
    if handler is not _faceoff and (draft.in_play or draft.running):  # a faceoff has told it
        tell_strength(draft)
    return draft.freeze(), tuple(draft.changes)


def _let_time_pass(draft: Draft, placed: Placed) -> None:
    """Bring the game to the period and the tenth of the event."""
    kind = type(placed.event)
    if placed.period > draft.period:
        if kind is ShootoutAttempt:
            _play_out(draft)
            return
        begin_period(draft, placed.period)
    draft.used = True
    if placed.played is not None and kind not in TIMELESS:
        go_to(draft, draft.period_start + placed.played, by_faceoff=kind is Faceoff)


def _play_out(draft: Draft) -> None:
    """The shootout begins: a last period that nobody ended is taken as played out."""
    if not draft.ended and draft.used:
        go_to(draft, draft.period_start + draft.rules.period_length(draft.period), by_faceoff=False)
        end_period(draft, implied=True)


def advance(state: GameState, tenth: int, rules: Ruleset) -> tuple[GameState, tuple[Change, ...]]:
    """`state` at the played `tenth` if nothing else happens before it; play resumes if it is stopped earlier."""
    if tenth <= state.now:
        return state, ()
    draft = Draft(state, rules, None)
    if not draft.in_play:
        resume(draft, assumed=draft.running, implied=True)
    pass_time(draft, tenth, tell_strength)
    return draft.freeze(), tuple(draft.changes)


def advance_in_stoppage(state: GameState, tenth: int, rules: Ruleset) -> GameState:
    """`state`, in a stoppage under a running clock, at the played `tenth` before the faceoff."""
    draft = Draft(state, rules, None)
    pass_time(draft, tenth, tell_strength)
    return draft.freeze()


def if_play_resumed(state: GameState, rules: Ruleset) -> GameState:
    """`state` as it would be if play resumed now; in play, the state itself."""
    return state if state.in_play else play_resumed(state, rules)[0]


def play_resumed(state: GameState, rules: Ruleset) -> tuple[GameState, tuple[Change, ...]]:
    """`state` when play resumes now, and what that changes."""
    draft = resumed(Draft(state, rules, None))
    return draft.freeze(), tuple(draft.changes)


def _faceoff(draft: Draft, event: Faceoff) -> None:
    if draft.in_play:
        stop(draft, implied=True)
    resume(draft)


def _stoppage(draft: Draft, event: Stoppage) -> None:
    stop(draft, implied=False)


def _goal(draft: Draft, event: Goal) -> None:
    score_goal(draft, event.team, event)


def _penalty_ended(draft: Draft, event: PenaltyEnded) -> None:
    if event.cause == "ruling":
        rule_ended(draft, draft.side(event.team), event.penalty)


def _penalty_shot(draft: Draft, event: PenaltyShot) -> None:
    stop(draft, implied=True)
    if event.result == "scored":
        score_goal(draft, event.team, None)


def _timeout(draft: Draft, event: Timeout) -> None:
    stop(draft, implied=True)


def _period_end(draft: Draft, event: PeriodEnd) -> None:
    end_period(draft, implied=False)


def _shootout_attempt(draft: Draft, event: ShootoutAttempt) -> None:
    stop(draft, implied=True)


def _goalie_change(draft: Draft, event: GoalieChange) -> None:
    side = draft.side(event.team)
    side.goalie = event.goalie
    draft.settled = draft.settled and draft.in_play  # in a stoppage the strength is told when play resumes
    if event.goalie is not None:
        side.keepers = side.keepers | {event.goalie}
    draft.changes.append(GoalieChanged(draft.now, draft.period, draft.seq, RECORDED, event.team, event.goalie))


def _roster_change(draft: Draft, event: RosterChange) -> None:
    side: SideDraft = draft.side(event.team)
    if event.position == "goalkeeper":
        side.keepers = side.keepers | {event.number}
    if event.was is not None:
        renumber(draft, side, event.was, event.number)


def _game_closed(draft: Draft, event: GameClosed) -> None:
    draft.closed = True
    draft.settled = False
    end_game(draft)


def _quick_faceoff(state: GameState, ice: Ice, tenth: int, seq: int) -> tuple[GameState, tuple[Change, ...]]:
    resumption = new(PlayResumed, (tenth, ice.period, seq, RECORDED, False))
    if not state.in_play:
        return new(GameState, (tenth, True, state.whistle, ice)), (resumption,)
    whistle = new(PlayStopped, (tenth, ice.period, seq, WHISTLE_IMPLIED, True))
    return new(GameState, (tenth, True, tenth, ice)), (whistle, resumption)


def _quick_stoppage(state: GameState, ice: Ice, tenth: int, seq: int) -> tuple[GameState, tuple[Change, ...]]:
    if not state.in_play:
        return state, ()
    whistle = new(PlayStopped, (tenth, ice.period, seq, RECORDED, False))
    return new(GameState, (tenth, False, tenth, ice)), (whistle,)


def _quick_time(state: GameState, ice: Ice, tenth: int, seq: int) -> tuple[GameState, tuple[Change, ...]]:
    return new(GameState, (tenth, state.in_play, state.whistle, ice)), ()


def _quick_nothing(state: GameState, ice: Ice, tenth: int, seq: int) -> tuple[GameState, tuple[Change, ...]]:
    return state, ()


QUICK: Mapping[type[Any], Callable[[GameState, Ice, int, int], tuple[GameState, tuple[Change, ...]]]] = {
    Faceoff: _quick_faceoff,
    Stoppage: _quick_stoppage,
    **dict.fromkeys(CHANGES_NOTHING, _quick_time),
    **dict.fromkeys(TIMELESS, _quick_nothing),
}
"""What most whistles, faceoffs and shots come to: nothing but play going on or not. Taken where the state says that
it is `quiet`; the result is that of the full way (a test compares them)."""

HANDLERS: Mapping[type[Any], Callable[[Draft, Any], None]] = {
    Faceoff: _faceoff,
    Stoppage: _stoppage,
    Goal: _goal,
    PenaltyAssessed: assess,
    PenaltyEnded: _penalty_ended,
    PenaltyShot: _penalty_shot,
    Timeout: _timeout,
    PeriodEnd: _period_end,
    ShootoutAttempt: _shootout_attempt,
    GoalieChange: _goalie_change,
    RosterChange: _roster_change,
    GameClosed: _game_closed,
}


def sound_horn(state: GameState, horn: int, rules: Ruleset) -> tuple[GameState, tuple[Change, ...]]:
    """`state` when its period is played out at the tenth `horn` and play has resumed in the next one."""
    draft = Draft(state, rules, None)
    pass_time(draft, horn, tell_strength)
    draft.used = True
    begin_period(draft, draft.period + 1)
    resume(draft, implied=True)
    draft.used = True
    return draft.freeze(), tuple(draft.changes)


def begin_next_period(state: GameState, period: int, rules: Ruleset, *, played_out: bool) -> GameState:
    """`state` when `period` begins; `played_out` if a period in which nothing was recorded is played all the same."""
    draft = Draft(state, rules, None)
    if played_out:
        draft.used = True
    begin_period(draft, period)
    return draft.freeze()
