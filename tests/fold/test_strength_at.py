"""Strength at a played tenth: looked up, and the same as what the game answers at the moment there."""

from __future__ import annotations

from pathlib import Path

import pytest

from rinkfold import rulesets
from rinkfold.timeline import Game, LiveGame, PenaltyAssessed, PeriodEnd, read_log, replay
from rinkfold.timeline.moment import moment_at

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"


@pytest.fixture(scope="module")
def game() -> Game:
    log = read_log(EXAMPLE)
    return replay(log, rulesets.of(log))


def test_every_second_of_the_example_game_agrees_with_the_moment_there(game: Game) -> None:
    """At each played second, and a tenth before and after it, it is the strength that `at` gives."""
    for span in game.periods:
        for second in range(span.start, span.end, 10):
            for tenth in (max(second - 1, span.start), second, second + 1):
                there = game.at(moment_at(game.rules, span.period, tenth - span.start))
                assert game.strength_at(tenth) == there.strength


def test_the_end_of_a_period_is_the_start_of_the_next(game: Game) -> None:
    """A tenth at which one period ends and the next begins belongs to the next."""
    starts = [span.start for span in game.periods[1:]]
    assert [game.strength_at(start) for start in starts] == [
        next(segment.strength for segment in game.strength_segments if segment.start == start) for start in starts
    ]


def test_after_a_game_that_is_over_it_is_the_last_strength(game: Game) -> None:
    """Nothing follows a decided game: the strength stays what it was."""
    assert game.strength_at(game.folded.last.now + 12_345) == game.now.strength


def short_handed() -> LiveGame:
    live = LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons")
    live.record(PenaltyAssessed(seq=0, period=1, clock="1:00", team="home", player="12", parts=("minor",)))
    return live


def test_ahead_of_the_record_it_is_what_follows_if_nothing_else_happens() -> None:
    """A minor called a minute before the end of a period is over a minute into the next."""
    game = short_handed().game
    called, length = game.folded.last.now, game.rules.game.period_length
    tenths = (called, length - 1, length, length + 599, length + 600, 2 * length)
    assert [game.strength_at(tenth).home for tenth in tenths] == [4, 4, 4, 4, 5, 5]


def test_a_period_that_was_cut_short_ends_where_it_did() -> None:
    """Tenths after a recorded end are tenths of the next period, whatever the board still showed."""
    live = short_handed()
    live.record(PeriodEnd(seq=0, period=1, clock="0:30"))
    game = live.game
    ended = game.folded.last.now
    assert [game.strength_at(ended + tenth).home for tenth in (0, 899, 900)] == [4, 4, 5]


def test_a_negative_tenth_is_refused() -> None:
    """Before the opening faceoff there is no strength; the error says what was expected."""
    with pytest.raises(ValueError, match="from 0 up, found -1"):
        short_handed().game.strength_at(-1)
