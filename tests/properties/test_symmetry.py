"""The same game told otherwise: home and away swapped, later in the period, on a board that counts up."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from agreement.comparing import RandomGame
from attrs import evolve
from hypothesis import assume, given
from hypothesis import strategies as st

from .answers import Answers, answers, box_rows, in_order, mirrored, shifted
from .writing import games, often, replayed, seeds, written

OTHER = {"home": "away", "away": "home"}


def swapped(game: RandomGame) -> RandomGame:
    """The game with home and away swapped."""
    events = tuple(
        (*row[:4], OTHER[row[4]], *row[5:]) if len(row) > 4 and row[4] in OTHER else row for row in game.events
    )
    keepers = {team: game.goalkeepers[other] for team, other in OTHER.items()}
    return evolve(game, goalkeepers=keepers, events=events)


@often(60)
@given(games)
def test_swapping_home_and_away_swaps_the_answer(game: RandomGame) -> None:
    """Nothing in the rules knows who is at home."""
    assert answers(replayed(written(swapped(game)))) == mirrored(answers(replayed(written(game))))


@often(60)
@given(games, seeds)
def test_counting_up_and_counting_down_agree(game: RandomGame, seed: int) -> None:
    """The same game read off a board that counts up has the same answers, at any instant too."""
    down, up = replayed(written(game, "remaining")), replayed(written(game, "elapsed"))
    assert answers(up) == answers(down)
    rng = random.Random(seed)
    for _ in range(5):
        period = rng.randint(1, down.folded.last.period + 1)
        tenth = down.folded._starts.get(period, 0) + rng.randint(0, down.rules.period_length(period))
        one, two = (game.at(game.folded.moment(period, tenth)) for game in (up, down))
        assert (one.strength, one.before) == (two.strength, two.before)
        assert in_order(box_rows(one)) == in_order(box_rows(two))


SHIFTED_LENGTH = 200_000
"""Tenths of a period in which no shifted game comes near the horn, nor near its last 5:00."""


def in_one_period(game: RandomGame, period: int, shift: int) -> RandomGame:
    """The first period of a game, without its end, `shift` tenths later in `period` of a game of long periods."""
    rows: list[Any] = []
    for row in game.events:
        if len(row) < 4 or row[2] > 1:
            break
        if row[0] != "period_end":
            rows.append((row[0], len(rows) + 2, period, row[3] + shift, *row[4:]))
    numbers = {
        old[1]: new[1] for old, new in zip((row for row in game.events if row[0] != "period_end"), rows, strict=False)
    }
    rows = [_pointing(row, lambda seq: numbers.get(seq, 0)) for row in rows]
    knobs = game.knobs | {"game.period_length": SHIFTED_LENGTH, "overtime.length": SHIFTED_LENGTH}
    return evolve(game, knobs=knobs, events=tuple(row for row in rows if row[0] != "ruling" or row[4]))


def _pointing(row: Any, number: Callable[[int], int]) -> Any:
    if row[0] == "goal":
        return (*row[:5], row[5] | {"ends": None if row[5]["ends"] is None else number(row[5]["ends"])})
    return (*row[:4], number(row[4])) if row[0] == "ruling" else row


def begins_at(found: Answers, period: int, played: int) -> Answers:
    """The answers with the stretch before `played` of `period`, and the time in net of it, left out."""
    segments = [dict(row) for row in found["segments"] if row["end"] > (period, played)]
    segments = [row | {"start": max(row["start"], type(row["start"])(period, played))} for row in segments]
    goalies = [row | {"time": 0} for row in found["goalies"]]
    return found | {"segments": in_order(segments), "goalies": in_order(goalies)}


@often(60)
@given(games, st.integers(0, 1), st.integers(1, 3000), st.integers(1, 20_000))
def test_shifting_a_sequence_in_its_period_shifts_the_answer(
    game: RandomGame, overtimes: int, first: int, more: int
) -> None:
    """The same sequence of events later in the same period, of regulation or in overtime, has the same answer that
    much later."""
    period = 1 if not overtimes else int(game.knobs["game.periods"]) + 1
    one, two = in_one_period(game, period, first), in_one_period(game, period, first + more)
    assume(one.events)
    early, late = answers(replayed(written(one))), answers(replayed(written(two)))
    assert begins_at(late, period, first + more) == shifted(begins_at(early, period, first), more)
