"""What is foretold to everybody in the box comes true when the game goes on without goals and penalties."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import NamedTuple

import pytest
from agreement.comparing import seeded
from hypothesis import example, given

from rinkfold.timeline.clock import parse_reading, played_in_period, reading_in_period
from rinkfold.timeline.events import Event, ObservedStrength, PeriodEnd
from rinkfold.timeline.fold.changes import Change, Held, PlayResumed, Returned
from rinkfold.timeline.fold.rulebook import GAME_OVER
from rinkfold.timeline.fold.state import GameState
from rinkfold.timeline.game import Game, Instant
from rinkfold.timeline.moment import Moment, moment_at
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.views.box import Sitting
from rinkfold.timeline.views.forecast import Out

from .writing import WrittenGame, logs, often, replayed, seeds, written

MOST_PERIODS = 40
"""More than any penalty of a random game lasts."""


class Asked(NamedTuple):
    """An instant of a log, and what the log then does when it goes on with nothing but played-out periods."""

    instant: Instant
    at_horn: bool
    following: list[Change]
    game: Game


def at_end_of(period: int, rules: Ruleset, seq: int) -> Event:
    """The horn of a period that is played out."""
    length = rules.period_length(period)
    return PeriodEnd(seq=seq, period=period, clock=reading_in_period(length, length, rules.game.reading))


def another_period(state: GameState, rules: Ruleset) -> bool:
    """Whether the game goes on after the period of `state`."""
    overtimes = state.period - rules.game.periods
    if overtimes < 0:
        return True
    level = state.home.score == state.away.score
    return level and (rules.overtime.periods == 0 or overtimes < rules.overtime.periods)


def asked(part: WrittenGame, moment: Moment) -> Asked:
    """`part` asked for `moment`, and played on from there."""
    game, rules = replayed(part), part.rules
    events = list(part.events)
    look = ObservedStrength(seq=len(events) + 1, period=moment.period, clock=moment.clock, home=5, away=5)
    events.append(look)
    state = replayed(part.with_events(events)).folded.last
    looked = len(events)
    period = moment.period
    if not state.ice.ended or state.in_play:
        events.append(at_end_of(period, rules, len(events) + 1))
    while another_period(state._replace(ice=state.ice._replace(period=period)), rules) and period < MOST_PERIODS:
        period += 1
        events.append(at_end_of(period, rules, len(events) + 1))
    longer = replayed(part.with_events(events))
    after_look = [
        change
        for one, changes in zip(longer.folded.placed, longer.changes, strict=True)
        for change in changes
        if one.event.seq > looked
    ]
    at_horn = not state.in_play and (state.ice.ended or state.played >= rules.period_length(state.period))
    if not state.in_play and not at_horn:
        resumed = next((at for at, change in enumerate(after_look) if isinstance(change, PlayResumed)), None)
        after_look = [] if resumed is None else after_look[resumed + 1 :]
    return Asked(game.at(moment), at_horn, after_look, longer)


def is_of(change: Returned | Held, sitting: Sitting) -> bool:
    """Whether the change is about the one who sits there."""
    return (change.team, change.role, change.who) == (
        sitting.team,
        sitting.role,
        sitting.sits,
    ) and sitting.penalty in change.penalties


def what_happens(place: int, one: Asked) -> Out:
    """How the fold lets out the one who sits at that place of the box.

    Of two team-mates not named who sit for one penalty of a goalkeeper, the one for the time on the clock goes first.
    """
    sitting = one.instant.box[place]
    twins = [_who(other) for other in one.instant.box[:place]].count(_who(sitting))
    held, time_up = sitting.state == "held", None
    for change in one.following:
        if not isinstance(change, Held | Returned) or not is_of(change, sitting):
            continue
        at = one.game.folded.moment_of(change)
        if isinstance(change, Held):
            held, time_up = True, at
            continue
        twins -= 1
        if twins >= 0:
            continue
        if change.how == "at stoppage":
            return Out(None, "at stoppage", change.rule, time_up)
        return Out(at, "when a place opens", change.rule, time_up) if held else Out(at, "on expiry", change.rule, at)
    return Out(None, "on expiry", GAME_OVER)


def _who(sitting: Sitting) -> tuple[object, ...]:
    return sitting.team, sitting.role, sitting.sits, sitting.penalty


def instants(log: WrittenGame, rng: random.Random) -> Iterator[Asked]:
    """A log that stops somewhere, asked for its last reading, for one that lies ahead, and for the next period."""
    for _ in range(3):
        part = log.with_events(log.events[: rng.randint(2, len(log.events))])
        game = replayed(part)
        last = game.folded.last
        if game.over or not game.folded.placed:
            continue
        moment = game.now.at
        yield asked(part, moment)
        length = game.rules.period_length(last.period)
        now = played_in_period(parse_reading(moment.clock), length, game.rules.game.reading)
        if not (last.ice.ended and not last.in_play) and now < length:
            yield asked(part, moment_at(game.rules, last.period, rng.randint(now, length - 1)))
        if another_period(last, game.rules):
            yield asked(part, moment_at(game.rules, last.period + 1, rng.choice((0, 0, 100, 250, 500))))


def two_for_a_goalkeeper(sitting: Sitting, one: Asked) -> bool:
    """Whether two team-mates sit for one goalkeeper's penalty."""
    keepers = {
        part.penalty
        for side in (one.instant.state.home, one.instant.state.away)
        for chain in side.chains()
        for part in chain.clock + chain.off_the_clock
        if chain.keeper and chain.clock and chain.off_the_clock
    }
    return sitting.penalty in keepers


@pytest.mark.parametrize("who", ["anybody", "two for a goalkeeper"])
@pytest.mark.parametrize("when", ["between horns", "at a horn"])
@often(30)
@given(log=logs, seed=seeds)
@example(log=written(seeded(11170)), seed=0)
@example(log=written(seeded(10241)), seed=0)
def test_what_the_box_foretells_comes_true(log: WrittenGame, seed: int, when: str, who: str) -> None:
    """Asked at any instant, in play, in a stoppage, after the horn or ahead of the record, the box says for everybody
    who sits when his time is up and when and how he leaves just as the game then goes on: when his time is over, at a
    whistle, when a place opens, or not before the game is over."""
    for one in instants(log, random.Random(seed)):
        if one.at_horn != (when == "at a horn"):
            continue
        for place, sitting in enumerate(one.instant.box):
            if two_for_a_goalkeeper(sitting, one) == (who == "two for a goalkeeper"):
                assert sitting.out == what_happens(place, one)


@often(60)
@given(logs)
def test_nobody_is_let_out_after_the_end(log: WrittenGame) -> None:
    """When the game is over nobody who still sits is told a time or a whistle; what he owes stays unserved."""
    game = replayed(log)
    if game.over:
        for sitting in game.now.box:
            assert sitting.out == Out(None, "on expiry", GAME_OVER)
