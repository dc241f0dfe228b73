"""What is to be explained: an instant, a penalty or a goal; and what somebody probably meant who asked for none."""

from __future__ import annotations

from typing import NoReturn

from attrs import frozen

from ..timeline.events import Amend, Event, Goal, PenaltyAssessed, PenaltyShot, Void
from ..timeline.game import Game, Instant
from ..timeline.record.amendments import voided_by
from ..timeline.script.corrections import effective
from ..timeline.views.explaining.story import Explanation, explain_goal, explain_instant, explain_penalty
from .errors import refuse
from .event_words import event_said
from .people import People
from .times import typed_moment

__all__ = ["Question", "asked", "explained"]


@frozen
class Question:
    """What was asked for; one of the three is set."""

    instant: Instant | None = None
    penalty: int | None = None
    goal: int | None = None


def asked(game: Game, file: str, *, at: str | None, penalty: str | None, goal: str | None) -> Question:
    """The one question that was asked of the game in `file`.

    Raises:
        ProblemsFound: none or several, or the event is not of the kind.
    """
    given = [name for name, value in {"--at": at, "--penalty": penalty, "--goal": goal}.items() if value is not None]
    if len(given) != 1:
        _refuse_number(given, file)
    if at is not None:
        return Question(instant=game.at(typed_moment(at, game.rules)))
    seq = _seq(penalty or goal or "", given[0], game)
    event = _event(game, seq, file)
    if penalty is not None:
        if not isinstance(event, PenaltyAssessed):
            _refuse_kind(game, file, event, "penalty")
        return Question(penalty=seq)
    if not isinstance(event, Goal) and not (isinstance(event, PenaltyShot) and event.result == "scored"):
        _refuse_kind(game, file, event, "goal")
    return Question(goal=seq)


def explained(game: Game, question: Question, people: People) -> Explanation:
    """The explanation of what was asked."""
    if question.instant is not None:
        return explain_instant(question.instant, people)
    if question.penalty is not None:
        return explain_penalty(game, question.penalty, people)
    assert question.goal is not None
    return explain_goal(game, question.goal, people)


def _refuse_number(given: list[str], file: str) -> NoReturn:
    found = f"found {' and '.join(given)}" if given else "found none"
    refuse(
        "one_question",
        f"Expected exactly one of --at, --penalty and --goal, {found}.",
        f'Type for example: rinkfold explain {file} --at "2 7:42". '
        "The seqs of penalties stand in `rinkfold penalties`, those of goals in `rinkfold summary --json`.",
    )


def _seq(text: str, option: str, game: Game) -> int:
    try:
        return int(text.removeprefix("#"))
    except ValueError:
        refuse(
            "bad_seq",
            f"{text!r} is not the number of an event.",
            f"After {option} write the event's seq, a whole number from 2 to {len(game.events)}.",
        )


def _event(game: Game, seq: int, file: str) -> Event:
    """The event as it counts.

    Raises:
        ProblemsFound: there is none, or it was taken back.
    """
    last = len(game.events)
    if not 1 <= seq <= last:
        refuse(
            "no_event",
            f"There is no event {seq} in this log, whose last is {last}.",
            "The seqs of penalties stand in `rinkfold penalties`, those of goals in `rinkfold summary --json`.",
        )
    event = effective(game.events, seq)
    if event is None:
        by = next(one.seq for one in reversed(game.events) if _takes_back(one, seq, game))
        refuse(
            "voided",
            f"Event {seq} ({event_said(game, game.events[seq - 1])}) was taken back by event {by} and does not count.",
            f"What would be different if it did: rinkfold whatif {file} --void {by}.",
        )
    return event


def _takes_back(one: Event, seq: int, game: Game) -> bool:
    return isinstance(one, Void) and one.target == seq and one.seq not in voided_by(game.events)


def _refuse_kind(game: Game, file: str, event: Event, wanted: str) -> NoReturn:
    said = "the line that opens the game" if event.seq == 1 else f"`{event_said(game, event)}`"
    refuse(
        f"no_{wanted}",
        f"Event {event.seq} is {said}, and no {wanted}.",
        f"Type: {_to_type(file, event)}.",
    )


def _to_type(file: str, event: Event) -> str:
    """The question that can be asked of `event`."""
    command = f"rinkfold explain {file}"
    if isinstance(event, PenaltyAssessed):
        return f"{command} --penalty {event.seq}"
    if isinstance(event, Goal):
        return f"{command} --goal {event.seq}"
    if isinstance(event, Amend | Void):
        return f"{command} with the seq of what it corrects, {event.target}"
    penalty = getattr(event, "penalty", None)
    if penalty is not None:
        return f"{command} --penalty {penalty}"
    if event.period is not None and event.clock is not None:
        return f'{command} --at "{event.period} {event.clock}"'
    return f'{command} --at "2 7:42", with a game time'
