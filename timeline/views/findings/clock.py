"""Readings: whether they can be, and whether they were written in the order of the game."""

from __future__ import annotations

from collections.abc import Iterator

from ...clock import format_reading, parse_reading, played_in_period
from ...events import Event
from ...moment import Moment
from ...script.places import STOPPING
from .checked import Checked, length_words
from .finding import Finding, Kind
from .step import Step

__all__ = ["CHECKS"]

READING_OUTSIDE = Kind(
    "reading_outside",
    "error",
    "A reading is longer than its period.",
    "Write the reading as it stood on the board, or the right period.",
)
CLOCK_JUMPED = Kind(
    "clock_jumped",
    "warning",
    "Play was resumed at another reading than that of the stoppage, under a clock that stands in stoppages.",
    "Put the reading of the faceoff right; where the officials corrected the clock, that of the stoppage.",
)
WRITTEN_LATE = Kind(
    "written_late",
    "note",
    "The reading runs backwards: an event is written behind one that happened later.",
    "Nothing, if it was written later; else put the reading right.",
)
WRITTEN_AHEAD = Kind(
    "written_ahead",
    "note",
    "The reading runs ahead: an event is written before others that happened earlier.",
    "Put the reading or the period right; nothing, if it is they that were written later.",
)
RECORDED_LATE = Kind(
    "recorded_late",
    "note",
    "An event was recorded long after the game had gone past it.",
    "Nothing, if somebody remembers it well; say why in its note.",
)
NO_STOPPAGE_TO_CORRECT = Kind(
    "no_stoppage_to_correct",
    "warning",
    "The clock was corrected, but there is no stoppage just before that could have happened at the new reading.",
    "Write the stoppage, or void the correction.",
)


def check_readings(checked: Checked) -> Iterator[Finding]:
    """Check that no reading is longer than its period."""
    for step in checked.steps:
        if step.event.clock is not None and checked.is_outside(step):
            yield _outside(checked, step.event, step.period, "clock", step.event.clock)
    for correction in checked.clock_sets:
        period = correction.period
        for field, clock in (("clock", correction.clock), ("to", correction.to)):
            if period is not None and clock is not None and parse_reading(clock) > checked.rules.period_length(period):
                yield _outside(checked, correction, period, field, clock)


def _outside(checked: Checked, event: Event, period: int, field: str, clock: str) -> Finding:
    length = format_reading(checked.rules.period_length(period))
    message = f"There is no reading {clock} in period {period}, which is {length} long."
    period_too = f", or the right period: `amend {event.seq} period …`" if field == "clock" else ""
    remedy = f"Write it as it stood on the board: `amend {event.seq} {field} …`{period_too}."
    return READING_OUTSIDE.about(message, remedy, seq=event.seq, at=Moment(period, clock))


def check_jumps(checked: Checked) -> Iterator[Finding]:
    """Check that play is resumed at the reading of the stoppage, where the clock stands in stoppages."""
    out_of_order = {one.step.event.seq for one in checked.misplaced}
    for jump in checked.jumps:
        stopped, resumed = jump.stoppage, jump.faceoff
        message = f"Play was stopped at {stopped.at} (event {stopped.event.seq}) and resumed at {resumed.at}."
        if stopped.event.seq in out_of_order:
            message = f"{message[:-1]} (event {resumed.event.seq})."
            yield CLOCK_JUMPED.of(stopped, message, f"Put the reading right: {_moved(stopped, resumed)}.")
        else:
            remedy = f"{_moved(resumed, stopped)}, or, if the officials corrected the clock, {_moved(stopped, resumed)}"
            yield CLOCK_JUMPED.of(resumed, message, f"Put the reading right: {remedy}.")


def _moved(step: Step, to: Step) -> str:
    """The short entries that put an event at the reading of another."""
    seq, at = step.event.seq, to.at
    if at is None or step.at is None:
        return f"`amend {seq} clock …`"
    period = [f"`amend {seq} period {at.period}`"] if at.period != step.at.period else []
    clock = [f"`amend {seq} clock {at.clock}`"] if at.clock != step.at.clock else []
    return " and ".join(period + clock)


def check_order(checked: Checked) -> Iterator[Finding]:
    """Check whether readings run backwards in the order written."""
    explained = {step.event.seq for jump in checked.jumps for step in (jump.stoppage, jump.faceoff)}
    explained |= {late.step.event.seq for late in checked.recorded_late}
    for one in checked.misplaced:
        step, other = one.step, one.other
        if step.event.seq in explained or step.event.after is not None or checked.is_outside(step):
            continue
        if one.behind:
            message = f"{step.at} is written behind event {other.event.seq}, which happened at {other.at}."
            remedy = f"Nothing, if it was written later; else `amend {step.event.seq} clock …`."
            yield WRITTEN_LATE.of(step, message, remedy)
        else:
            message = f"{step.at} is written before event {other.event.seq}, which happened at {other.at}."
            remedy = f"`amend {step.event.seq} clock …` or `amend {step.event.seq} period …`"
            remedy = f"Nothing, if what is written behind it was written later; else {remedy}."
            yield WRITTEN_AHEAD.of(step, message, remedy)


def check_recorded(checked: Checked) -> Iterator[Finding]:
    """Check whether an event was recorded long after the game had gone past it."""
    for late in checked.recorded_late:
        message = f"{late.step.at} was recorded {length_words(late.seconds * 10)} after the game had gone past it."
        remedy = f"Say why, if it is right: `amend {late.step.event.seq} note …`."
        yield RECORDED_LATE.of(late.step, message, remedy)


def check_clock_sets(checked: Checked) -> Iterator[Finding]:
    """Check that a correction of the clock has a stoppage that it corrects."""
    if not checked.clock_sets:
        return
    stopped = {(step.period, step.played) for step in checked.steps if step.event.kind in STOPPING}
    for event in checked.clock_sets:
        if event.period is None or event.clock is None:
            continue
        length, to = checked.rules.period_length(event.period), parse_reading(event.to)
        played = played_in_period(to, length, checked.rules.game.reading)
        if to <= length and (event.period, played) not in stopped:
            message = f"The clock was set from {event.clock} to {event.to}, "
            message += "but no stoppage can have been there before."
            remedy = f"Write the stoppage, or take the correction back: `void {event.seq} no stoppage`."
            at = Moment(event.period, event.clock)
            yield NO_STOPPAGE_TO_CORRECT.about(message, remedy, seq=event.seq, at=at)


CHECKS = (check_readings, check_jumps, check_order, check_recorded, check_clock_sets)
