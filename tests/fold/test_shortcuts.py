"""The shortcuts of `step` save work and change nothing: with and without them a game is the same, change by change."""

from __future__ import annotations

import pytest
from agreement.bridge import folded
from agreement.comparing import seeded

from rinkfold.timeline.fold import step
from rinkfold.timeline.fold.changes import PlayResumed, PlayStopped


@pytest.mark.parametrize("seed", range(1000, 1040))
def test_with_and_without_shortcuts(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every change with its reason, and the tenth and the ice after every event."""
    game = seeded(seed)
    short = folded(game.knobs, game.goalkeepers, game.events)
    monkeypatch.setattr(step, "QUICK", {})
    monkeypatch.setattr(step, "CHANGES_NOTHING", frozenset())
    full = folded(game.knobs, game.goalkeepers, game.events)
    assert short.changes == full.changes
    assert [(state.now, state.in_play, state.whistle) for state in short.states] == [
        (state.now, state.in_play, state.whistle) for state in full.states
    ]
    assert short.segments == full.segments


def test_shortcuts_are_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Most games of those above have whistles and faceoffs that take the short way."""
    taken: set[int] = set()
    for seed in range(1000, 1040):
        for kind, quick in step.QUICK.items():

            def counted(*arguments: object, seed: int = seed, quick: object = quick) -> object:
                taken.add(seed)
                return quick(*arguments)  # type: ignore[operator]

            monkeypatch.setitem(step.QUICK, kind, counted)
        game = seeded(seed)
        folded(game.knobs, game.goalkeepers, game.events)
        monkeypatch.undo()
    assert len(taken) > 20


def test_play_stops_and_resumes_in_turn() -> None:
    """Whatever way an event takes, a whistle is told in play only, a resumption in a stoppage only."""
    told = 0
    for seed in range(1000, 1040):
        game = seeded(seed)
        in_play = False
        for change in folded(game.knobs, game.goalkeepers, game.events).all_changes():
            if isinstance(change, PlayStopped | PlayResumed):
                assert isinstance(change, PlayStopped) == in_play
                in_play = not in_play
                told += 1
    assert told > 1000
