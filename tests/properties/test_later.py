"""What is written later never changes what was true before its reading, and comes to the same as written on time."""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Iterator
from typing import Any

from attrs import evolve
from hypothesis import assume, given
from hypothesis import strategies as st

from rinkfold.timeline import events as ev
from rinkfold.timeline.clock import reading_in_period
from rinkfold.timeline.events import Event
from rinkfold.timeline.fold.changes import Returned, ReturnWithdrawn
from rinkfold.timeline.game import Game, Instant
from rinkfold.timeline.moment import moment_at

from .answers import Row, answers, box_rows, in_order, renumbered, strength_row
from .writing import WrittenGame, logs, often, replayed, seeds, with_inserted


def returns_before(game: Game, tenth: int) -> list[Row]:
    """Everybody who went back before a tenth."""
    changes = [change for some in game.changes for change in some]
    kept = [change for change in changes if isinstance(change, Returned | ReturnWithdrawn) and change.at < tenth]
    return in_order({"kind": type(change).__name__, **change._asdict(), "seq": None} for change in kept)


def skaters_before(game: Game, tenth: int) -> list[tuple[int, int, Row]]:
    """The stretches of one strength before a tenth, the last one cut there."""
    return [
        (one.start, min(one.end, tenth), strength_row(one.strength))
        for one in game.strength_segments
        if one.start < tenth
    ]


@often(60)
@given(logs, seeds)
def test_a_further_event_changes_nothing_before_its_reading(log: WrittenGame, seed: int) -> None:
    """A log that stops anywhere gives the skaters and the returns of the whole log, up to where it stops."""
    whole, rng = replayed(log), random.Random(seed)
    for _ in range(4):
        part = replayed(log.with_events(log.events[: rng.randint(1, len(log.events))]))
        tenth = part.folded.last.now
        assert skaters_before(part, tenth) == skaters_before(whole, tenth)
        assert returns_before(part, tenth) == returns_before(whole, tenth)


def ahead_of_the_record(log: WrittenGame, rng: random.Random) -> Iterator[tuple[Instant, Instant]]:
    """A few instants between two events, asked of the log up to the first of them and of the whole log.

    A stoppage under a running clock apart: whether play has resumed in it is known by the next event only.
    """
    whole = replayed(log)
    states = whole.folded.states
    places = [at for at in range(1, len(states)) if states[at].now > states[at - 1].now + 1]
    for at in rng.sample(places, min(4, len(places))):
        state, following = states[at - 1], whole.folded.placed[at]
        in_stoppage = state.ice.running and not state.in_play and following.event.kind == "faceoff"
        if state.ice.period != following.period or in_stoppage or following.played is None:
            continue
        part = replayed(log.with_events(log.events[: following.event.seq - 1]))
        played = rng.randrange(state.now, states[at].now) - state.ice.period_start
        moment = moment_at(whole.rules, state.ice.period, played)
        yield part.at(moment), whole.at(moment)


@often(60)
@given(logs, seeds)
def test_what_is_foreseen_up_to_the_next_event_comes_true(log: WrittenGame, seed: int) -> None:
    """Asked for a time that lies ahead, a log answers as the longer one does, up to the reading of its next event."""
    for part, whole in ahead_of_the_record(log, random.Random(seed)):
        assert part.strength == whole.strength
        assert in_order(box_rows(part)) == in_order(box_rows(whole))


@often(60)
@given(logs, seeds)
def test_what_was_before_a_time_that_lies_ahead_comes_true(log: WrittenGame, seed: int) -> None:
    """The strength up to a time that lies ahead is that which the longer log gives."""
    for part, whole in ahead_of_the_record(log, random.Random(seed)):
        assert part.before == whole.before


def some_event(rng: random.Random, log: WrittenGame, period: int, played: int) -> Event:
    """An event of any kind at a reading of the game."""
    at: dict[str, Any] = {
        "seq": 0,
        "period": period,
        "clock": reading_in_period(played, log.rules.period_length(period), log.rules.game.reading),
    }
    team: ev.Team = rng.choice(("home", "away"))
    made: list[Event] = [
        ev.Faceoff(**at),
        ev.Stoppage(**at),
        ev.Timeout(**at, team=team),
        ev.Goal(**at, team=team),
        ev.GoalieChange(**at, team=team, goalie=rng.choice((None, "1", "30"))),
        ev.PenaltyAssessed(**at, team=team, player="77", parts=("minor",)),
        ev.PenaltyAssessed(**at, team=team, player="78", parts=("major", "misconduct")),
        ev.PenaltyShot(**at, team=team, result="scored"),
        ev.Shot(**at, team=team),
    ]
    return rng.choice(made)


