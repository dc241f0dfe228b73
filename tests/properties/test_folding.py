"""Folding event by event, from a snapshot, all at once, and by the long way agree."""

from __future__ import annotations

import pickle
import random
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import given

from rinkfold.timeline.fold import settlement, step
from rinkfold.timeline.fold.changes import Change
from rinkfold.timeline.fold.state import GameState, Side
from rinkfold.timeline.game import Game
from rinkfold.timeline.live import LiveGame

from .answers import answers
from .writing import WrittenGame, logs, often, replayed, seeds


@often(30)
@given(logs)
def test_event_by_event_and_all_at_once_agree(log: WrittenGame) -> None:
    """A live game that is told one event after another answers after each as the log up to there does."""
    live = LiveGame(log.events[:1], log.rules)
    for count, event in enumerate(log.events[1:], 2):
        live.record(event)
        whole = replayed(log.with_events(log.events[:count]))
        assert live.game.folded.states == whole.folded.states
        assert live.game.changes == whole.changes
    assert answers(live.game) == answers(replayed(log))


def snapshot(state: GameState) -> GameState:
    """A copy of `state` that shares nothing with it, as if it had been stored and read again."""
    ice = state.ice
    plain = [side._replace(records=dict(side.records)) for side in (ice.home, ice.away)]
    stored = pickle.dumps(state._replace(ice=ice._replace(home=plain[0], away=plain[1])))
    again: GameState = pickle.loads(stored)
    return again._replace(ice=again.ice._replace(home=_sealed(again.home), away=_sealed(again.away)))


def _sealed(side: Side) -> Side:
    return side._replace(records=MappingProxyType(dict(side.records)))


@often(60)
@given(logs, seeds)
def test_folding_from_a_snapshot_agrees(log: WrittenGame, seed: int) -> None:
    """What follows depends on the state alone: from any state stored and read again the fold goes on as it did, and
    nothing that follows changes a state that was kept."""
    game, rng = replayed(log).folded, random.Random(seed)
    before = [repr(state) for state in game.states]
    for _ in range(3):
        at = rng.randrange(len(game.states)) if game.states else 0
        state = snapshot(game.states[at]) if game.states else game.opening
        for one, kept, changes in list(zip(game.placed, game.states, game.changes, strict=True))[at + 1 :]:
            state, changed = step.step(state, one, game.rules)
            assert state == kept
            assert changed == changes
    assert [repr(state) for state in game.states] == before


def told(game: Game) -> tuple[tuple[GameState, ...], tuple[tuple[Change, ...], ...]]:
    """Every state and every change."""
    return game.folded.states, game.changes


@often(80)
@given(logs)
def test_the_short_way_is_the_long_way(log: WrittenGame) -> None:
    """Whistles, faceoffs and single calls that take a short way have the states and changes of the full one."""
    short = told(replayed(log))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(step, "QUICK", {})
        patch.setattr(step, "CHANGES_NOTHING", frozenset())
        patch.setattr(settlement, "_settled_alone", lambda *_: False)
        long = told(replayed(log))
    assert long == short


def as_if_unsettled(state: GameState) -> GameState:
    """The state without what it remembers of being settled."""
    return state._replace(ice=state.ice._replace(settled=False, quiet=0))


@often(80)
@given(logs)
def test_what_is_settled_stays_settled(log: WrittenGame) -> None:
    """Settling anew at every faceoff what the state calls settled changes nothing and tells nothing."""
    game = replayed(log).folded
    before = game.opening
    for one, state, changes in zip(game.placed, game.states, game.changes, strict=True):
        after, changed = step.step(as_if_unsettled(before), one, game.rules)
        assert as_if_unsettled(after) == as_if_unsettled(state)
        assert changed == changes
        before = state


@often(30)
@given(logs, seeds)
def test_a_query_changes_nothing(log: WrittenGame, seed: int) -> None:
    """A game that was asked anything gives the same answers as one that was not."""
    game, rng = replayed(log), random.Random(seed)
    for _ in range(5):
        period = rng.randint(1, game.folded.last.period + 1)
        played = rng.randint(0, game.rules.period_length(period))
        instant: Any = game.at(game.folded.moment(period, game.folded._starts.get(period, 0) + played))
        assert instant.box == game.at(instant.at).box
    assert told(game) == told(replayed(log))
    assert answers(game) == answers(replayed(log))
