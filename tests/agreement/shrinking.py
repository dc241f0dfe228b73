"""A game on which engine and simulator disagree, made shorter by dropping events as long as they still disagree."""

from __future__ import annotations

from .comparing import Comparison, Event, RandomGame, compared

__all__ = ["shrunk"]


def shrunk(comparison: Comparison) -> Comparison:
    """The same disagreement, or another one, with no event left that could be dropped alone.

    Greedy: runs of events first, half the game at a time, then shorter and shorter ones down to single events.
    """
    size = max(len(comparison.game.events) // 2, 1)
    while True:
        smaller = _without_a_run(comparison, size)
        if smaller is not None:
            comparison = smaller
        elif size == 1:
            return comparison
        else:
            size //= 2


def _without_a_run(comparison: Comparison, size: int) -> Comparison | None:
    """The first game that still disagrees when `size` events in a row are dropped; ``None`` if none does."""
    events = comparison.game.events
    for start in range(0, len(events), size):
        kept = _that_stand(events[:start] + events[start + size :])
        found = _compared_if_possible(comparison.game.with_events(kept))
        if found is not None and found.differences:
            return found
    return None


def _compared_if_possible(game: RandomGame) -> Comparison | None:
    """Both run over a game with events dropped; ``None`` where the simulator can make nothing of it."""
    try:
        return compared(game)
    except Exception:
        return None


def _that_stand(events: tuple[Event, ...]) -> tuple[Event, ...]:
    """`events` without the rulings on penalties that are not among them."""
    penalties = {event[1] for event in events if event[0] == "penalty"}
    return tuple(event for event in events if event[0] != "ruling" or event[4] in penalties)
