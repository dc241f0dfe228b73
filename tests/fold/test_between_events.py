"""The state between events and beyond the last one, as the forecast goes on from it."""

from __future__ import annotations

from rinkfold.timeline.fold.changes import PartEnded, PlayResumed, PlayStopped
from rinkfold.timeline.fold.step import advance, begin_next_period, sound_horn

from .short_games import game_of

GAME = game_of("1 18:00 penalty home 4 minor", "1 18:00 faceoff", "1 17:00 stoppage")
LAST, RULES = GAME.folded.last, GAME.folded.rules


def test_advance_to_where_it_is() -> None:
    """Nothing happens, not even a faceoff."""
    assert advance(LAST, LAST.now, RULES) == (LAST, ())
    assert advance(LAST, LAST.now - 1, RULES) == (LAST, ())


def test_advance_resumes_play() -> None:
    """Play went on unseen, and the minor runs out."""
    state, changes = advance(LAST, LAST.now + 600, RULES)
    assert (state.now, state.in_play) == (2400, True)
    resumed, *rest = changes
    assert isinstance(resumed, PlayResumed)
    assert (resumed.at, resumed.assumed, resumed.rule.name) == (1800, False, "a whistle that nobody wrote")
    assert [(one.at, one.fate) for one in rest if isinstance(one, PartEnded)] == [(2400, "served")]


def test_advance_under_a_running_clock_assumes() -> None:
    """Nobody knows when play resumed."""
    game = game_of("1 18:00 faceoff", "1 17:00 stoppage", **{"game.clock": "running"})  # type: ignore[arg-type]
    _, changes = advance(game.folded.last, 1900, game.folded.rules)
    assert [one.assumed for one in changes if isinstance(one, PlayResumed)] == [True]


def test_the_horn_and_the_next_opening() -> None:
    """The period is played out, the horn is a whistle that nobody wrote, and play goes on in the next one."""
    playing, _ = advance(LAST, LAST.now + 1, RULES)
    state, changes = sound_horn(playing, 12000, RULES)
    assert (state.now, state.period, state.played, state.in_play) == (12000, 2, 0, True)
    whistles = [(one.at, one.implied) for one in changes if isinstance(one, PlayStopped)]
    assert whistles == [(12000, True)]
    assert [one.rule.name for one in changes if isinstance(one, PlayResumed)] == ["a whistle that nobody wrote"]
    again, _ = sound_horn(state, 24000, RULES)
    assert (again.now, again.period) == (24000, 3)


def test_the_next_period_with_and_without_time_played() -> None:
    """A period in which nothing was recorded is played or left out, as is asked."""
    state, _ = sound_horn(LAST, 12000, RULES)
    second = begin_next_period(LAST, 2, RULES, played_out=False)
    assert (second.now, second.period, second.in_play) == (12000, 2, False)
    assert begin_next_period(second, 3, RULES, played_out=True).now == 24000
    assert begin_next_period(second, 3, RULES, played_out=False).now == 12000
    assert begin_next_period(state, 3, RULES, played_out=False).now == 24000
