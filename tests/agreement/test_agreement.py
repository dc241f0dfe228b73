"""The engine agrees with the naive simulator, which shares no code with it, on random games."""

from __future__ import annotations

from collections import Counter

import pytest
from naive.rules import RULES_COUNTED

from rinkfold.timeline.fold import slots

from .comparing import Comparison, Event, compared, report, seeded
from .shrinking import shrunk

GAMES = 500


@pytest.fixture(scope="module")
def comparisons() -> list[Comparison]:
    """Every game, judged by both."""
    return [compared(seeded(seed)) for seed in range(GAMES)]


def test_engine_and_simulator_agree(comparisons: list[Comparison]) -> None:
    """Skaters at every tenth, returns, parts, goals, ejections and the end are the same in every game."""
    failed = [one for one in comparisons if one.differences]
    if failed:
        seeds = [one.game.seed for one in failed]
        pytest.fail(f"{len(failed)} of {GAMES} games disagree, seeds {seeds}; the first:\n{report(shrunk(failed[0]))}")


def test_every_rule_fired(comparisons: list[Comparison]) -> None:
    """No rule of the model was left out by the games on which the two agree."""
    counts: Counter[str] = Counter()
    for one in comparisons:
        counts.update(one.counts)
    assert [rule for rule in RULES_COUNTED if not counts[rule]] == []


def several_on_both_sides(events: tuple[Event, ...]) -> bool:
    """Whether each side is given two penalties or more at one stoppage of a game."""
    here, place = Counter[str](), None
    for event in events:
        if event[0] == "faceoff" or event[2:4] != place:
            here, place = Counter(), event[2:4]
        if event[0] == "penalty":
            here[event[4]] += 1
        if here["home"] >= 2 and here["away"] >= 2:
            return True
    return False


def test_many_games_have_several_penalties_on_both_sides(comparisons: list[Comparison]) -> None:
    """What offsets what is asked often: in a third of the games, two penalties or more to each side at one stoppage."""
    assert sum(several_on_both_sides(one.game.events) for one in comparisons) >= GAMES / 3


def test_a_disagreement_is_found_shrunk_and_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """With three places on the clock the engine disagrees; what is left shows three penalties and little else."""
    monkeypatch.setattr(slots, "SLOTS", 3)
    found = next(one for seed in range(GAMES) if (one := compared(seeded(seed))).differences)
    smaller = shrunk(found)
    assert smaller.differences
    assert len(smaller.game.events) < len(found.game.events)
    penalties = [event for event in smaller.game.events if event[0] == "penalty"]
    assert 3 <= len(penalties) <= 6
    text = report(smaller)
    assert text.startswith(f"seed {found.game.seed}\nknobs {{")
    assert all(f"  {event}\n" in text for event in smaller.game.events)
    assert all(f"  {difference}" in text for difference in smaller.differences)


def test_an_exception_in_the_engine_is_a_disagreement(monkeypatch: pytest.MonkeyPatch) -> None:
    """A game that breaks the engine is told like any other disagreement."""
    monkeypatch.setattr(slots, "SLOTS", None)
    found = next(one for seed in range(GAMES) if (one := compared(seeded(seed))).differences)
    assert found.differences[0].startswith("the engine raised TypeError: ")