def in_a_stoppage(game: Game, tenth: int) -> bool:
    """Whether the clock runs through a stoppage at a tenth, with a faceoff to come."""
    at = bisect_right([state.now for state in game.folded.states], tenth - 1)
    state = game.folded.states[at - 1] if at else game.folded.opening
    return state.ice.running and not state.in_play


@often(60)
@given(logs, seeds)
def test_a_late_entry_changes_nothing_before_its_reading(log: WrittenGame, seed: int) -> None:
    """An event entered at the end of a log for a reading long past leaves everything before that reading alone.

    Unless that reading is in a stoppage under a running clock: there it says that play had resumed at the whistle (R16
    of the penalty model), and so corrects the faceoff.
    """
    game, rng = replayed(log), random.Random(seed)
    spans = [span for span in game.periods if span.end > span.start]
    assume(spans and log.events[-1].kind != "game_closed")
    span = rng.choice(spans)
    played = rng.randrange(span.end - span.start)
    assume(not in_a_stoppage(game, span.start + played))
    late = evolve(some_event(rng, log, span.period, played), seq=len(log.events) + 1)
    after = replayed(log.with_events([*log.events, late]))
    tenth = span.start + played
    assert skaters_before(after, tenth) == skaters_before(game, tenth)
    assert returns_before(after, tenth) == returns_before(game, tenth)


@often(60)
@given(logs, seeds)
def test_void_after_append_equals_never_appended(log: WrittenGame, seed: int) -> None:
    """Any event written anywhere and voided at the end leaves every answer as if it had never been written."""
    game, rng = replayed(log), random.Random(seed)
    if log.events[-1].kind == "game_closed" or not game.periods:
        return
    span = rng.choice(game.periods)
    extra = some_event(rng, log, span.period, rng.randint(0, span.end - span.start))
    at = rng.randint(2, len(log.events) + 1)
    longer, numbers = with_inserted(log, {at: [extra]})
    void = ev.Void(seq=len(longer.events) + 1, target=at, reason="never happened")
    voided = replayed(longer.with_events([*longer.events, void]))
    assert renumbered(answers(voided), numbers) == answers(game)


@often(60)
@given(logs, seeds, st.sampled_from(["penalties", "other events"]))
def test_a_late_entry_equals_the_same_entry_made_on_time(log: WrittenGame, seed: int, which: str) -> None:
    """An event written at the end and put after the one before it has the answers of the log written on time.

    The first event of a game can be put after none.
    """
    late_ones = [
        one.event.seq
        for one in replayed(log).folded.placed[1:]
        if isinstance(one.event, ev.PenaltyAssessed) == (which == "penalties")
    ]
    assume(late_ones and log.events[-1].kind != "game_closed")
    late, numbers = entered_late(log, random.Random(seed).choice(late_ones))
    assert renumbered(answers(replayed(late)), numbers) == answers(replayed(log))


def entered_late(log: WrittenGame, seq: int) -> tuple[WrittenGame, dict[int, int]]:
    """`log` with the event `seq` written at its end, after what pointed at it was amended; the numbers it had."""
    event = log.events[seq - 1]
    script = [one.event.seq for one in replayed(log).folded.placed]
    before = script[script.index(seq) - 1]
    shorter, numbers = with_inserted(log, {}, without=[seq])
    new = {old: number for number, old in numbers.items()}
    last = len(log.events)
    entry = evolve(event, seq=last, after=new[before])
    if isinstance(entry, ev.Goal) and entry.ends is not None:
        entry = evolve(entry, ends=new.get(entry.ends, entry.ends))
    if isinstance(entry, ev.PenaltyEnded):
        entry = evolve(entry, penalty=new[entry.penalty])
    pointing = [_pointing_at_late(one, log, new, seq, last) for one in shorter.events]
    return shorter.with_events([*pointing, entry]), {**numbers, last: seq}


def _pointing_at_late(event: Event, log: WrittenGame, new: dict[int, int], seq: int, last: int) -> Event:
    """`event`, pointing at `last` where it pointed at `seq`."""
    old = next(log.events[number - 1] for number, now in new.items() if now == event.seq)
    if isinstance(event, ev.Goal) and isinstance(old, ev.Goal) and old.ends == seq:
        return evolve(event, ends=last)
    if isinstance(event, ev.PenaltyEnded) and isinstance(old, ev.PenaltyEnded) and old.penalty == seq:
        return evolve(event, penalty=last)
    return event
