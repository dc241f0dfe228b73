"""No false alarm: a legal record has no error and no warning, however much collides in it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import pytest
from findings.legal import legal_game

from rinkfold.timeline.events import GoalieChange, ObservedStrength, PenaltyAssessed, PenaltyEnded
from rinkfold.timeline.views.findings import findings

GAMES = 200
MANY = 1000


def alarms(seeds: Iterable[int]) -> list[str]:
    """Every error and warning, with the seed of its game."""
    return [
        f"seed {seed}: {finding.code} {finding.seq}: {finding.message}"
        for seed in seeds
        for finding in findings(legal_game(seed))
        if finding.severity != "note"
    ]


def test_legal_games_have_notes_only() -> None:
    """Random legal games, written down with all whistles or with none, draw neither errors nor warnings."""
    assert alarms(range(GAMES)) == []


@pytest.mark.full
def test_many_legal_games_have_notes_only() -> None:
    """The same for more games."""
    assert alarms(range(GAMES, GAMES + MANY)) == []


def test_the_games_are_worth_asking() -> None:
    """They have what could give a false alarm: doors, rulings, stand-ins, things seen, goalkeepers who change."""
    had: Counter[str] = Counter()
    for seed in range(40):
        for event in legal_game(seed).events:
            had[event.kind] += 1
            if isinstance(event, PenaltyEnded):
                had[event.cause] += 1
            elif isinstance(event, PenaltyAssessed):
                had["stand-in"] += event.served_by is not None
                had["delayed"] += bool(event.delayed_call)
                had["penalty shot"] += bool(event.penalty_shot)
                had["ejection"] += "game_misconduct" in event.parts
            elif isinstance(event, ObservedStrength):
                had["short"] += (event.home, event.away) != (5, 5)
            elif isinstance(event, GoalieChange):
                had["empty net"] += event.goalie is None
    wanted = (
        "released", "ruling", "stand-in", "delayed", "penalty shot", "ejection", "short", "empty net", "shot", "goal",
        "figures", "void", "timeout", "shootout_attempt", "faceoff", "stoppage",
    )  # fmt: skip
    assert [name for name in wanted if had[name] < 5] == []
