"""When each person in the box may leave if nothing else happens.

The forecast is the fold itself, run on without events: play goes on, periods are played out, the horn is a stoppage.
A release that depends on a whistle nobody can foresee has no time.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from ..events import Team
from ..fold.changes import Change, Held, Returned
from ..fold.rulebook import AT_STOPPAGE, Rule
from ..fold.state import NEVER, ChainKey, GameState, Role, Side
from ..fold.step import advance, begin_next_period, play_resumed, sound_horn
from ..moment import Moment, moment_at
from ..rules import Ruleset

__all__ = ["Out", "Seat", "Way", "another_period_follows", "forecast"]

Way = Literal["on expiry", "at stoppage", "when a place opens"]
Seat = tuple[Team, ChainKey, Role]
"""Whose place in the box is meant: the side, the chain, and whether the player or a stand-in sits."""


@frozen
class Out:
    """When and how somebody may leave; no `at` where a whistle decides, or where the game is over first.

    Attributes:
        at: the moment.
        how: ``"on expiry"`` on the board, ``"at stoppage"``, or ``"when a place opens"``.
        rule: the rule that says so.
        time_up: when everything that this person serves is over; before it no whistle lets him out. None where it is
            over already, and where the game is over first.
    """

    at: Moment | None
    how: Way
    rule: Rule
    time_up: Moment | None = None


def forecast(state: GameState, rules: Ruleset) -> dict[Seat, Out]:
    """For each person sitting in `state` when and how he may leave, as far as it can be foreseen.

    Where play is stopped it goes on now; at the end of a period it goes on with the next one.
    """
    found: dict[Seat, Out] = {}
    held: dict[Seat, Moment | None] = {}
    if not state.in_play:
        going_on = _before_play_goes_on(state, rules)
        if going_on is None:
            return found
        state, changes = play_resumed(going_on, rules)
        for change in changes:
            _note(found, held, change, state, rules)
    for team, side in _sides(state):
        held.update({(team, sitter.key, sitter.role): None for sitter in (*side.held, *side.finished)})
    while state.ice.due < NEVER or any(side.held or side.finished for _, side in _sides(state)):
        horn = state.ice.period_start + max(rules.period_length(state.period), state.played)
        if state.ice.due <= horn:
            state, changes = advance(state, state.ice.due, rules)
        elif another_period_follows(state, rules):
            state, changes = sound_horn(state, horn, rules)
        else:
            _last_horn(found, held, state)
            break
        for change in changes:
            _note(found, held, change, state, rules)
    return found


def _before_play_goes_on(state: GameState, rules: Ruleset) -> GameState | None:
    """`state` in the stoppage in which play goes on: at a period's end with the next one, ``None`` if there is none."""
    if not state.ice.ended and state.played < rules.period_length(state.period):
        return state
    if another_period_follows(state, rules):
        return begin_next_period(state, state.period + 1, rules, played_out=True)
    return None


def _sides(state: GameState) -> tuple[tuple[Team, Side], tuple[Team, Side]]:
    return (("home", state.home), ("away", state.away))


def _last_horn(found: dict[Seat, Out], held: dict[Seat, Moment | None], state: GameState) -> None:
    """The last stoppage of a game releases like any other."""
    for team, side in _sides(state):
        for sitter in (*side.held, *side.finished):
            seat = (team, sitter.key, sitter.role)
            found.setdefault(seat, Out(None, "at stoppage", AT_STOPPAGE, held.get(seat)))


def another_period_follows(state: GameState, rules: Ruleset) -> bool:
    """Whether, as the score stands, the game goes on after this period."""
    overtimes = state.period - rules.game.periods
    if overtimes < 0:
        return True
    level = state.home.score == state.away.score
    return level and (rules.overtime.periods == 0 or overtimes < rules.overtime.periods)


def _note(
    found: dict[Seat, Out], held: dict[Seat, Moment | None], change: Change, state: GameState, rules: Ruleset
) -> None:
    """Write down when each person's time is up and his first return; who was held leaves because a place opens."""
    if not isinstance(change, Held | Returned):
        return
    seat = (change.team, change.key, change.role)
    at = moment_at(rules, change.period, change.at - state.ice.period_start)
    if isinstance(change, Held):
        held.setdefault(seat, at)
    elif seat not in found:
        found[seat] = _out(change, at, held, seat)


def _out(change: Returned, at: Moment, held: dict[Seat, Moment | None], seat: Seat) -> Out:
    """How this return comes about."""
    if change.how == "at stoppage":
        return Out(None, "at stoppage", change.rule, held.get(seat))
    if seat in held:
        return Out(at, "when a place opens", change.rule, held[seat])
    return Out(at, "on expiry", change.rule, at)
