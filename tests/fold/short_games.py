"""Games in a few lines, in the notation of the written cases, and what the fold tells of them."""

from __future__ import annotations

from typing import Any

from cases.load import Case, event_of, opening
from cases.test_own import replayed

from rinkfold.timeline import Game
from rinkfold.timeline.fold.changes import Change

__all__ = ["game_of", "parts_of", "returns_of", "told"]

Line = str | dict[str, Any]


def game_of(
    *lines: Line, ruleset: str = "international", keepers: dict[str, list[str]] | None = None, **settings: Any
) -> Game:
    """A game of 20:00 periods; a line is an event in the notation of the cases, or a whole one without its `seq`."""
    raw = {"id": "short", "ruleset": ruleset, "keepers": keepers or {}, "settings": settings}
    events = [opening(raw)]
    for line in lines:
        events.append(event_of(line, events) if isinstance(line, str) else {"seq": len(events) + 1, **line})
    return replayed(Case("short", "", "", tuple(events), ()))


def told(kind: type[Any], game: Game) -> list[tuple[Any, ...]]:
    """The changes of one kind: the reading, and what is its own in the change."""
    changes: list[Change] = [change for change in game.folded.all_changes() if isinstance(change, kind)]
    return [(str(game.folded.moment_of(change)), *tuple(change)[4:]) for change in changes]


def parts_of(game: Game) -> dict[str, tuple[str | None, str | None, str]]:
    """Start, end and fate of every part, under its name, as in ``"2.0"``."""
    return {
        f"{life.penalty}.{index}": (_text(part.start), _text(part.end), part.fate)
        for life in game.penalties
        for index, part in enumerate(life.parts)
    }


def _text(moment: object) -> str | None:
    return None if moment is None else str(moment)


def returns_of(game: Game) -> list[tuple[str, str | None, str]]:
    """Who went back and how, as the lives of the penalties tell it: each return once, in order."""
    rows = {(one.tenth, str(one.at), one.who, one.how) for life in game.penalties for one in life.returns}
    return [(at, who, how) for _, at, who, how in sorted(rows, key=repr)]
