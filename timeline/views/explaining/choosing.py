"""Which steps belong to a question: what was about the same penalties, and the goals between."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Set

from ...events import Team
from ...fold.changes import GoalieChanged, GoalJudged, PartEnded, PartStarted, PartSuspended, StrengthChanged
from ...fold.state import GameState
from .narrate import Step

__all__ = [
    "about",
    "empty_nets",
    "goals_against",
    "last_strength",
    "numbers",
    "running_after",
    "sat_for",
    "strengths_while",
]


def numbers(steps: Iterable[Step], wanted: Callable[[Step], bool]) -> set[int]:
    """The causes of the steps that are wanted."""
    return {step.number for step in steps if wanted(step)}


def about(steps: Iterable[Step]) -> set[int]:
    """The penalties that `steps` are about."""
    return {penalty for step in steps for penalty in step.penalties}


def sat_for(state: GameState) -> set[int]:
    """The penalties that somebody sits for."""
    found: set[int] = set()
    for side in (state.home, state.away):
        for chain in side.chains():
            found.update(part.penalty for part in chain.clock + chain.off_the_clock)
        for sitter in side.held + side.finished:
            found.update(sitter.penalties)
    return found


def last_strength(steps: Iterable[Step]) -> Step | None:
    """The step that last changed the skaters or goalkeepers."""
    return next((step for step in reversed([*steps]) if isinstance(step.change, StrengthChanged)), None)


def running_after(steps: Iterable[Step]) -> dict[tuple[int, int], PartStarted]:
    """The parts that run on the clock when `steps` are made."""
    running: dict[tuple[int, int], PartStarted] = {}
    for step in steps:
        change = step.change
        if isinstance(change, PartStarted) and change.on_clock:
            running[change.penalty, change.index] = change
        elif isinstance(change, PartEnded | PartSuspended):
            running.pop((change.penalty, change.index), None)
    return running


def strengths_while(steps: Iterable[Step], penalties: Set[int]) -> set[Step]:
    """The changes of the skaters while one of these penalties ran on the clock."""
    told: list[Step] = []
    found: set[Step] = set()
    for step in steps:
        if isinstance(step.change, StrengthChanged) and penalties & {one for one, _ in running_after(told)}:
            found.add(step)
        told.append(step)
    return found


def goals_against(steps: Iterable[Step], penalties: Set[int]) -> set[int]:
    """The goals against a side while one of these penalties of it ran on the clock."""
    told: list[Step] = []
    found: set[int] = set()
    for step in steps:
        change = step.change
        if isinstance(change, GoalJudged):
            running = running_after(told).values()
            if any(one.penalty in penalties and one.team != change.team for one in running):
                found.add(step.number)
        told.append(step)
    return found


def empty_nets(steps: Iterable[Step]) -> set[int]:
    """Where the goalkeepers were taken out that are out when `steps` are made."""
    nets: dict[Team, Step] = {}
    for step in steps:
        if isinstance(step.change, GoalieChanged):
            nets[step.change.team] = step
    return {step.number for step in nets.values() if getattr(step.change, "goalie", None) is None}
