"""When the door opened, against when the rules let somebody out."""

from __future__ import annotations

from collections.abc import Iterator

from ...events import PenaltyEnded
from ...fold.step import if_play_resumed
from ...wording import listed
from ..penalties import Return
from .checked import Checked, length_words
from .finding import Finding, Kind
from .seats import Seat, seats
from .step import Step

__all__ = ["CHECKS"]

DOOR_EARLY = Kind(
    "door_early",
    "warning",
    "The door opened before the rules let anybody out; says by how much, and how many were on the ice.",
    "Tell the officials; correct the reading if it was written down wrong.",
)
DOOR_LATE = Kind(
    "door_late",
    "warning",
    "The door opened later than it had to; says by how much, and how many were on the ice.",
    "Correct the reading if it was written down wrong.",
)
NOBODY_INSIDE = Kind(
    "nobody_inside",
    "warning",
    "The door is recorded for a penalty for which nobody sits.",
    "Write the penalty that is meant, or void the entry.",
)
DOORS_NOT_WRITTEN = Kind(
    "doors_not_written",
    "note",
    "The record has doors, but none for some penalties whose time ran out.",
    "Nothing, or write when the door opened.",
)

NEAR = 10
"""Tenths that nobody measures at a door."""


def check_doors(checked: Checked) -> Iterator[Finding]:
    """Check that doors opened when the rules let somebody out, and not earlier or later."""
    owed = {penalty: [*found] for penalty, found in checked.returns.items()}  # those with no door recorded yet
    resumed = [change.at for _, change in checked.resumptions]
    for step, event in checked.of(PenaltyEnded):
        penalty = checked.penalties.get(event.penalty)
        if event.cause == "released" and penalty is not None and penalty.team == event.team:
            yield from _door(checked, step, event, owed.setdefault(event.penalty, []), resumed)


def _door(
    checked: Checked, step: Step, event: PenaltyEnded, owed: list[Return], resumed: list[int]
) -> Iterator[Finding]:
    now = step.after.now
    due = [one for one in owed if one.tenth <= now + NEAR]
    if due:
        one = min(due, key=lambda each: abs(each.tenth - now))
        owed.remove(one)
        latest = one.tenth if one.how == "on expiry" else next((at for at in resumed if at >= one.tenth), now)
        if now > latest + NEAR:
            yield _late(checked, step, event, one, now)
        return
    seat = next((each for each in _seats_here(checked, step, event) if event.penalty in each.penalties), None)
    if seat is None:
        message = f"The door is recorded for penalty #{event.penalty}, but nobody sits for it."
        remedy = f"`amend {event.seq} penalty …` or `void {event.seq} wrong penalty`"
        yield NOBODY_INSIDE.of(step, message, f"Write the penalty that is meant: {remedy}.")
    elif seat.left or checked.whistles.kept:
        owed[:1] = []
        yield _early(checked, step, event, seat)


def _seats_here(checked: Checked, step: Step, event: PenaltyEnded) -> Iterator[Seat]:
    """Who sits there, and who goes in when play resumes."""
    yield from seats(step.after.side(event.team), step.after.now)
    if not step.after.in_play and step.after.ice.calls:
        yield from seats(if_play_resumed(step.after, checked.rules).side(event.team), step.after.now)


def _early(checked: Checked, step: Step, event: PenaltyEnded, seat: Seat) -> Finding:
    owed = f"with {length_words(seat.left)} to serve" if seat.left else "before the whistle at which the rules let out"
    really = _label(checked, step.after.now, event, 1) if seat.in_slot else "as many skaters as the rules owe"
    message = f"The door opened for penalty #{event.penalty} {owed}; on the ice then: {really}."
    remedy = f"Tell the officials. If it was written down wrong: `amend {event.seq} clock …`."
    return DOOR_EARLY.of(step, message, remedy)


def _late(checked: Checked, step: Step, event: PenaltyEnded, one: Return, now: int) -> Finding:
    late = length_words(now - one.tenth)
    really = _label(checked, one.tenth, event, -1) if one.how == "on expiry" else "as many skaters as the rules owe"
    message = (
        f"The door opened {late} late for penalty #{event.penalty}, due at {one.at}; on the ice until then: {really}."
    )
    return DOOR_LATE.of(step, message, f"If it was written down wrong: `amend {event.seq} clock {one.at.clock}`.")


def _label(checked: Checked, tenth: int, event: PenaltyEnded, more: int) -> str:
    """How many skated from `tenth` on, with `more` than the rules owe the side."""
    owed = next((segment for segment in checked.folded.segments if segment.start <= tenth < segment.end), None)
    if owed is None:
        return f"{abs(more)} {'more' if more > 0 else 'fewer'} than the rules owe"
    home, away = owed.strength.home, owed.strength.away
    home, away = (home + more, away) if event.team == "home" else (home, away + more)
    return f"{home} on {away} instead of {owed.strength.label}"


def check_doors_written(checked: Checked) -> Iterator[Finding]:
    """Check that a record that has doors has them for every penalty whose time ran out in play."""
    written = {event.penalty for _, event in checked.of(PenaltyEnded)}
    if not any(event.cause == "released" for _, event in checked.of(PenaltyEnded)):
        return
    absent = [
        f"#{penalty}"
        for penalty in checked.penalties
        if penalty not in written and any(one.how == "on expiry" for one in checked.returns.get(penalty, ()))
    ]
    if absent:
        message = f"Doors are recorded, but none for {'penalty' if len(absent) == 1 else 'penalties'} {listed(absent)}."
        yield DOORS_NOT_WRITTEN.about(message, "Nothing has to be done; the rules say when they could leave.")


CHECKS = (check_doors, check_doors_written)
