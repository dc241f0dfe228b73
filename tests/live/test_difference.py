"""What two games differ in."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from rinkfold.timeline import Event, Game, PenaltyAssessed, Strength, Void
from rinkfold.timeline.moment import moment_at
from rinkfold.timeline.views.difference import Differences, differences
from rinkfold.timeline.views.totals import Named

from .games import game_of, written, written_anew

seeds = st.integers(0, 20000)
quick = settings(max_examples=40, deadline=None)


def _without(log: list[Event], target: int) -> list[Event]:
    return [*log, Void(seq=len(log) + 1, target=target, reason="slip")]


@given(seeds)
@quick
def test_a_game_does_not_differ_from_itself(seed: int) -> None:
    """Nor from the same record whose lines have other numbers."""
    log = written(seed)
    game = game_of(log)
    assert not differences(game, game)
    assert differences(game, game) == Differences()
    anew, old = written_anew(log, [1, *(one.event.seq for one in game.folded.placed)])
    assert not differences(game, game_of(anew), old)


@given(seeds, st.data())
@quick
def test_both_ways_round_the_same_things_differ(seed: int, data: st.DataObject) -> None:
    """What is before and after changes places, and nothing else."""
    log = written(seed)
    before, after = game_of(log), game_of(_without(log, data.draw(st.integers(2, len(log)))))
    there, back = differences(before, after), differences(after, before)
    for name in ("releases", "parts", "goals", "goalies"):
        ones, others = getattr(there, name), getattr(back, name)
        assert {(one.before, one.after) for one in ones} == {(one.after, one.before) for one in others}
    assert [(one.tenths, one.before, one.after) for one in there.stretches] == [
        (one.tenths, one.after, one.before) for one in back.stretches
    ]
    assert {name: (two.before, two.after) for name, two in there.totals.items()} == {
        name: (two.after, two.before) for name, two in back.totals.items()
    }


@given(seeds, st.data())
@quick
def test_where_the_strengths_part(seed: int, data: st.DataObject) -> None:
    """The stretches are all the played time in which the skaters or goalkeepers are others, tenth by tenth."""
    log = written(seed)
    before, after = game_of(log), game_of(_without(log, data.draw(st.integers(2, len(log)))))
    found = differences(before, after)
    one, two = ({key: value for key, value in _by_tenth(game)} for game in (before, after))
    differing = {key for key in {**one, **two} if one.get(key) != two.get(key)}
    assert sum(stretch.tenths for stretch in found.stretches) == len(differing)
    assert {stretch.period for stretch in found.stretches} == {period for period, _ in differing}
    if differing:
        assert found.stretches[0].start == moment_at(before.rules, *min(differing))


def _by_tenth(game: Game) -> Iterator[tuple[tuple[int, int], Strength]]:
    starts = {span.period: span.start for span in game.periods}
    for segment in game.strength_segments:
        for tenth in range(segment.start, segment.end):
            yield (segment.period, tenth - starts[segment.period]), segment.strength


def test_what_is_only_in_one_stands_alone() -> None:
    """A voided penalty has a release, a part and minutes before, and none after."""
    log = written(3)
    target = next(event for event in log if isinstance(event, PenaltyAssessed) and event.player is not None)
    found = differences(game_of(log), game_of(_without(log, target.seq)))
    parts = [two for two in found.parts if two.either.penalty == target.seq]
    assert len(parts) == len(target.parts)
    assert all(two.before is not None and two.after is None for two in parts)
    minutes = found.totals[Named("penalty minutes", target.team)]
    assert isinstance(minutes.before, float)
    assert minutes.before > (minutes.after or 0)  # type: ignore[operator]


def test_an_event_that_only_the_second_has_is_counted_apart() -> None:
    """With numbers told, what the first record has not is a negative number."""
    log = written(3)
    target = next(event for event in log if isinstance(event, PenaltyAssessed))
    more = [*log, evolve(target, seq=len(log) + 1, player="77")]
    found = differences(game_of(log), game_of(more), {seq: seq for seq in range(1, len(log) + 1)})
    assert {two.either.penalty for two in found.parts if two.before is None} == {-len(more)}
