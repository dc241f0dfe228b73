"""Which steps say most about why something is as it is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set

from ...fold.changes import (
    Ejected,
    GameEnded,
    GoalieChanged,
    GoalJudged,
    Held,
    PartEnded,
    PartSetAside,
    PartStarted,
    PartSuspended,
    PenaltyCalled,
    Returned,
    ReturnWithdrawn,
    StrengthChanged,
    Waits,
)
from ...fold.rulebook import (
    GOAL_STARTS_NEXT,
    HELD_LONGEST,
    OVERTIME_ADDS,
    TWO_SLOTS,
)
from .narrate import Step

__all__ = ["MOST", "most_telling"]

MOST = 2
"""How many reasons stand below a short answer."""

_BY_THE_RULE = {HELD_LONGEST: 8, OVERTIME_ADDS: 8, GOAL_STARTS_NEXT: 8, TWO_SLOTS: 7}
_BY_THE_CHANGE = {
    Held: 8,
    ReturnWithdrawn: 8,
    PartSetAside: 7,
    PartSuspended: 7,
    GameEnded: 9,
    Ejected: 5,
    StrengthChanged: 6,
    PartStarted: 5,
    Returned: 4,
    PenaltyCalled: 3,
}
_ORDINARY = 1
_USUAL_FATES = ("served", "offset")


def most_telling(steps: Sequence[Step], most: int = MOST, *, standing: bool = False) -> list[Step]:
    """The steps that say most, the later ones among equals, in their order.

    Steps of one rule at one tenth are one reason; at most `most` reasons are given. `standing` if only what still lasts
    after the last step is wanted: not that somebody waited, sat for another or was offset whose time is over.
    """
    past = _past(steps) if standing else set()
    ranked = sorted(enumerate(steps), key=lambda item: (-_weight(item[1], past), -item[0]))
    reasons: list[tuple[str, int]] = []
    for _, step in ranked:
        if (reason := _reason(step)) not in reasons and len(reasons) < most:
            reasons.append(reason)
    return [step for step in steps if _reason(step) in reasons and _weight(step, past) > _ORDINARY]


def _reason(step: Step) -> tuple[str, int]:
    return step.rule.name, step.tenth


def _weight(step: Step, past: Set[int]) -> int:
    change = step.change
    if id(step) in past:
        return 2
    if step.stands_in:
        return 7
    if isinstance(change, PartEnded):
        return 5 if change.fate in _USUAL_FATES else 9
    if isinstance(change, GoalJudged):
        return 8 if "it ends nothing" in step.text else _ORDINARY
    if isinstance(change, GoalieChanged):
        return 3 if change.goalie is None else _ORDINARY
    if isinstance(change, Waits):
        return 9
    return _BY_THE_RULE.get(step.rule) or _BY_THE_CHANGE.get(type(change), _ORDINARY)


def _past(steps: Sequence[Step]) -> set[int]:
    """The steps, by identity, whose effect is over when the last of `steps` is made."""
    return {id(step) for index, step in enumerate(steps) if _is_over(step, steps[index + 1 :])}


def _is_over(step: Step, later: Iterable[Step]) -> bool:
    """Whether the one who waited got a place, the stand-in left, or what was set aside was served."""
    change = step.change
    if step.stands_in:
        return any(isinstance(one.change, Returned) and step.penalties <= one.penalties for one in later)
    if isinstance(change, Waits):
        return any(isinstance(one.change, PartStarted) and one.penalties == step.penalties for one in later)
    if isinstance(change, PartSetAside):
        return any(isinstance(one.change, PartEnded) and one.penalties == step.penalties for one in later)
    return False
