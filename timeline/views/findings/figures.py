"""Totals that stand elsewhere, against those that follow from the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from ...events import Figures, Goal, PenaltyShot, Shot, Team
from ...fold.draft import other
from .checked import Checked
from .finding import Finding, Kind
from .step import Step

__all__ = ["CHECKS"]

FIGURES_DIFFER = Kind(
    "figures_differ",
    "warning",
    "Goals, shots or saves that stand elsewhere are not those of the record.",
    "Compare them; write what is missing, or put the figure right.",
)
SHOTS_NOT_KEPT = Kind(
    "shots_not_kept",
    "note",
    "There are figures of shots or saves, and the record has no shots to compare them with.",
    "Nothing, or write the shots, if only as tallies by period.",
)

NAMES = ("goals", "shots", "saves")


def check_figures(checked: Checked) -> Iterator[Finding]:
    """Check that the figures of others are those of the record."""
    attempts = [*_attempts(checked)]
    has_shots = any(checked.of(Shot))
    for step, event in checked.of(Figures):
        found = _derived([one for one in attempts if _counts(one.step, step, event)], event)
        for name in NAMES:
            told = getattr(event, name)
            comparable = has_shots or name == "goals"
            if told is not None and comparable and told not in _acceptable(checked, event, name, found[name]):
                message = (
                    f"{_whose(event)} of the {event.source}: {name} {told}; the record has {found[name]}{_when(event)}."
                )
                remedy = f"Compare them: write what is missing, or `amend {event.seq} {name} {found[name]}`."
                yield FIGURES_DIFFER.of(step, message, remedy)


def _whose(event: Figures) -> str:
    return f"{event.team} figures" if event.goalie is None else f"Figures of {event.team} goalkeeper {event.goalie}"


def _when(event: Figures) -> str:
    return "" if event.period is None else f" in period {event.period}"


def _acceptable(checked: Checked, event: Figures, name: str, found: int) -> set[int]:
    """What the figure may be; a board adds the goal of a shootout to the winner's score."""
    final = checked.game.summary.final
    shootout = final.decided_in == "shootout" and final.winner == event.team
    if name == "goals" and event.period is None and event.goalie is None and shootout:
        return {found, found + 1}
    return {found}


@frozen
class Attempts:
    """Goals of a side, or its shots that were saved, in one event, and whoever was in the other net."""

    step: Step
    team: Team
    goals: int
    saved: int
    goalie: str | None


def _attempts(checked: Checked) -> Iterator[Attempts]:
    for step, event in checked.attempts:
        goals = int(isinstance(event, Goal) or (isinstance(event, PenaltyShot) and event.result == "scored"))
        saved = int(isinstance(event, PenaltyShot) and event.result == "saved")
        if isinstance(event, Shot):
            saved = 1 if event.count is None else event.count
        yield Attempts(step, event.team, goals, saved, step.after.side(other(event.team)).goalie)


def _counts(step: Step, figures: Step, event: Figures) -> bool:
    """Whether an event is within the period, or the game, that the figures tell, and not later than they are."""
    if event.period is not None and step.period != event.period:
        return False
    at_the_reading = step.period == figures.period and figures.played is not None and step.played == figures.played
    return step.index < figures.index or at_the_reading


def _derived(attempts: Sequence[Attempts], figures: Figures) -> Mapping[str, int]:
    """Goals, shots and saves of the side, or those against its goalkeeper."""
    if figures.goalie is not None:
        faced = [one for one in attempts if one.team != figures.team and one.goalie == figures.goalie]
        goals, saves = sum(one.goals for one in faced), sum(one.saved for one in faced)
        return {"goals": goals, "shots": goals + saves, "saves": saves}
    goals = sum(one.goals for one in attempts if one.team == figures.team)
    saved = sum(one.saved for one in attempts if one.team == figures.team)
    saves = sum(one.saved for one in attempts if one.team != figures.team)
    return {"goals": goals, "shots": goals + saved, "saves": saves}


def check_shots_kept(checked: Checked) -> Iterator[Finding]:
    """Check whether there are shots to compare figures with."""
    told = [event for _, event in checked.of(Figures) if event.shots is not None or event.saves is not None]
    if told and not any(checked.of(Shot)):
        message = "There are figures of shots or saves, but the record has no shots to compare them with."
        remedy = f"Nothing has to be done; a tally is enough: {checked.adding('period 1 home shots …')}."
        yield SHOTS_NOT_KEPT.about(message, remedy, seq=told[0].seq)


CHECKS = (check_figures, check_shots_kept)
