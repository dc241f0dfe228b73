"""Faceoffs and stoppages that nobody wrote."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...moment import Moment
from .checked import Checked
from .finding import Finding, Kind
from .step import Step
from .whistles_kept import Missing

__all__ = ["CHECKS"]

NO_FACEOFF = Kind(
    "no_faceoff",
    "warning",
    "In a record that has faceoffs, one is missing.",
    "Write it; who may leave the box, and when time starts, can depend on it.",
)
NO_STOPPAGE = Kind(
    "no_stoppage",
    "warning",
    "In a record that has stoppages, one is missing before a faceoff.",
    "Write it; who may leave the box can depend on it.",
)
WHISTLES_NOT_KEPT = Kind(
    "whistles_not_kept",
    "note",
    "The record does not have every faceoff and stoppage.",
    "Nothing; where a release waits for a whistle, its time is not known.",
)

NEXT = 2
"""Events written behind one that is out of its place, at one of which its whistle is found missing."""


def check_whistles(checked: Checked) -> Iterator[Finding]:
    """Check that no faceoff or stoppage is missing, where the record keeps them."""
    if not checked.whistles.missing:
        return
    astray = [*_astray(checked)]
    explained = _explained(checked, astray)
    stopped = {step.after.now for step in astray}
    missing = [
        one
        for one in checked.whistles.missing
        if one.seq not in explained and not (one.is_faceoff and one.change.at in stopped)
    ]
    if checked.whistles.kept:
        yield from (_finding(checked, one) for one in missing)
    elif missing:
        message = f"Faceoffs written: {checked.whistles.written}; faceoffs and stoppages not written: {len(missing)}."
        yield WHISTLES_NOT_KEPT.about(
            message, "Nothing has to be done; a release that waits for a whistle nobody wrote has no exact time."
        )


def _astray(checked: Checked) -> Iterator[Step]:
    """The events of which another check says that their reading is wrong, or that they are out of order.

    An event behind others may be written late; with a whistle missing just behind it, it is out of its place.
    """
    lacking = {one.seq for one in checked.whistles.missing}
    for jump in checked.jumps:
        yield from (jump.stoppage, jump.faceoff)
    for one in checked.misplaced:
        seq = one.step.event.seq
        if not one.behind or not lacking.isdisjoint(range(seq + 1, seq + NEXT + 1)):
            yield one.step
    yield from (step for step in checked.steps if checked.is_outside(step))


def _explained(checked: Checked, astray: Sequence[Step]) -> set[int]:
    """The events that seem to lack a whistle only because another event is astray.

    That is the one astray, where it stands now, and what was written right behind it, where it should stand; but where
    it may be a late entry, what was written behind it does lack a whistle.
    """
    late = {one.step.event.seq for one in checked.misplaced if one.behind and not checked.is_outside(one.step)}
    here = {step.event.seq for step in astray}
    return here | {seq + 1 for seq in here - late} | _changed_places(checked)


def _changed_places(checked: Checked) -> set[int]:
    """Faceoffs, and the stoppages written behind them at the same reading, that have changed places.

    What is written behind an event that is far ahead counts as late, and late stoppages stand before faceoffs.
    """
    if all(one.behind for one in checked.misplaced):
        return set()
    no_faceoff = {one.seq for one in checked.whistles.missing if one.is_faceoff}
    no_stoppage = {one.seq for one in checked.whistles.missing if not one.is_faceoff}
    swapped = {seq for seq in no_stoppage if seq + 1 in no_faceoff}
    return swapped | {seq + 1 for seq in swapped}


def _finding(checked: Checked, missing: Missing) -> Finding:
    change = missing.change
    at: Moment = checked.folded.moment_of(change)
    if missing.is_faceoff:
        message = f"Play had been resumed by event {missing.seq}, but no faceoff is written at {at}."
        return NO_FACEOFF.about(message, f"Write it: {checked.adding('go', at)}.", seq=missing.seq, at=at)
    message = f"Play is resumed by the faceoff in event {missing.seq}, but no stoppage is written before it."
    entry = checked.adding(f"stop{_behind(checked, missing)}", at)
    return NO_STOPPAGE.about(message, f"Write it: {entry}.", seq=missing.seq, at=at)


def _behind(checked: Checked, missing: Missing) -> str:
    """The place of a stoppage that is missing: behind what stands before the faceoff, not behind the faceoff."""
    index = checked.step_of[missing.seq].index
    return f" after #{checked.steps[index - 1].event.seq}" if index else ""


CHECKS = (check_whistles,)
