"""What holds for what any goal ends."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, frozen
from hypothesis import given

from rinkfold.timeline.events import Event, Goal, ObservedStrength, PenaltyAssessed, PenaltyShot, Team
from rinkfold.timeline.fold.changes import PartEnded, PlayResumed
from rinkfold.timeline.fold.rulebook import GOAL_OWN_MINOR, SWAP
from rinkfold.timeline.fold.state import GameState, Part
from rinkfold.timeline.fold.step import step
from rinkfold.timeline.game import Game
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.script import Placed

from .writing import WrittenGame, logs, often, replayed


@frozen
class Ended:
    """A part that a goal ended, and the states just before the event at which it did and before the last whistle."""

    change: PartEnded
    at_event: Event
    before: GameState
    whistle: GameState

    @property
    def minors(self) -> list[Part]:
        """What could be ended: the minors that ran before the whistle and still do, no halves of lone pairs."""
        ran = {chain.clock[0].order for chain in self.whistle.side(self.change.team).slots}
        parts = [chain.clock[0] for chain in self.before.side(self.change.team).slots]
        return [part for part in parts if part.is_minor and not part.lone and part.order in ran]


def ended_by_goals(game: Game) -> Iterator[Ended]:
    """Every part that a goal ended."""
    state = whistle = game.folded.opening
    for one, after, changes in zip(game.folded.placed, game.folded.states, game.changes, strict=True):
        before = just_before(state, one, game)
        whistle = before if before.in_play else whistle
        for change in changes:
            if isinstance(change, PartEnded) and change.fate == "ended by goal":
                yield Ended(change, one.event, before, whistle)
        state = after


def just_before(state: GameState, one: Placed, game: Game) -> GameState:
    """The state at the reading of an event, without the event: somebody only looks at the ice there."""
    look = ObservedStrength(seq=0, period=one.period, clock="0:00", home=5, away=5)
    return step(state, evolve(one, event=look), game.rules)[0]


def goals(game: Game) -> dict[int, Goal | PenaltyShot]:
    """Every goal by its `seq`."""
    return {one.event.seq: one.event for one in game.folded.placed if isinstance(one.event, Goal | PenaltyShot)}


def on_ice(state: GameState, team: Team) -> int:
    """Skaters that penalties leave a side."""
    return state.side(team).on_ice


def in_slot(state: GameState, change: PartEnded) -> Part | None:
    """The part that a goal ended, as it ran just before."""
    running = (chain.clock[0] for chain in state.side(change.team).slots)
    return next((part for part in running if part.order == (change.penalty, change.index)), None)


@often(80)
@given(logs)
def test_a_goal_ends_at_most_one_part(log: WrittenGame) -> None:
    """One goal ends at most one part, and washes out at most one, never both; one on a penalty shot or an awarded one
    ends none unless the rules say so."""
    game = replayed(log)
    by_goal: dict[int | None, int] = {}
    for one in ended_by_goals(game):
        by_goal[one.change.seq] = by_goal.get(one.change.seq, 0) + 1
    assert all(count == 1 for count in by_goal.values())
    rules = game.rules.goals
    for seq, goal in goals(game).items():
        if isinstance(goal, PenaltyShot):
            assert rules.penalty_shot_ends_minor or seq not in by_goal
        elif goal.awarded:
            assert rules.awarded_ends_minor or seq not in by_goal
    assert None not in by_goal
    assert rules.ends_minor != "none" or not by_goal


@often(80)
@given(logs)
def test_a_goal_ends_a_minor_of_the_short_handed_side(log: WrittenGame) -> None:
    """What a goal ends is a minor that ran, no half of a lone pair: of the side scored on, which was short-handed; or,
    under `swap`, of the level side whose call is served; or, where the rules say so, of the scorers, who were short."""
    game = replayed(log)
    for one in ended_by_goals(game):
        change = one.change
        goal = goals(game)[change.seq or 0]
        difference = on_ice(one.before, change.team) - on_ice(one.before, "away" if change.team == "home" else "home")
        assert in_slot(one.before, change) in one.minors
        if change.rule is SWAP:
            swapped(game, one)
            assert difference == 0
            assert goal.team != change.team
        elif change.rule is GOAL_OWN_MINOR:
            assert game.rules.goals.shorthanded_ends_own_minor
            assert goal.team == change.team
            assert difference < 0
        else:
            assert goal.team != change.team
            assert difference < 0
        assert one.at_event is goal or change.rule is SWAP


def swapped(game: Game, one: Ended) -> None:
    """The goal ended a running minor because a call of that side is served in full."""
    call = one.at_event
    assert game.rules.delayed_call.even == "swap"
    assert isinstance(call, PenaltyAssessed)
    assert call.delayed_call
    assert call.team == one.change.team
    life = next(life for life in game.penalties if life.penalty == call.seq)
    assert all(part.fate != "washed out" for part in life.parts)


@often(80)
@given(logs)
def test_the_minor_that_ends_is_the_one_the_rules_name(log: WrittenGame) -> None:
    """Of the minors that ran, the one with the least time left, or the one assessed first, as the rules say; what the
    captain chose counts only among equals."""
    game = replayed(log)
    for one in ended_by_goals(game):
        minors = one.minors
        ended = in_slot(one.before, one.change)
        assert ended is not None
        assert ended in minors
        now = one.before.now
        if game.rules.goals.ends_minor == "first_assessed":
            assert ended.order == min(part.order for part in minors)
        else:
            equals = [part for part in minors if part.left_at(now) == min(other.left_at(now) for other in minors)]
            goal = goals(game)[one.change.seq or 0]
            chosen = [part for part in equals if isinstance(goal, Goal) and part.penalty == goal.ends]
            assert ended.order == min(part.order for part in chosen or equals)


@often(80)
@given(logs)
def test_a_call_is_washed_out_only_by_a_goal_that_ends_nothing(log: WrittenGame) -> None:
    """A washed-out minor belongs to a delayed call on a side that was scored on at that stoppage, once for each goal;
    the last goal against it ended none of that side's minors."""
    game = replayed(log)
    washed: set[int] = set()
    last: dict[Team, int] = {}
    ended = {(one.change.seq, one.change.team) for one in ended_by_goals(game)}
    for one, state, changes in zip(game.folded.placed, game.folded.states, game.changes, strict=True):
        event = one.event
        if any(isinstance(change, PlayResumed) for change in changes):
            last = {}
        if isinstance(event, Goal | PenaltyShot) and can_end(event, game.rules):
            last["away" if event.team == "home" else "home"] = event.seq
        for change in changes:
            if isinstance(change, PartEnded) and change.fate == "washed out":
                assert isinstance(event, PenaltyAssessed)
                assert event.delayed_call
                goal = last[change.team]
                assert (goal, change.team) not in ended
                assert goal not in washed
                washed.add(goal)
        if state.in_play:
            last = {}


def can_end(goal: Goal | PenaltyShot, rules: Ruleset) -> bool:
    """Whether a goal touches penalties at all."""
    if isinstance(goal, PenaltyShot):
        return goal.result == "scored" and rules.goals.penalty_shot_ends_minor
    return not goal.awarded or rules.goals.awarded_ends_minor
