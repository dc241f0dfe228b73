"""What captains chose and events point at: whether it can be had."""

from __future__ import annotations

from collections.abc import Iterator

from ...events import Event, Goal, PenaltyAssessed, PenaltyEnded, PenaltyShot
from ...fold.changes import PartEnded, PartSetAside, PartStarted
from ...fold.draft import other
from ...fold.rulebook import EQUAL_PAIR
from ...fold.state import GameState
from .checked import Checked
from .finding import Finding, Kind
from .step import Step

__all__ = ["CHECKS"]

ENDS_CANNOT_BE = Kind(
    "ends_cannot_be",
    "warning",
    "A goal is said to end a penalty that it cannot end; the choice counts only among equals.",
    "Take the choice out, or write the penalty that is meant.",
)
ON_CLOCK_CANNOT_BE = Kind(
    "on_clock_cannot_be",
    "warning",
    "A captain's choice of what stays on the clock cannot be had; it never changes how many are offset.",
    "Take the choice out, or look for a penalty that is not recorded.",
)
NO_DELAYED_GOAL = Kind(
    "no_delayed_goal",
    "error",
    "A call is marked as delayed, and there is no goal at its reading.",
    "Write the goal, put the reading right, or take the mark out.",
)
NO_ATTEMPT = Kind(
    "no_attempt",
    "note",
    "A penalty shot was awarded, and no attempt of the other side is recorded at that stoppage.",
    "Write the attempt, if only as missed.",
)
NOT_AWARDED = Kind(
    "not_awarded",
    "note",
    "A penalty shot was taken, and no penalty at that stoppage says that it was awarded.",
    "Mark the penalty, if there was one.",
)
POINTS_AT_VOIDED = Kind(
    "points_at_voided",
    "error",
    "An event points at one that was voided.",
    "Point it at the right event, or void it too.",
)
POINTS_ELSEWHERE = Kind(
    "points_elsewhere",
    "error",
    "The end of a penalty points at something that is no penalty of that side.",
    "Write the number of the penalty's entry.",
)
NOTHING_TO_END = Kind(
    "nothing_to_end",
    "warning",
    "An official's ruling ends a penalty of which nothing is left.",
    "Write the penalty that is meant, or put the reading right.",
)


def check_ends(checked: Checked) -> Iterator[Finding]:
    """Check that the penalty which a goal is said to end could be chosen."""
    ended = {
        (change.seq, change.penalty)
        for change in (*checked.folded.changes_of(PartEnded), *checked.folded.pending_changes)
        if isinstance(change, PartEnded) and change.fate == "ended by goal"
    }
    for step, goal in checked.of(Goal):
        if goal.ends is None or (goal.seq, goal.ends) in ended or checked.counting(goal.ends) is None:
            continue
        really = [penalty for seq, penalty in ended if seq == goal.seq]
        instead = f"it ends penalty #{really[0]}" if really else "it ends nothing"
        message = f"The goal is said to end {_target(checked, step, goal)}; {instead}."
        remedy = f"Take the choice out: `amend {goal.seq} ends {really[0] if really else '?'}`."
        yield ENDS_CANNOT_BE.of(step, message, remedy)


def _target(checked: Checked, step: Step, goal: Goal) -> str:
    """The penalty that was chosen, and why it cannot be ended."""
    penalty = checked.penalties.get(goal.ends or 0)
    if penalty is None:
        return f"event {goal.ends}, which is no penalty"
    if penalty.team == goal.team and not checked.rules.goals.shorthanded_ends_own_minor:
        return f"penalty #{goal.ends}, which is on the side that scored"
    if not _is_running(step.arrived, penalty):
        return f"penalty #{goal.ends}, which has no minor running"
    return f"penalty #{goal.ends}, which is not the one that the rules choose here"


def _is_running(state: GameState, penalty: PenaltyAssessed) -> bool:
    running = (chain.clock[0] for chain in state.side(penalty.team).slots)
    return any(part.penalty == penalty.seq and part.is_minor and not part.lone for part in running)


