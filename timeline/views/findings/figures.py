"""Totals that stand elsewhere, against those that follow from the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

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
    has_shots = any(isinstance(step.event, Shot) for step in checked.steps)
    for step, event in checked.of(Figures):
        found = _derived(checked, step, event)
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


def _derived(checked: Checked, figures: Step, event: Figures) -> Mapping[str, int]:
    """Goals, shots and saves of the side, or those against its goalkeeper, up to where the figures stand."""
    side = event.team if event.goalie is None else other(event.team)
    goals, shots, saves = 0, 0, 0
    for step in checked.steps:
        if not _counts(step, figures, event):
            continue
        keeper = step.after.side(other(side))
        scored, stopped = _attempts(step, side)
        if event.goalie is None:
            _, own_saves = _attempts(step, other(side))
            goals, shots, saves = goals + scored, shots + scored + stopped, saves + own_saves
        elif keeper.goalie == event.goalie:
            goals, shots, saves = goals + scored, shots + scored + stopped, saves + stopped
    return {"goals": goals, "shots": shots, "saves": saves}


def _counts(step: Step, figures: Step, event: Figures) -> bool:
    """Whether an event is within the period, or the game, that the figures tell, and not later than they are."""
    if event.period is not None and step.period != event.period:
        return False
    at_the_reading = step.period == figures.period and figures.played is not None and step.played == figures.played
    return step.index < figures.index or at_the_reading


def _attempts(step: Step, team: Team) -> tuple[int, int]:
    """Goals of `team` and its shots that were saved, in one event."""
    event = step.event
    if not isinstance(event, Goal | Shot | PenaltyShot) or event.team != team:
        return 0, 0
    if isinstance(event, Shot):
        return 0, 1 if event.count is None else event.count
    if isinstance(event, PenaltyShot):
        return int(event.result == "scored"), int(event.result == "saved")
    return 1, 0


def check_shots_kept(checked: Checked) -> Iterator[Finding]:
    """Check whether there are shots to compare figures with."""
    told = [event for _, event in checked.of(Figures) if event.shots is not None or event.saves is not None]
    if told and not any(isinstance(step.event, Shot) for step in checked.steps):
        message = "There are figures of shots or saves, but the record has no shots to compare them with."
        remedy = f"Nothing has to be done; a tally is enough: {checked.adding('period 1 home shots …')}."
        yield SHOTS_NOT_KEPT.about(message, remedy, seq=told[0].seq)


CHECKS = (check_figures, check_shots_kept)
