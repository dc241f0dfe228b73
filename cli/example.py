"""The example game that comes with the program, and the moments of it that say most."""

from __future__ import annotations

import tomllib
from importlib.resources import files

from attrs import frozen

from ..timeline.game import Game
from ..timeline.record import parse_log
from .opening import replayed

__all__ = ["Telling", "example_game", "telling_moments"]

_FOLDER = files((__package__ or "rinkfold").split(".", 1)[0]) / "examples"


@frozen
class Telling:
    """A moment worth looking at, and why."""

    at: str
    why: str


def example_game() -> Game:
    """The example game, replayed."""
    return replayed(parse_log((_FOLDER / "game.jsonl").read_bytes(), "game.jsonl"))


def telling_moments() -> tuple[Telling, ...]:
    """The moments for a first look, in game order."""
    table = tomllib.loads((_FOLDER / "telling-moments.toml").read_text(encoding="utf-8"))
    return tuple(Telling(one["at"], one["why"]) for one in table["moment"] if one.get("demo"))