def check_on_clock(checked: Checked) -> Iterator[Finding]:
    """Check that what a captain chose to stay on the clock, or not to, can be had."""
    set_aside: set[int] = set()
    on_the_clock: set[int] = set()
    folded = checked.folded
    told = (*folded.changes_of(PartSetAside), *folded.changes_of(PartStarted), *folded.pending_changes)
    for change in told:
        if isinstance(change, PartSetAside) and change.rule is not EQUAL_PAIR:
            set_aside.add(change.penalty)
        elif isinstance(change, PartStarted) and change.on_clock:
            on_the_clock.add(change.penalty)
    for step, event in checked.of(PenaltyAssessed):
        if event.on_clock is None or event.seq not in (set_aside if event.on_clock else on_the_clock):
            continue
        asked, found = ("on", "offset") if event.on_clock else ("off", "on the clock")
        message = f"The penalty is asked to be {asked} the clock, but by the rules it is {found}."
        remedy = f"Take the choice out: `amend {event.seq} on_clock ?`; or look for a penalty that is not recorded."
        yield ON_CLOCK_CANNOT_BE.of(step, message, remedy)


def check_delayed_calls(checked: Checked) -> Iterator[Finding]:
    """Check that there is a goal at the reading of a delayed call."""
    goals = {(step.period, step.played) for step, _ in checked.of(Goal)}
    goals |= {(step.period, step.played) for step, shot in checked.of(PenaltyShot) if shot.result == "scored"}
    for step, event in checked.of(PenaltyAssessed):
        if event.delayed_call and (step.period, step.played) not in goals:
            message = f"The call is marked as delayed, but there is no goal at {step.at}."
            remedy = f"`amend {event.seq} delayed_call no`, or `amend {event.seq} clock …`"
            yield NO_DELAYED_GOAL.of(step, message, f"Write the goal, or put the call right: {remedy}.")


def check_penalty_shots(checked: Checked) -> Iterator[Finding]:
    """Check that a penalty shot that was awarded was taken, and one that was taken was awarded."""
    awarded = {(s.period, s.played, other(e.team)): s for s, e in checked.of(PenaltyAssessed) if e.penalty_shot}
    taken = {(s.period, s.played, e.team): s for s, e in checked.of(PenaltyShot)}
    for key in awarded.keys() - taken.keys():
        step = awarded[key]
        side = key[2]
        entry = checked.adding(f"{side} penalty shot … missed", step.at)
        message = f"A penalty shot was awarded to {side}, but no attempt is recorded."
        yield NO_ATTEMPT.of(step, message, f"Write it, with its result: {entry}.")
    for key in taken.keys() - awarded.keys():
        message = "A penalty shot was taken, but no penalty here says that it was awarded."
        remedy = "If there was a penalty: `amend … penalty_shot yes`."
        yield NOT_AWARDED.of(taken[key], message, remedy)


def check_pointers(checked: Checked) -> Iterator[Finding]:
    """Check that nothing points at an event that was voided."""
    for event in (*(step.event for step in checked.steps), *checked.clock_sets):
        for name, target in _pointers(event):
            if checked.counting(target) is None:
                message = f"Event {event.seq} ({event.kind}) points at event {target}, which was voided."
                none = f"`amend {event.seq} {name} {'…' if name == 'penalty' else '?'}`"
                remedy = f"Point it elsewhere: {none}; or void it too: `void {event.seq} its target was voided`."
                step = checked.step_of.get(event.seq)
                yield POINTS_AT_VOIDED.about(message, remedy, seq=event.seq, at=step.at if step else None)


def _pointers(event: Event) -> Iterator[tuple[str, int]]:
    if event.after is not None:
        yield "after", event.after
    if isinstance(event, Goal) and event.ends is not None:
        yield "ends", event.ends
    elif isinstance(event, PenaltyEnded):
        yield "penalty", event.penalty


def check_endings(checked: Checked) -> Iterator[Finding]:
    """Check that a door and a ruling are of a penalty of that side, and that a ruling has something to end."""
    for step, event in checked.of(PenaltyEnded):
        penalty = checked.penalties.get(event.penalty)
        if penalty is None or penalty.team != event.team:
            if checked.counting(event.penalty) is not None:
                message = f"Event {event.penalty} is no penalty of {event.team}."
                remedy = f"Write the number of the penalty's entry: `amend {event.seq} penalty …`."
                yield POINTS_ELSEWHERE.of(step, message, remedy)
        elif event.cause == "ruling" and not _ends_something(step):
            message = f"The ruling ends penalty #{event.penalty}, of which nothing is left."
            remedy = f"`amend {event.seq} penalty …`, or `amend {event.seq} clock …`"
            yield NOTHING_TO_END.of(step, message, f"Put it right: {remedy}.")


def _ends_something(step: Step) -> bool:
    return any(isinstance(change, PartEnded) and change.fate == "ended by ruling" for change in step.changes)


CHECKS = (
    check_ends,
    check_on_clock,
    check_delayed_calls,
    check_penalty_shots,
    check_pointers,
    check_endings,
)
