"""Faceoffs and stoppages that nobody wrote."""

from __future__ import annotations

from collections.abc import Iterator

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


def check_whistles(checked: Checked) -> Iterator[Finding]:
    """Check that no faceoff or stoppage is missing, where the record keeps them."""
    if not checked.whistles.missing:
        return
    told = [*_told(checked)]
    missing = [one for one in checked.whistles.missing if not _is_explained(one, told)]
    if checked.whistles.kept:
        yield from (_finding(checked, one) for one in missing)
    elif missing:
        message = f"Faceoffs written: {checked.whistles.written}; faceoffs and stoppages not written: {len(missing)}."
        yield WHISTLES_NOT_KEPT.about(
            message, "Nothing has to be done; a release that waits for a whistle nobody wrote has no exact time."
        )


def _told(checked: Checked) -> Iterator[Step]:
    """The whistles of which another check says that their reading is wrong."""
    for jump in checked.jumps:
        yield from (jump.stoppage, jump.faceoff)
    yield from (one.step for one in checked.misplaced if not one.behind)
    yield from (step for step in checked.steps if checked.is_outside(step))


def _is_explained(missing: Missing, told: list[Step]) -> bool:
    """Whether it seems to be missing only because a whistle has a wrong reading."""
    seqs = {step.event.seq for step in told}
    stopped_there = missing.is_faceoff and missing.change.at in {step.after.now for step in told}
    return stopped_there or not seqs.isdisjoint((missing.seq, missing.seq - 1))


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
