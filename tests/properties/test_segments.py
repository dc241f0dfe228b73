"""What holds for the stretches of one strength in any game, and for the answers at any instant within them."""

from __future__ import annotations

import random
from itertools import pairwise

from agreement.comparing import seeded
from attrs import evolve
from hypothesis import example, given

from rinkfold.timeline.events import Faceoff, GoalieChange, ObservedStrength, Stoppage
from rinkfold.timeline.fold.changes import PartEnded, PartStarted, StrengthChanged
from rinkfold.timeline.game import Game
from rinkfold.timeline.moment import moment_at
from rinkfold.timeline.views.strength import Strength

from .writing import WrittenGame, logs, often, replayed, seeds, with_inserted, written


@often(80)
@given(logs)
def test_segments_cover_all_played_time_once(log: WrittenGame) -> None:
    """No gap, no overlap, none of length zero, cut at period ends and wherever the strength changes, only there."""
    game = replayed(log)
    segments = game.strength_segments
    at = 0
    for segment in segments:
        assert at == segment.start < segment.end
        at = segment.end
    assert at == game.folded.last.now
    for span in game.periods:
        of_period = [segment for segment in segments if segment.period == span.period]
        assert bool(of_period) == (span.start < span.end)
        if of_period:
            assert (of_period[0].start, of_period[-1].end) == (span.start, span.end)
        for one, two in pairwise(of_period):
            assert one.strength != two.strength


@often(80)
@given(logs)
def test_skaters_number_three_to_five(log: WrittenGame) -> None:
    """3 to 5 skaters a side, 6 only with an empty net; one more than the penalties leave only with an empty net."""
    for segment in replayed(log).strength_segments:
        strength = segment.strength
        for skaters, goalie in ((strength.home, strength.home_goalie), (strength.away, strength.away_goalie)):
            assert 3 <= skaters <= 6
            assert skaters <= 5 or goalie is None
        assert not (strength.home_short and strength.away_short)


def scheduled(game: Game) -> set[int]:
    """The tenths at which a part ran out just when it was to."""
    ends: dict[tuple[int, int], int] = {}
    found: set[int] = set()
    for changes in game.changes:
        for change in changes:
            if isinstance(change, PartStarted):
                ends[change.penalty, change.index] = change.ends_at
            elif isinstance(change, PartEnded) and change.fate in {"served", "offset"}:
                found |= {change.at} & {ends.get((change.penalty, change.index))}
    return found


@often(80)
@given(logs)
def test_strength_changes_only_at_an_event_or_a_scheduled_expiry(log: WrittenGame) -> None:
    """Every change of the strength is at the reading of an event, at the start of a period, or where time runs out."""
    game = replayed(log)
    events = {state.now for state in game.folded.states} | {span.start for span in game.periods}
    expiries = scheduled(game)
    for segment in game.strength_segments:
        assert segment.start in events | expiries
    told = [change for changes in game.changes for change in changes if isinstance(change, StrengthChanged)]
    assert all(change.at in events | expiries for change in told)
    assert [change.at for change in told] == sorted(change.at for change in told)


def strength_at(game: Game, tenth: int) -> Strength:
    """The strength that the segments give for the tenth that begins at `tenth`."""
    return next(one.strength for one in game.strength_segments if one.start <= tenth < one.end)


def with_other_faceoffs(log: WrittenGame, rng: random.Random) -> WrittenGame:
    """`log` with faceoffs elsewhere, often under a running clock.

    Some are left out, those of openings above all; some stand in the place of stoppages, looks at the ice and goalie
    changes. So the first thing told of a period is often a faceoff at a later reading.
    """
    if rng.random() < 0.5:
        log = evolve(log, rules=evolve(log.rules, game=evolve(log.rules.game, clock="running")))
    without = [
        event.seq
        for before, event in pairwise(log.events)
        if event.kind == "faceoff" and rng.random() < (0.8 if before.period != event.period else 0.3)
    ]
    shorter, _ = with_inserted(log, {}, without=without)
    return shorter.with_events(
        Faceoff(seq=event.seq, period=event.period, clock=event.clock)
        if isinstance(event, ObservedStrength | Stoppage | GoalieChange) and rng.random() < 0.6
        else event
        for event in shorter.events
    )


@often(150)
@given(logs, seeds)
@example(written(seeded(1)), 1)
def test_an_instant_agrees_with_the_segments(log: WrittenGame, seed: int) -> None:
    """At any reading the strength is that of the segment which holds the reading or begins at it; what was `before`
    is that of the segment which ends at it or holds it."""
    rng = random.Random(seed)
    game = replayed(with_other_faceoffs(log, rng))
    cuts = [one.start for one in game.strength_segments]
    for span in game.periods:
        within = [cut for cut in cuts if span.start <= cut < span.end]
        tenths = rng.sample(within, min(4, len(within)))
        tenths += [rng.randrange(span.start, span.end) for _ in range(4) if span.end > span.start]
        for tenth in tenths:
            instant = game.at(moment_at(game.rules, span.period, tenth - span.start))
            assert instant.strength == strength_at(game, tenth) == game.strength_at(tenth)
            if tenth > 0:
                assert instant.before == strength_at(game, tenth - 1)
