"""Readings: whether they can be, and whether they were written in the order of the game."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ...clock import BadReading, format_reading, parse_reading
from ...events import ClockSet, Event
from ...moment import Moment
from ...script.places import STOPPING
from .checked import Checked, length_words
from .finding import Finding, Kind
from .jumps import jumps
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

LONG = 600
"""Seconds after which somebody may not remember an event well."""


def _standing(checked: Checked) -> Iterator[Event]:
    """Every event that counts, in the order written, corrections of the clock among them."""
    for event in checked.game.events:
        counting = checked.counting(event.seq)
        if counting is not None:
            yield counting


def check_readings(checked: Checked) -> Iterator[Finding]:
    """Check that no reading is longer than its period."""
    for event in _standing(checked):
        if event.period is None:
            continue
        length = checked.rules.period_length(event.period)
        for name, clock in (("clock", event.clock), ("to", getattr(event, "to", None))):
            if clock is not None and _tenths(clock) > length:
                message = (
                    f"There is no reading {clock} in period {event.period}, which is {format_reading(length)} long."
                )
                remedy = f"Write it as it stood on the board: `amend {event.seq} {name} …`."
                yield READING_OUTSIDE.about(message, remedy, seq=event.seq, at=Moment(event.period, clock))


def _tenths(clock: str) -> int:
    try:
        return parse_reading(clock)
    except BadReading:
        return 0


def check_jumps(checked: Checked) -> Iterator[Finding]:
    """Check that play is resumed at the reading of the stoppage, where the clock stands in stoppages."""
    if not checked.whistles.kept:
        return
    for jump in jumps(checked):
        stopped, resumed = jump.stoppage, jump.faceoff
        message = f"Play was stopped at {stopped.at} (event {stopped.event.seq}) and resumed at {resumed.at}."
        if stopped.at is None or resumed.at is None:
            continue
        remedy = f"`amend {resumed.event.seq} clock {stopped.at.clock}`, or, if the officials corrected the clock, "
        remedy += f"`amend {stopped.event.seq} clock {resumed.at.clock}`"
        yield CLOCK_JUMPED.of(resumed, message, f"Put the reading right: {remedy}.")


def check_order(checked: Checked) -> Iterator[Finding]:
    """Check whether readings run backwards in the order written."""
    explained = {jump.faceoff.event.seq for jump in jumps(checked)} if checked.whistles.kept else set()
    explained |= {step.event.seq for step, _ in _recorded_late(checked)}
    for step, ahead in _late(checked):
        if step.event.seq not in explained and step.event.after is None:
            message = f"{step.at} is written behind event {ahead.event.seq}, which happened at {ahead.at}."
            remedy = f"Nothing, if it was written later; else `amend {step.event.seq} clock …`."
            yield WRITTEN_LATE.of(step, message, remedy)


def _late(checked: Checked) -> Iterator[tuple[Step, Step]]:
    """Events written behind a later one, each with the one furthest ahead then."""
    furthest: Step | None = None
    for event in checked.game.events:
        step = checked.step_of.get(event.seq)
        if step is None or step.played is None or _was_moved(event, step):
            continue
        if furthest is not None and _place(step) < _place(furthest):
            yield step, furthest
        elif furthest is None or _place(step) > _place(furthest):
            furthest = step


def _place(step: Step) -> tuple[int, int]:
    return (step.period, step.played or 0)


def _was_moved(written: Event, step: Step) -> bool:
    """Whether a correction put the event at another reading than it was written at."""
    moved = step.at is not None and step.at.clock != written.clock
    return moved or written.period != step.event.period


def check_recorded(checked: Checked) -> Iterator[Finding]:
    """Check whether an event was recorded long after the game had gone past it."""
    for step, tenths in _recorded_late(checked):
        message = f"{step.at} was recorded {length_words(tenths)} after the game had gone past it."
        yield RECORDED_LATE.of(step, message, f"Say why, if it is right: `amend {step.event.seq} note …`.")


def _recorded_late(checked: Checked) -> Iterator[tuple[Step, int]]:
    """Events recorded long after the game had gone past them, with the tenths between."""
    passed: list[tuple[tuple[int, int], float]] = []  # where the game had come to, and when that was recorded
    for event in checked.game.events:
        step = checked.step_of.get(event.seq)
        when = _seconds(event.recorded_at)
        if step is None or step.played is None or when is None or _was_moved(event, step):
            continue
        gone = [recorded for place, recorded in passed if place > _place(step)]
        if gone and when - min(gone) > LONG:
            yield step, int(when - min(gone)) * 10
        if not passed or _place(step) > passed[-1][0]:
            passed.append((_place(step), when))


def _seconds(recorded_at: str | None) -> float | None:
    if recorded_at is None:
        return None
    try:
        return datetime.fromisoformat(recorded_at.replace("Z", "+00:00")).timestamp()
    except ValueError:
        return None


def check_clock_sets(checked: Checked) -> Iterator[Finding]:
    """Check that a correction of the clock has a stoppage that it corrects."""
    stopped = {
        (step.period, step.at.clock) for step in checked.steps if step.event.kind in STOPPING and step.at is not None
    }
    stopped_tenths = {(period, _tenths(clock)) for period, clock in stopped}
    for event in _standing(checked):
        if not isinstance(event, ClockSet) or event.period is None or event.clock is None:
            continue
        if (event.period, _tenths(event.to)) not in stopped_tenths:
            message = (
                f"The clock was set from {event.clock} to {event.to}, but no stoppage before that can have been there."
            )
            remedy = f"Write the stoppage, or take the correction back: `void {event.seq} no stoppage`."
            at = Moment(event.period, event.clock)
            yield NO_STOPPAGE_TO_CORRECT.about(message, remedy, seq=event.seq, at=at)


CHECKS = (check_readings, check_jumps, check_order, check_recorded, check_clock_sets)
