"""What holds for the state of any game at any instant."""

from __future__ import annotations

import random

from hypothesis import given

from rinkfold.timeline.fold.invariants import check_state

from .richer import richer_logs
from .writing import WrittenGame, logs, often, replayed, seeds


@often(80)
@given(logs | richer_logs)
def test_no_state_after_an_event_is_impossible(log: WrittenGame) -> None:
    """3 to 5 skaters, 6 only with an empty net, two chains on the clock, no part in two places: after every event."""
    game = replayed(log)
    check_state(game.folded.opening, game.rules)
    for state in game.folded.states:
        check_state(state, game.rules)


@often(60)
@given(logs | richer_logs, seeds)
def test_no_state_between_events_is_impossible(log: WrittenGame, seed: int) -> None:
    """The same at any instant between, in stoppages as if play resumed, and past what is recorded."""
    game, rng = replayed(log), random.Random(seed)
    for _ in range(10):
        period = rng.randint(1, game.folded.last.period + 1)
        played = rng.randint(0, game.rules.period_length(period))
        check_state(game.folded.state_at(period, played), game.rules)
