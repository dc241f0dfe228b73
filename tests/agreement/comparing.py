"""One random game, judged by the engine and by the naive simulator, and what the two do not agree on."""

from __future__ import annotations

import random
from collections import Counter
from pprint import pformat
from typing import Any

from attrs import Factory, evolve, frozen
from naive.games import random_game
from naive.simulator import simulate

from .bridge import answer, differences, folded

__all__ = ["ENGINE_RAISED", "Comparison", "RandomGame", "compared", "engine_differences", "report", "seeded"]

Event = tuple[Any, ...]
ENGINE_RAISED = "the engine raised "


@frozen
class RandomGame:
    """A game for both: the settings, the goalkeepers of the rosters, the events in game order."""

    seed: int
    knobs: dict[str, Any]
    goalkeepers: dict[str, set[str]]
    events: tuple[Event, ...]

    def with_events(self, events: tuple[Event, ...]) -> RandomGame:
        """The same game with other events."""
        return evolve(self, events=events)


@frozen
class Comparison:
    """A game, how often each rule of the model fired in it, and the differences in words."""

    game: RandomGame
    counts: Counter[str] = Factory(Counter)
    differences: tuple[str, ...] = ()


def seeded(seed: int) -> RandomGame:
    """The random game of a seed, always the same."""
    knobs, goalkeepers, events = random_game(random.Random(seed))
    return RandomGame(seed, knobs, goalkeepers, tuple(events))


def naive_answer(game: RandomGame) -> dict[str, Any]:
    """The simulator's answer; an exception goes up, for then the simulator is wrong."""
    return simulate(game.knobs, game.goalkeepers, list(game.events))


def engine_differences(game: RandomGame, naive: dict[str, Any]) -> tuple[str, ...]:
    """What the engine says otherwise than `naive`; an exception in the engine is a difference too."""
    try:
        engine = answer(folded(game.knobs, game.goalkeepers, game.events))
    except Exception as error:
        return (f"{ENGINE_RAISED}{type(error).__name__}: {error}",)
    return tuple(differences(engine, naive))


def compared(game: RandomGame) -> Comparison:
    """Both run over the game."""
    naive = naive_answer(game)
    return Comparison(game, naive["counts"], engine_differences(game, naive))


def report(comparison: Comparison) -> str:
    """All that is needed to see a disagreement again: seed, settings, events, differences."""
    game = comparison.game
    return "\n".join(
        [
            f"seed {game.seed}",
            f"knobs {pformat(game.knobs, width=110)}",
            f"goalkeepers {game.goalkeepers}",
            f"{len(game.events)} events:",
            *(f"  {event}" for event in game.events),
            "differences:",
            *(f"  {difference}" for difference in comparison.differences),
        ]
    )
