"""What can be asked in a stream: ``{"ask": "box", "at": "2 7:42"}``."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import evolve, frozen

from ...timeline.game import Game, Instant
from ...timeline.problems import Problem, ProblemsFound
from ..answers.box import box_answer
from ..answers.check import check_answer
from ..answers.penalties import penalties_answer
from ..answers.stream import forecast_answer, now_answer
from ..answers.strength import at_answer, segments_answer
from ..answers.summary import summary_answer
from ..times import typed_moment

__all__ = ["ASKS", "asked"]

Answer = dict[str, Any]


@frozen
class Ask:
    """One thing to ask.

    Attributes:
        whole: the answer about the game so far.
        at: the answer about one time in it; None where there is none.
    """

    whole: Callable[[Game], Answer]
    at: Callable[[Instant], Answer] | None = None


ASKS: Mapping[str, Ask] = {
    "now": Ask(now_answer),
    "forecast": Ask(forecast_answer),
    "strength": Ask(segments_answer, at_answer),
    "box": Ask(lambda game: box_answer(game.now), box_answer),
    "penalties": Ask(penalties_answer),
    "summary": Ask(summary_answer),
    "check": Ask(lambda game: check_answer(game.header, game.findings)),
}
"""What is understood, by its name. The shapes are those of the commands of these names."""


def asked(data: Mapping[str, Any], game: Game | None) -> Answer:
    """The answer to what the object `data` asks.

    Raises:
        ProblemsFound: nothing of the kind can be asked, or no game is open yet.
    """
    name = data["ask"]
    ask = ASKS.get(name) if isinstance(name, str) else None
    problems = list(_wrong(data, ask))
    if ask is None or problems:
        raise ProblemsFound(problems)
    if game is None:
        message = "No game is open yet, so there is nothing to ask."
        raise ProblemsFound([Problem(code="not_opened", message=message, fix='Send a "game_opened" first.')])
    if data.get("at") is None:
        return {"ask": name, **ask.whole(game)}
    assert ask.at is not None
    return {"ask": name, **ask.at(game.at(_moment(data["at"], game)))}


def _wrong(data: Mapping[str, Any], ask: Ask | None) -> list[Problem]:
    from ...timeline.wording import did_you_mean, show

    problems = []
    if ask is None:
        known = ", ".join(ASKS)
        fix = did_you_mean(str(data["ask"]), ASKS) or f"What can be asked is {known}."
        message = f"There is no {show(data['ask'])} to ask for."
        problems.append(Problem(code="unknown_ask", message=message, fix=fix, field="ask"))
    for field in data.keys() - {"ask", "at"}:
        message = "A line that asks has no such field."
        fix = "It has ask and perhaps at; an event is sent without ask."
        problems.append(Problem(code="unknown_field", message=message, fix=fix, field=field))
    at = data.get("at")
    if at is not None and type(at) is not str:
        message = f'Expected a game time such as "2 7:42", found {show(at)}.'
        problems.append(Problem(code="wrong_type", message=message, field="at"))
    elif at is not None and ask is not None and ask.at is None:
        message = f"What {show(data['ask'])} answers is about the whole game so far."
        problems.append(Problem(code="unknown_field", message=message, fix="Leave at out.", field="at"))
    return sorted(problems, key=lambda problem: problem.field or "")


def _moment(text: str, game: Game) -> Any:
    try:
        return typed_moment(text, game.rules)
    except ProblemsFound as found:
        fix = 'Write the period and what the board shows: {"at": "2 7:42"}, in overtime {"at": "OT 3:10"}.'
        raise ProblemsFound(evolve(problem, fix=fix, field="at") for problem in found.problems) from None
