"""What holds for the script of any log."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from attrs import evolve
from hypothesis import given, note
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy, composite

from rinkfold.timeline.clock import format_reading
from rinkfold.timeline.events import Amend, ClockSet, Event, PenaltyEnded, Void
from rinkfold.timeline.rules import GameRules, Overtime, Ruleset
from rinkfold.timeline.script import Placed, Script
from script.sheet import event

LENGTH = 60
RULES = Ruleset(game=GameRules(period_length=LENGTH, periods=2), overtime=Overtime(length=LENGTH))
COUNTING_UP = Ruleset(
    game=GameRules(period_length=LENGTH, periods=2, reading="elapsed"), overtime=Overtime(length=LENGTH)
)

PLAY = ("faceoff", "stoppage", "goal", "shot", "penalty_assessed", "goalie_change", "period_end", "remark")
NO_READING = ("shot", "remark", "roster_change", "figures")
readings = st.sampled_from([0, 20, 30, 40, 60]).map(format_reading)
periods = st.integers(1, 3)


@composite
def in_play(draw: DrawFn, seq: int, *, after: bool = False) -> Event:
    """An event of the game: mostly with a reading, sometimes put after an earlier one."""
    behind = draw(st.integers(1, seq - 1)) if after and seq > 1 and draw(st.integers(0, 3)) == 0 else None
    if draw(st.integers(0, 4)) == 0:
        kind = draw(st.sampled_from(NO_READING))
        return event(kind, seq, period=draw(periods) if kind == "shot" else None, after=behind)
    return event(draw(st.sampled_from(PLAY)), seq, period=draw(periods), clock=draw(readings), after=behind)


@composite
def correction(draw: DrawFn, seq: int, *, after: bool) -> Event:
    """A void or an amendment of some earlier event, corrections among them."""
    target = draw(st.integers(2, seq - 1))
    if draw(st.booleans()):
        return event("void", seq, target=target)
    changes: SearchStrategy[dict[str, Any]] = st.one_of(
        st.fixed_dictionaries({"clock": readings}),
        st.fixed_dictionaries({"period": periods, "clock": st.none() | readings}),
        st.fixed_dictionaries({"note": st.sampled_from(["a", "b"])}),
        st.fixed_dictionaries({"target": st.integers(2, max(target - 1, 2))}),
        st.fixed_dictionaries({"changes": st.fixed_dictionaries({"clock": readings})}),
        st.fixed_dictionaries({"to": readings}),
        st.fixed_dictionaries({"after": st.none() | st.integers(1, target - 1)}) if after else st.nothing(),
    )
    return event("amend", seq, target=target, changes=draw(changes))


@composite
def logs(draw: DrawFn, *, after: bool = True, clock_sets: bool = True, corrections: bool = True) -> list[Event]:
    """Logs in which everything is at a few readings, and much is late."""
    events: list[Event] = [event("game_opened", 1)]
    for seq in range(2, draw(st.integers(2, 14)) + 1):
        choice = draw(st.integers(0, 9))
        if choice == 0 and clock_sets:
            one = event("clock_set", seq, period=draw(periods), clock=draw(readings), to=draw(readings))
        elif choice in (1, 2, 3) and corrections and seq > 2:
            one = draw(correction(seq, after=after))
        else:
            one = draw(in_play(seq, after=after))
        events.append(one)
    if draw(st.booleans()):
        closing = {"period": 3, "clock": draw(readings)} if draw(st.booleans()) else {}
        events.append(event("game_closed", len(events) + 1, **closing))
        if corrections:
            events += [draw(correction(seq, after=after)) for seq in range(len(events) + 1, len(events) + 3)]
    return events


def told(placed: Sequence[Placed]) -> list[tuple[int, int, int | None]]:
    return [(one.event.seq, one.period, one.played) for one in placed]


def order(events: Sequence[Event], rules: Ruleset = RULES) -> list[tuple[int, int, int | None]]:
    script = Script.build(events, rules)
    script._check()
    return told(script.placed)


def _shifted(one: Event, by: int, since: int) -> Event:
    """The event with every number from `since` on shifted."""

    def shift(seq: int) -> int:
        return seq + by if seq >= since else seq

    changes: dict[str, Any] = {"seq": shift(one.seq)}
    if one.after is not None:
        changes["after"] = shift(one.after)
    if isinstance(one, Void | Amend):
        changes["target"] = shift(one.target)
    if isinstance(one, Amend):
        changes["changes"] = _shifted_changes(one.changes, shift)
    assert not isinstance(one, PenaltyEnded)
    return evolve(one, **changes)


def _shifted_changes(changes: Any, shift: Any) -> dict[str, Any]:
    return {
        name: shift(value) if name in ("target", "after") and value is not None else value
        for name, value in changes.items()
    }


@given(logs())
def test_a_log_that_grows_has_the_script_of_the_whole(events: list[Event]) -> None:
    """Event by event and all at once agree. No place before the one that `append` tells changed; a further event that
    moves no others stands exactly there."""
    script = Script(RULES)
    for count, one in enumerate(events, 1):
        before = list(script.placed)
        first = script.append(one)
        script._check()
        after = list(script.placed)
        assert after == list(Script.build(events[:count], RULES).placed)
        assert after[:first] == before[:first]
        if one.kind in PLAY:
            assert after[first].event == one or one.after is not None
            assert after[first + 1 :] == before[first:]


@given(logs(), st.data())
def test_void_after_append_equals_never_appended(events: list[Event], data: st.DataObject) -> None:
    """An event that is put in anywhere and voided at the end leaves the script as if it had never been written."""
    at = data.draw(st.integers(2, len(events)))
    if data.draw(st.integers(0, 3)):
        extra = data.draw(in_play(at, after=True))
    else:
        extra = event("clock_set", at, period=1, clock=data.draw(readings), to=data.draw(readings))
    shifted = [_shifted(one, 1, at) for one in events]
    written = [*shifted[: at - 1], extra, *shifted[at - 1 :]]
    written.append(event("void", len(written) + 1, target=at))
    note(written)
    assert order(written) == [(seq + (seq >= at), *rest) for seq, *rest in order(events)]


@given(logs(), st.data())
def test_a_correction_that_is_voided_equals_one_never_written(events: list[Event], data: st.DataObject) -> None:
    """A void or an amendment that is voided leaves the script as it was."""
    seq = len(events) + 1
    extra = data.draw(correction(seq, after=True)) if seq > 2 else event("remark", seq)
    assert order([*events, extra, event("void", seq + 1, target=seq)]) == order(events)


@given(logs(after=False, clock_sets=False))
def test_a_late_entry_equals_the_log_in_which_it_was_written_at_that_place(events: list[Event]) -> None:
    """A log that is written anew in the order of its script, without corrections, has that order."""
    found = Script.build(events, RULES).placed
    anew = [events[0], *(evolve(one.event, seq=seq) for seq, one in enumerate(found, 2))]
    note(anew)
    again = Script.build(anew, RULES).placed
    assert [one.event.seq for one in again] == list(range(2, len(anew) + 1))
    assert [one.played for one in again if one.played is not None] == [
        one.played for one in found if one.played is not None
    ]


@given(logs(clock_sets=False, after=False), st.data())
def test_an_amended_reading_equals_a_late_entry(events: list[Event], data: st.DataObject) -> None:
    """An event whose reading is amended stands where it would if it had been written then, and not before."""
    extra = data.draw(in_play(len(events) + 1).filter(lambda one: one.clock is not None))
    at = data.draw(st.integers(2, len(events) + 1))
    period, clock = data.draw(periods), data.draw(readings)
    if (period, clock) == (extra.period, extra.clock):
        return
    shifted = [_shifted(one, 1, at) for one in events]
    written = [*shifted[: at - 1], evolve(extra, seq=at), *shifted[at - 1 :]]
    written.append(event("amend", len(written) + 1, target=at, changes={"period": period, "clock": clock}))
    late = [*events, evolve(extra, seq=len(events) + 1, period=period, clock=clock)]
    numbers = {seq: seq + (seq >= at) for seq in range(1, len(events) + 1)} | {len(events) + 1: at}
    assert order(written) == [(numbers[seq], *rest) for seq, *rest in order(late)]


@given(logs())
def test_counting_up_and_counting_down_agree(events: list[Event]) -> None:
    """The same game read off a board that counts up has the same script."""
    assert order([_turned(one) for one in events], COUNTING_UP) == order(events)


def _turned(one: Event) -> Event:
    changes: dict[str, Any] = {} if one.clock is None else {"clock": _other(one.clock)}
    if isinstance(one, ClockSet):
        changes["to"] = _other(one.to)
    if isinstance(one, Amend):
        changes["changes"] = _turned_changes(one.changes)
    return evolve(one, **changes)


def _turned_changes(changes: Any) -> dict[str, Any]:
    turned = {name: _other(value) if name in ("clock", "to") and value else value for name, value in changes.items()}
    return turned | ({"changes": _turned_changes(turned["changes"])} if "changes" in turned else {})


def _other(clock: str) -> str:
    return {"0:00": "0:06", "0:02": "0:04", "0:03": "0:03", "0:04": "0:02", "0:06": "0:00"}[clock]


@given(logs(after=False, corrections=False))
def test_a_later_event_moves_none_that_stands(events: list[Event]) -> None:
    """A further event, on time or late, leaves the others in their order, but for a `clock_set`."""
    for count in range(2, len(events) + 1):
        if isinstance(events[count - 1], ClockSet) or events[count - 1].kind == "game_closed":
            continue
        before = [seq for seq, *_ in order(events[: count - 1])]
        assert [seq for seq, *_ in order(events[:count]) if seq != count] == before
