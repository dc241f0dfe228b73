"""The data frames of examples/notebook hold what the game answers."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType

import pytest

pytestmark = pytest.mark.examples


def test_the_cells_run_and_add_up(example: Callable[[str], ModuleType]) -> None:
    """Each segment is a row, the minutes are those played, and each goal found the stretch that its label names."""
    cells = example("notebook/segments.py")
    game = cells.game
    assert list(cells.segments["start"]) == [segment.start for segment in game.strength_segments]
    assert list(cells.segments["home"]) == [segment.strength.home for segment in game.strength_segments]
    assert cells.minutes.to_numpy().sum() * 600 == pytest.approx(game.periods[-1].end)
    assert list(cells.goals["skaters"]) == [goal.label for goal in game.goals]
    assert cells.served.sum() == sum(part.served for life in game.penalties for part in life.parts) / 10
