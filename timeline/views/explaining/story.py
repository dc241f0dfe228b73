"""Why a game stands as it does: the story of an instant, a penalty or a goal, step by step.

An explanation is made from the changes that the fold told, each with its event and its rule. Nothing is judged a second
time: what is chosen here is only which of them belong to the question, and which say most.
"""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from ...events import PenaltyAssessed
from ...fold.changes import Ejected, GoalJudged, PenaltyCalled, PowerPlayCounted, StrengthChanged
from ...folded import FoldedGame
from ...game import Game, Instant
from .ahead import supposed
from .causes import blocks_of
from .choosing import (
    about,
    empty_nets,
    goals_against,
    last_strength,
    numbers,
    running_after,
    sat_for,
    strengths_while,
)
from .naming import Naming, Numbers
from .narrate import Cause, Setting, Step, narrate
from .telling import most_telling

__all__ = ["Cause", "Explanation", "Naming", "Setting", "Step", "explain_goal", "explain_instant", "explain_penalty"]

_NUMBERS = Numbers()


@frozen
class Explanation:
    """The steps in game order, and those of them that say most."""

    steps: tuple[Step, ...]
    decisive: tuple[Step, ...]


def explain_instant(instant: Instant, naming: Naming = _NUMBERS) -> Explanation:
    """Why so many skate at `instant`, and why these people sit.

    The life so far of each penalty that somebody sits for, what happened at that very tenth, and what last changed the
    skaters.
    """
    game, state = instant.game.folded, instant.state
    place = (state.period, state.now)
    blocks = [*blocks_of(game), *supposed(game, state.period, state.played)]
    told = [step for step in narrate(game, blocks, naming) if _place(step) <= place]
    here = numbers(told, lambda step: _place(step) == place)
    strength = last_strength(told)
    penalties = sat_for(state) | about(step for step in told if step.number in here)
    wanted = here | numbers(told, lambda step: step is strength or bool(step.penalties & penalties))
    wanted |= goals_against(told, penalties) | empty_nets(told)
    strengths = strengths_while(told, penalties)
    steps = [
        step
        for step in told
        if step in strengths or (step.number in wanted and not isinstance(step.change, PowerPlayCounted))
    ]
    reasons = [
        step
        for step in steps
        if _place(step) == place or not isinstance(step.change, StrengthChanged) or step is strength
    ]
    return Explanation(tuple(steps), tuple(most_telling(reasons, standing=True)))


def _place(step: Step) -> tuple[int, int]:
    return step.change.period, step.tenth


def explain_penalty(game: Game, seq: int, naming: Naming = _NUMBERS) -> Explanation:
    """What became of the penalty with this `seq`, from the call to the door.

    Raises:
        KeyError: no penalty with this `seq` counts.
    """
    folded = game.folded
    penalty = folded.penalties[seq]
    told = _whole_story(folded, naming)
    wanted = numbers(told, lambda step: seq in step.penalties) | goals_against(told, {seq})
    if penalty.delayed_call:
        call = next(step for step in told if isinstance(step.change, PenaltyCalled) and step.change.penalty == seq)
        wanted |= numbers(told, lambda step: isinstance(step.change, GoalJudged) and _place(step) == _place(call))
    steps = [step for step in told if step.number in wanted]
    own = [step for step in steps if _is_about(step, penalty)]
    return Explanation(tuple(steps), tuple(most_telling(own)))


def _whole_story(game: FoldedGame, naming: Naming) -> list[Step]:
    """Every step of the record; in a stoppage with what comes if play resumes."""
    return narrate(game, [*blocks_of(game), *supposed(game, game.last.period, game.last.played)], naming)


def _is_about(step: Step, penalty: PenaltyAssessed) -> bool:
    change = step.change
    if isinstance(change, Ejected):
        return change.team == penalty.team and change.player == penalty.player
    return penalty.seq in step.penalties or (isinstance(change, GoalJudged) and change.team != penalty.team)


def explain_goal(game: Game, seq: int, naming: Naming = _NUMBERS) -> Explanation:
    """Why the goal with this `seq` has its strength, what it ended, and why.

    Raises:
        KeyError: no goal with this `seq` counts.
    """
    told = _whole_story(game.folded, naming)
    judged = next((step for step in told if isinstance(step.change, GoalJudged) and step.change.seq == seq), None)
    if judged is None:
        raise KeyError(seq)
    return _story_of_goal(told, judged)


def _story_of_goal(told: Sequence[Step], judged: Step) -> Explanation:
    before = [step for step in told if step.number < judged.number]
    strength = last_strength(before)
    running = {penalty for penalty, _ in running_after(before)}
    at_this_stoppage = numbers(
        told,
        lambda step: (
            _place(step) == _place(judged)
            and (isinstance(step.change, PenaltyCalled) or (step.number > judged.number and _is_strength(step)))
        ),
    )
    wanted = {judged.number} | at_this_stoppage | empty_nets(before)
    wanted |= numbers(before, lambda step: step is strength or bool(step.penalties & running))
    steps = [step for step in told if step.number in wanted and not isinstance(step.change, PowerPlayCounted)]
    here = [step for step in steps if step.number in {judged.number} | at_this_stoppage and not _is_strength(step)]
    reasons = [*([strength] if strength else []), *most_telling(here, 1)]
    return Explanation(tuple(steps), tuple(reasons))


def _is_strength(step: Step) -> bool:
    return isinstance(step.change, StrengthChanged)
