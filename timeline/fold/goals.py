"""What a goal ends, how strong it is, and what becomes of a call whose arm was up (section 6 of the penalty model)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from ..events import Goal, PenaltyAssessed, Team
from .changes import GoalJudged, GoalStrength
from .draft import Draft, SideDraft, other
from .rulebook import (
    GOAL_CHOICE,
    GOAL_FIRST,
    GOAL_LEAST_TIME,
    GOAL_NOTHING,
    GOAL_OWN_MINOR,
    SWAP,
    Rule,
)
from .slots import clock_part_over
from .state import Chain, GoalContext
from .whistle import end_game, set_running, stop

__all__ = ["Relation", "first_minor_washed_out", "score_goal"]

Relation = Literal["short-handed", "level", "power play"]


def score_goal(draft: Draft, team: Team, goal: Goal | None) -> None:
    """A goal for `team`; `goal` is ``None`` for one on a penalty shot.

    It is judged by the skaters on the ice as play last went on, after what has run out.
    """
    again = not draft.in_play
    stop(draft, implied=True)
    conceding = other(team)
    relation = standing(draft, conceding)
    plain = goal is not None and not goal.awarded
    can_end = plain or _may_end_a_minor(draft, goal)
    ends = goal.ends if goal is not None else None
    ended = can_end and relation == "short-handed" and end_a_minor(draft, draft.side(conceding), ends, again=again)
    if can_end and relation == "power play" and draft.rules.goals.shorthanded_ends_own_minor:
        end_a_minor(draft, draft.side(team), ends, GOAL_OWN_MINOR, again=again)
    if can_end:
        remember(draft, GoalContext(conceding, relation, ended, False, draft.seq or 0, ends))
    strength: GoalStrength | None = _STRENGTHS[relation] if plain else None
    rule = GOAL_NOTHING if not ended else _choosing_rule(draft)
    draft.changes.append(GoalJudged(draft.now, draft.period, draft.seq, rule, team, strength))
    _count_goal(draft, team)


_STRENGTHS: dict[Relation, GoalStrength] = {
    "short-handed": "power play",
    "level": "even",
    "power play": "short-handed",
}


def _may_end_a_minor(draft: Draft, goal: Goal | None) -> bool:
    rules = draft.rules.goals
    return rules.penalty_shot_ends_minor if goal is None else rules.awarded_ends_minor


def _count_goal(draft: Draft, team: Team) -> None:
    """Add the goal; in overtime under sudden victory it ends a level game."""
    level = draft.seen_home.score == draft.seen_away.score
    draft.side(team).score += 1
    set_running(draft)
    if level and draft.period > draft.rules.game.periods and draft.rules.overtime.sudden_victory:
        end_game(draft)


def standing(draft: Draft, team: Team) -> Relation:
    """How `team` stands against its opponent, by the skaters that penalties leave each."""
    difference = draft.seen(team).on_ice - draft.seen(other(team)).on_ice
    return "short-handed" if difference < 0 else "level" if difference == 0 else "power play"


def remember(draft: Draft, goal: GoalContext) -> None:
    """Keep the last goal of this stoppage against each side."""
    draft.goals = (*[one for one in draft.goals if one.conceding != goal.conceding], goal)


def end_a_minor(
    draft: Draft,
    side: SideDraft,
    ends: int | None,
    rule: Rule | None = None,
    seq: int | None = None,
    *,
    again: bool = False,
) -> bool:
    """End one running minor of `side` that is not half of a lone pair; false if none is ended.

    `again` for a second goal at one reading: what the first one started was not running when it was scored.
    Source: IIHF Table 14; Hockey Canada 4.2.
    """
    which = draft.rules.goals.ends_minor
    candidates = [
        chain
        for chain in side.slots
        if chain.clock[0].is_minor
        and not chain.clock[0].lone
        and not (again and chain.clock[0].begun and chain.clock[0].served_at(draft.now) == 0)
    ]
    if not candidates or which == "none":
        return False
    if which == "least_time_left":
        chosen, chosen_rule = _least_time_left(draft, candidates, ends)
    else:
        chosen, chosen_rule = min(candidates, key=_assessed), GOAL_FIRST
    clock_part_over(draft, side, chosen, "ended by goal", rule or chosen_rule, seq)
    return True


def _assessed(chain: Chain) -> tuple[int, int]:
    return chain.clock[0].assessed


def _least_time_left(draft: Draft, candidates: Sequence[Chain], ends: int | None) -> tuple[Chain, Rule]:
    """The minor with the least time left; among equals the captain's choice, else the one assessed first.

    Source: IIHF 2023/24 Table 14, examples C4 to C9.
    """
    if len(candidates) == 1:
        return candidates[0], GOAL_LEAST_TIME
    least = min(chain.clock[0].left_at(draft.now) for chain in candidates)
    equals = sorted((chain for chain in candidates if chain.clock[0].left_at(draft.now) == least), key=_assessed)
    if len(equals) > 1:
        return next((chain for chain in equals if chain.clock[0].penalty == ends), equals[0]), GOAL_CHOICE
    return equals[0], GOAL_LEAST_TIME


def _choosing_rule(draft: Draft) -> Rule:
    return GOAL_LEAST_TIME if draft.rules.goals.ends_minor == "least_time_left" else GOAL_FIRST


def first_minor_washed_out(draft: Draft, call: PenaltyAssessed, minors: Sequence[int]) -> int | None:
    """The index of the minor of a delayed `call` that the goal at its reading washes out; ``None`` if all is served.

    `minors` are the indexes of the call's minors that are to be served. A running minor of a level side may end instead
    (`delayed_call.even` = ``"swap"``), which this carries out. Source: IIHF 2018-22, goal situations; Hockey Canada
    4.2, 4.15.
    """
    goal = next((goal for goal in draft.goals if goal.conceding == call.team), None)
    if goal is None or not call.delayed_call or not minors:
        return None
    if goal.ended or goal.washed or draft.rules.goals.ends_minor == "none":
        return None
    if not _washes(draft, goal):
        return None
    remember(draft, goal._replace(washed=True))
    return minors[0]


def _washes(draft: Draft, goal: GoalContext) -> bool:
    """Whether the goal washes out the first minor called, as the side scored on stood."""
    rules = draft.rules.delayed_call
    if goal.relation == "power play":
        return rules.shorthanded_goal == "wash"
    if goal.relation == "short-handed":
        return True
    if rules.even == "swap" and end_a_minor(draft, draft.side(goal.conceding), goal.ends, SWAP, goal.seq):
        remember(draft, goal._replace(ended=True))
        return False
    return rules.even != "serve"
