"""What an entry says goes through the door of the log, so that nothing is accepted here that the log would refuse."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from ...timeline.events import Event
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import event_from_dict, event_to_dict
from .tokens import Refused

__all__ = ["checked", "event_of"]


def event_of(data: Mapping[str, Any]) -> Event:
    """The event that the object `data` is.

    Raises:
        Refused: the log would not take it.
    """
    try:
        return event_from_dict({**data, "seq": 1})
    except ProblemsFound as found:
        raise Refused(" ".join(map(_sentence, found.problems)), "entry_value") from None


def checked(event: Event) -> Event:
    """`event`, when the log would take it; else as `event_of`."""
    event_of(event_to_dict(evolve(event, seq=1)))
    return event


def _sentence(problem: Problem) -> str:
    field = f"{problem.field}: " if problem.field else ""
    return f"{field}{problem.message} {problem.fix}".strip()
