"""What holds for the stretches of one strength in any game, and for the answers at any instant within them."""

from __future__ import annotations

import random

from hypothesis import given, settings

from rinkfold.timeline.fold.changes import PartEnded, PartStarted, StrengthChanged
from rinkfold.timeline.game import Game
from rinkfold.timeline.moment import moment_at
from rinkfold.timeline.views.strength import Strength

from .writing import WrittenGame, logs, replayed, seeds


@settings(max_examples=150, deadline=None)
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
        for one, two in zip(of_period, of_period[1:], strict=False):
            assert one.strength != two.strength


@settings(max_examples=150, deadline=None)
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


@settings(max_examples=150, deadline=None)
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


@settings(max_examples=120, deadline=None)
@given(logs, seeds)
def test_an_instant_agrees_with_the_segments(log: WrittenGame, seed: int) -> None:
    """At any reading the strength is that of the segment which holds the reading or begins at it; what was `before`
    is that of the segment which ends at it or holds it."""
    game, rng = replayed(log), random.Random(seed)
    cuts = [one.start for one in game.strength_segments]
    for span in game.periods:
        within = [cut for cut in cuts if span.start <= cut < span.end]
        tenths = rng.sample(within, min(4, len(within)))
        tenths += [rng.randrange(span.start, span.end) for _ in range(4) if span.end > span.start]
        for tenth in tenths:
            instant = game.at(moment_at(game.rules, span.period, tenth - span.start))
            assert instant.strength == strength_at(game, tenth)
            if tenth > 0:
                assert instant.before == strength_at(game, tenth - 1)
