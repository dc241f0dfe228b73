"""What `rinkfold stream` answers: to an event, to what was asked, and to a line that is not right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ...timeline.clock import parse_reading, played_in_period
from ...timeline.events import Event
from ...timeline.fold.changes import Change
from ...timeline.game import Game
from ...timeline.moment import Moment
from ...timeline.problems import Problem
from ...timeline.record import event_to_dict
from ...timeline.views.box import Sitting
from ..people import People, people_of
from ..words import TEAMS
from .box import box_answer, reason_answer
from .changes import change_answers
from .common import ANSWER_FORMAT, head, problem_answer, time
from .strength import instant_answer

__all__ = ["event_answer", "forecast_answer", "now_answer", "problems_answer"]


def event_answer(
    game: Game,
    event: Event,
    effect: str,
    changes: Sequence[Change],
    withdrawn: Sequence[Change],
    *,
    before: Game | None,
    head_code: str | None = None,
) -> dict[str, Any]:
    """``{"seq", "effect", "event", "changes", "withdrawn"}``; in a stoppage ``"if_play_resumed"``, the changes then.

    `withdrawn` are changes told before that hold no more; only a late entry and a correction have some. They are said
    as they were told, by the game `before`. A chained log that is closed has its ``"head_code"``.
    """
    answer = {
        **head(game.header),
        "seq": event.seq,
        "effect": effect,
        "event": event_to_dict(event),
        "changes": change_answers(changes, game.folded),
        "withdrawn": change_answers(withdrawn, (before or game).folded),
    }
    if not game.in_play and not game.over:
        answer["if_play_resumed"] = change_answers(game.folded.pending_changes, game.folded)
    return answer if head_code is None else {**answer, "head_code": head_code}


def problems_answer(game: Game | None, problems: Sequence[Problem]) -> dict[str, Any]:
    """``{"problems": [problem]}``: nothing of the line was taken in."""
    return {
        "rinkfold": ANSWER_FORMAT,
        "game": None if game is None else game.header.game,
        "problems": [problem_answer(problem) for problem in problems],
    }


def now_answer(game: Game) -> dict[str, Any]:
    """``{"at", "in_play", "over", "score", "strength", "box"}``; in a stoppage as if play resumed now."""
    now, last = game.now, game.folded.last
    box = box_answer(now)
    return {
        **head(game.header),
        "at": time(now.at),
        "in_play": game.in_play,
        "over": game.over,
        "score": {"home": last.home.score, "away": last.away.score},
        "strength": instant_answer(now),
        "box": {team: box[team] for team in TEAMS},
    }


def forecast_answer(game: Game) -> dict[str, Any]:
    """``{"at", "releases": [release], "strength": [instant]}``: what comes if there is no further goal or penalty.

    A release is ``{"team", "player", "sits", "injured", "penalty", "out", "how", "because"}``, the next one
    first; those whose time a whistle decides stand last. `strength` has the skaters at each time of a release.
    """
    now = game.now
    releases = sorted(now.box, key=lambda one: _order(one.out.at, game))
    people = people_of(game.header, (one.event for one in game.folded.placed))
    moments = dict.fromkeys(one.out.at for one in releases if one.out.at is not None)
    return {
        **head(game.header),
        "at": time(now.at),
        "releases": [_release(one, people) for one in releases],
        "strength": [instant_answer(game.at(moment)) for moment in moments],
    }


def _order(moment: Moment | None, game: Game) -> tuple[bool, int, int]:
    """In the order of the game, what has no time last."""
    if moment is None:
        return True, 0, 0
    return False, moment.period, _played(moment, game)


def _played(moment: Moment, game: Game) -> int:
    length = game.rules.period_length(moment.period)
    return played_in_period(parse_reading(moment.clock), length, game.rules.game.reading)


def _release(one: Sitting, people: People) -> dict[str, Any]:
    return {
        "team": one.team,
        "player": one.player,
        "sits": one.sits,
        "injured": people.is_injured(one.team, one.sits),
        "penalty": one.penalty,
        "out": time(one.out.at),
        "how": one.out.how,
        "because": [reason_answer(reason) for reason in one.because],
    }
