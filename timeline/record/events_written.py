"""Check events that a program hands in as those of a log, which no file door has seen."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from ..events import EVENT_CLASSES, Event, GameOpened
from ..problems import Problem, ProblemsFound
from .codec import no_event
from .named_rules import check_named_rules
from .sequence import check_sequence

__all__ = ["check_written"]

_CLASSES = frozenset(EVENT_CLASSES)


def check_written(events: Sequence[Event]) -> None:
    """Check that `events` are a log in the order written, whose first line names the rules that are pinned in it.

    Raises:
        ProblemsFound: everything that is not so.
        TypeError: one of them is no event.
    """
    if wrong := [event for event in events if type(event) not in _CLASSES]:
        raise TypeError(no_event(wrong[0]))
    if not events:
        message = 'Expected the events of a game, the first of them "game_opened"; found none.'
        raise ProblemsFound([Problem(code="not_opened", message=message, fix="Open a game with LiveGame.open.")])
    problems: list[Problem] = []
    check_sequence(events, range(1, len(events) + 1), problems)
    problems += check_named_rules(events[0]) if isinstance(events[0], GameOpened) else []
    if problems:
        raise ProblemsFound(evolve(problem, line=None) for problem in problems)
