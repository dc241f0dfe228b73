"""Goals, shots, penalty shots and the shootout."""

from __future__ import annotations

from ...timeline.events import Goal, PenaltyShot, ShootoutAttempt, Shot, Team
from ...timeline.fold.changes import GameEnded
from ...timeline.views.goalkeepers import shots_on_goal
from ...timeline.views.goals import GoalLine
from ..tables.summary import goal_text, scorers
from ..words import TEAMS
from .entered import Entered
from .leaving import consequences

__all__ = ["goal", "penalty_shot", "shootout_attempt", "shot"]

Said = tuple[str, str]


def goal(entered: Entered, event: Goal) -> Said:
    """The score, the strength, what it ended, and who leaves."""
    line = _line_of(entered)
    what = f"goal, {event.team}" if line is None else f"goal, {event.team} {scorers(line, entered.people)}"
    return what, "; ".join([_score_after(entered), *_judged(entered, line), *consequences(entered), *_over(entered)])


def _line_of(entered: Entered) -> GoalLine | None:
    return next((line for line in entered.game.goals if line.seq == entered.event.seq), None)


def _judged(entered: Entered, line: GoalLine | None) -> list[str]:
    text = "" if line is None else goal_text(entered.game, line, entered.people)
    return [text] if text else []


def _score_after(entered: Entered) -> str:
    """The score when this one had been scored, home first."""
    score: dict[Team, int] = dict.fromkeys(TEAMS, 0)
    for line in entered.game.goals:
        score[line.team] += 1
        if line.seq == entered.event.seq:
            break
    return f"{score['home']}-{score['away']}"


def _over(entered: Entered) -> list[str]:
    return ["the game is over"] if any(entered.changes(GameEnded)) else []


def shot(entered: Entered, event: Shot) -> Said:
    """The shots on goal of the side so far, goals included."""
    counts = [count for count in shots_on_goal(entered.game.folded) if count.team == event.team]
    so_far = sum(count.shots for count in counts)
    period = sum(count.shots for count in counts if count.period == event.period)
    many = 1 if event.count is None else event.count
    player = f" {entered.people.called(event.team, event.player)}" if event.player is not None else ""
    what = f"{event.team}{player}, {'shot' if many == 1 else f'{many} shots'}"
    return what, f"{event.team} shots on goal {period} in the period, {so_far} in the game"


def penalty_shot(entered: Entered, event: PenaltyShot) -> Said:
    """What came of it, and the score."""
    what = f"penalty shot, {event.team} {entered.people.called(event.team, event.player)} {event.result}"
    if event.result != "scored":
        return what, "; ".join(consequences(entered))
    return what, "; ".join([_score_after(entered), *consequences(entered), *_over(entered)])


def shootout_attempt(entered: Entered, event: ShootoutAttempt) -> Said:
    """How the shootout stands."""
    scored = dict.fromkeys(TEAMS, 0)
    for one in entered.game.folded.placed:
        if isinstance(one.event, ShootoutAttempt) and one.event.result == "scored":
            scored[one.event.team] += 1
        if one.event.seq == event.seq:
            break
    what = f"shootout, {event.team} {entered.people.called(event.team, event.player)} {event.result}"
    return what, f"{scored['home']}-{scored['away']} in the shootout"
