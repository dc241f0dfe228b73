"""Every goal with its strength, and what it ended."""

from __future__ import annotations

from attrs import frozen

from ..events import Goal, PenaltyShot, Team
from ..fold.changes import GoalJudged, GoalStrength, PartEnded
from ..folded import FoldedGame
from ..moment import Moment

__all__ = ["GoalLine", "goal_lines"]


@frozen
class GoalLine:
    """A goal as the record shows it; which minor it ends and how strong it is stands in section 6 of the penalty model.

    Attributes:
        seq: the event.
        team: the side credited.
        scorer, assists: numbers; None: not known.
        at, tenth: when: the moment, and tenths played since the opening faceoff.
        strength: ``"even"``, ``"power play"`` or ``"short-handed"``; None for a penalty shot or an awarded
            goal.
        penalty_shot, awarded, own_goal: what kind of goal it was.
        label: skaters on the ice when it was scored, home first, extra attackers included.
        ended: the penalties of which it ended a part.
        empty_net: scored into an empty net, by the goalie record, or as seen where nobody was named in net.
    """

    seq: int
    team: Team
    scorer: str | None
    assists: tuple[str, ...]
    at: Moment
    tenth: int
    strength: GoalStrength | None
    empty_net: bool
    penalty_shot: bool
    awarded: bool
    own_goal: bool
    label: str
    ended: tuple[int, ...]


def goal_lines(game: FoldedGame) -> tuple[GoalLine, ...]:
    """Every goal that counts, in game order; a scored penalty shot is a goal."""
    ended: dict[int, list[int]] = {}
    for change in game.changes_of(PartEnded):
        if change.fate == "ended by goal" and change.seq is not None:
            ended.setdefault(change.seq, []).append(change.penalty)
    lines = []
    for placed, state, changes in zip(game.placed, game.states, game.changes, strict=True):
        event = placed.event
        judged = next((change for change in changes if isinstance(change, GoalJudged)), None)
        if judged is not None and isinstance(event, Goal | PenaltyShot):
            conceding = state.away if event.team == "home" else state.home
            home, away = state.home.skaters, state.away.skaters
            goal = event if isinstance(event, Goal) else None
            seen_empty = conceding.goalie == "" and goal is not None and bool(goal.empty_net)
            lines.append(
                GoalLine(
                    event.seq,
                    event.team,
                    goal.scorer if goal else _shooter(event),
                    (goal.assists or ()) if goal else (),
                    game.moment(state.ice.period, state.now),
                    state.now,
                    judged.strength,
                    conceding.goalie is None or seen_empty,
                    goal is None,
                    bool(goal and goal.awarded),
                    bool(goal and goal.own_goal),
                    f"{home} on {away}",
                    tuple(ended.get(event.seq, ())),
                )
            )
    return tuple(lines)


def _shooter(event: Goal | PenaltyShot) -> str | None:
    return event.player if isinstance(event, PenaltyShot) else event.scorer
