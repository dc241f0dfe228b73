"""What corrections and late entries come to, in all that a game answers."""

from __future__ import annotations

from attrs import evolve
from hypothesis import example, given, note, settings
from hypothesis import strategies as st
from strategies import events

from rinkfold.timeline import Amend, ClockSet, Event, LiveGame, Void
from rinkfold.timeline.clock import format_reading
from rinkfold.timeline.views.difference import differences

from .games import answers, game_of, renumbered, written, written_anew

seeds = st.integers(0, 20000)
quick = settings(max_examples=60, deadline=None)
IN_PLAY = ("faceoff", "stoppage", "shot", "goal", "penalty_assessed", "goalie_change", "timeout", "roster_change")


def _record(seed: int) -> list[Event]:
    """A random game whose record is not closed."""
    log = written(seed)
    return log[:-1] if log[-1].kind == "game_closed" else log


def _timed(log: list[Event]) -> list[Event]:
    return [event for event in log if event.clock is not None]


def _further(data: st.DataObject, log: list[Event], seq: int) -> Event:
    """Something of a game that could be written as event `seq`; mostly at a reading of the game."""
    timed = _timed(log)
    other = data.draw(st.sampled_from(timed)) if timed else None
    extra = renumbered(data.draw(events(IN_PLAY)), lambda target: 1 + target % max(seq - 1, 1))
    extra = evolve(extra, seq=seq, after=None, prev=None)
    if other is not None and data.draw(st.integers(0, 3)):
        extra = evolve(extra, period=other.period, clock=other.clock)
    if data.draw(st.integers(0, 5)) == 0 and extra.clock is not None:
        to = format_reading(data.draw(st.integers(0, 200)) * 10)
        extra = ClockSet(seq=seq, period=extra.period, clock=extra.clock, to=to)
    note(repr(extra))
    return extra


@given(seeds, st.data())
@quick
def test_void_after_append_equals_never_appended(seed: int, data: st.DataObject) -> None:
    """On time, late or a correction of the clock: voided at once, it leaves every answer as it was."""
    log = _record(seed)
    never, seq = game_of(log), len(log) + 1
    live = LiveGame([*log, _further(data, log, seq)])
    live.record(Void(seq=0, target=seq, reason="slip"))
    assert answers(live) == answers(never)


@given(seeds, st.data())
@quick
def test_an_event_in_the_middle_that_is_voided_equals_one_never_written(seed: int, data: st.DataObject) -> None:
    """Somewhere in the record, and voided when the game is over: every answer is that of the record without it."""
    log = _record(seed)
    at = data.draw(st.integers(2, len(log) + 1))
    shifted = [renumbered(event, lambda seq: seq + (seq >= at)) for event in log]
    extra = _further(data, log[: at - 1], at)
    voided = [*shifted[: at - 1], extra, *shifted[at - 1 :], Void(seq=len(log) + 2, target=at, reason="slip")]
    old = {seq + (seq >= at): seq for seq in range(1, len(log) + 1)}
    never, game = game_of(log), game_of(voided)
    assert not differences(never, game, old)
    assert game.strength_segments == never.strength_segments
    assert [state.now for state in game.folded.states] == [state.now for state in never.folded.states]


@given(seeds, st.data())
@quick
def test_an_amendment_that_is_voided_equals_none(seed: int, data: st.DataObject) -> None:
    """Another reading for any event, taken back."""
    log = _record(seed)
    timed = _timed(log)
    if not timed:
        return
    target = data.draw(st.sampled_from(timed))
    live = LiveGame(log)
    clock = format_reading(data.draw(st.integers(0, 200)) * 10)
    live.record(Amend(seq=0, target=target.seq, changes={"clock": clock}, reason="wrong"))
    live.record(Void(seq=0, target=len(log) + 1, reason="it was right"))
    assert answers(live) == answers(game_of(log))


def _late(log: list[Event], seq: int) -> list[Event]:
    """The record in which the event `seq` was written last of all."""
    late, _ = written_anew(log, [*(number for number in range(1, len(log) + 1) if number != seq), seq])
    return late


def _assert_as_if_on_time(late: list[Event]) -> None:
    """Every answer is that of the record written in the order of the game."""
    game = game_of(late)
    on_time, old = written_anew(late, [1, *(one.event.seq for one in game.folded.placed)])
    again = game_of(on_time)
    assert [one.event.seq for one in again.folded.placed] == list(range(2, len(on_time) + 1))
    assert not differences(game, again, old)
    assert again.strength_segments == game.strength_segments


@given(seeds, st.data())
@example(1208, 6)  # a penalty that was written when others had been called after it
@quick
def test_a_late_entry_equals_the_same_entry_made_on_time(seed: int, which: st.DataObject | int) -> None:
    """Any event, written when the game is over."""
    log = _record(seed)
    if len(log) > 2:
        seq = which if isinstance(which, int) else which.draw(st.integers(2, len(log) - 1))
        _assert_as_if_on_time(_late(log, seq))
