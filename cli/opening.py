"""From the name of a file to the game in it."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from .paper import complain

if TYPE_CHECKING:
    from ..timeline.events import GameOpened
    from ..timeline.game import Game
    from ..timeline.record import Log

__all__ = ["Opened", "open_game", "open_log", "replayed"]

_UNCHAINED = "unchained"


class Opened:
    """A first line as a record of its own, for finding its rules."""

    def __init__(self, header: GameOpened) -> None:
        self.header = header
        self.events = (header,)


def open_log(path: str | os.PathLike[str]) -> Log:
    """The log at `path`; what is worth a note is told on standard error.

    Raises:
        ProblemsFound: the file cannot be read or is no log.
    """
    from ..timeline.problems import render
    from ..timeline.record import read_log

    log = read_log(path)
    for note in log.notes:
        if note.code != _UNCHAINED:  # `verify` says it
            complain(render(note))
    return log


def replayed(log: Log) -> Game:
    """The game that `log` records, by the rules it was opened with.

    Raises:
        ProblemsFound: the ruleset is not known.
    """
    from .. import rulesets
    from ..timeline.game import replay

    return replay(log, rulesets.of(log))


def open_game(path: str | os.PathLike[str]) -> Game:
    """The game in the log at `path`.

    Raises:
        ProblemsFound: the file cannot be read, is no log, or its ruleset is not known.
    """
    return replayed(open_log(path))
