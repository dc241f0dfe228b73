"""Of events that run backwards as few as possible are taken to be out of order."""

from __future__ import annotations

import random
from itertools import combinations, compress, pairwise

from findings.planted import game_of

from rinkfold.timeline.views.findings import findings
from rinkfold.timeline.views.findings.misplaced import in_order

Place = tuple[int, int]


def runs_forward(places: list[Place]) -> bool:
    return all(one <= following for one, following in pairwise(places))


def ways(places: list[Place]) -> list[tuple[int, ...]]:
    """Every way to keep as many as can be kept, found by trying all."""
    for length in range(len(places), 0, -1):
        found = [way for way in combinations(range(len(places)), length) if runs_forward([places[n] for n in way])]
        if found:
            return found
    return [()]


def test_as_many_as_possible_are_kept() -> None:
    """What is kept runs forward, no other choice keeps more, and of several the one written first is taken."""
    rng = random.Random(5)
    for _ in range(400):
        places = [(rng.randrange(1, 3), rng.randrange(4)) for _ in range(rng.randrange(9))]
        kept = in_order(places)
        assert runs_forward([*compress(places, kept)])
        assert tuple(compress(range(len(places)), kept)) == min(ways(places))


def test_one_wrong_reading_is_one_finding() -> None:
    """An event that is far ahead is told once, and nothing is said of the many events behind it."""
    entries = ["1 15:00 home goalie 31", "1 15:00 away goalie 30", "3 9:00 home shot 7"]
    entries += [f"late 1 {minute}:00 away shot 9" for minute in range(14, 2, -1)]
    game = game_of({}, entries)
    order = [(one.code, one.seq) for one in findings(game) if one.code in ("written_late", "written_ahead")]
    assert order == [("written_ahead", 4)]
