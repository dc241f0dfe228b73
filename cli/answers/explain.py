"""`explain --json`: the answer, and the story in order."""

from __future__ import annotations

from typing import Any

from ...timeline.game import Game
from ...timeline.views.explaining.story import Explanation, Setting, Step
from ..explaining import Question
from .box import box_answer
from .common import head, seconds, time
from .penalties import penalties_answer
from .strength import at_answer
from .summary import summary_answer

__all__ = ["explain_answer", "step_answer"]

_HEAD = ("rinkfold", "game", "ruleset")


def explain_answer(game: Game, question: Question, explanation: Explanation, *, names: bool = False) -> dict[str, Any]:
    """``{"about", "answer", "steps": [step]}``; `answer` is what the command for it alone would say."""
    return {
        **head(game.header),
        "about": _about(question),
        "answer": _answer(game, question, names=names),
        "steps": [step_answer(step, decisive=step in explanation.decisive) for step in explanation.steps],
    }


def _about(question: Question) -> dict[str, Any]:
    if question.instant is not None:
        return {"at": time(question.instant.at)}
    return {"penalty": question.penalty} if question.penalty is not None else {"goal": question.goal}


def _answer(game: Game, question: Question, *, names: bool) -> dict[str, Any]:
    """Skaters and box at the instant, the life of the penalty, or the goal, of the shapes of those commands."""
    if question.instant is not None:
        return {
            "strength": _without_head(at_answer(question.instant)),
            "box": {team: box_answer(question.instant)[team] for team in ("home", "away")},
        }
    if question.penalty is not None:
        lives = penalties_answer(game, names=names)["penalties"]
        return next(dict(life) for life in lives if life["penalty"] == question.penalty)
    return next(dict(goal) for goal in summary_answer(game)["goals"] if goal["seq"] == question.goal)


def _without_head(answer: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in answer.items() if name not in _HEAD}


def step_answer(step: Step, *, decisive: bool) -> dict[str, Any]:
    """One step; `at_s` is played time since the opening faceoff."""
    return {
        "at": time(step.at),
        "at_s": seconds(step.tenth),
        "cause": {"kind": step.cause.kind, "seq": step.cause.seq, "text": step.cause.text},
        "change": step.what,
        "team": step.team,
        "penalties": sorted(step.penalties),
        "text": step.text,
        "rule": step.rule.name,
        "source": step.rule.source,
        "knob": None if step.setting is None else _knob(step.setting),
        "decisive": decisive,
    }


def _knob(setting: Setting) -> dict[str, Any]:
    return {
        "name": setting.name,
        "value": setting.value,
        "source": setting.source or None,
        "overridden": setting.overridden,
    }
