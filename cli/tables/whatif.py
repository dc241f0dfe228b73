"""What would have been different: what is supposed, from which reading on, and both games side by side."""

from __future__ import annotations

import json

from ...timeline.events import Amend, Void
from ...timeline.game import Game
from ..event_words import event_said
from ..paper import Style
from ..people import People
from ..recording import Taken
from ..supposing import Supposed
from ..times import shown
from ..two_games import TwoGames
from ..words import footer
from .differences import difference_lines

__all__ = ["whatif_lines"]


def whatif_lines(supposed: Supposed, two: TwoGames, people: People, style: Style) -> list[str]:
    """What is supposed, the first reading that differs, and every difference."""
    lines = [_supposed(one, supposed, people) for one in supposed.taken]
    end = ["Nothing was written.", style.faint(footer(supposed.after.header))]
    if not two.found:
        return [*lines, style.strong("Nothing would be different."), *end]
    return [*lines, style.strong(_first(two, supposed.after)), "", *difference_lines(two, people, style), *end]


def _supposed(one: Taken, supposed: Supposed, people: People) -> str:
    """What is supposed, in whole words."""
    event = one.event
    if isinstance(event, Void):
        target = supposed.after.events[event.target - 1]
        return f"If #{event.target} had never counted: {event_said(supposed.before, target, names=people.names)}"
    if isinstance(event, Amend):
        changes = ", ".join(f"{name} {_value(value)}" for name, value in event.changes.items())
        return f"If #{event.target} had been written with {changes}"
    return f"If this had been written: {event_said(supposed.before, event, names=people.names)}"


def _value(value: object) -> str:
    return str(value) if isinstance(value, str | int) and not isinstance(value, bool) else json.dumps(value)


def _first(two: TwoGames, game: Game) -> str:
    if two.first is None:
        return "The times stay as they are; the totals would be different."
    return f"Different from {shown(two.first, game.rules)} on:"
