"""Does the suite notice? The checks that decide what the fold does, as a program can run them one by one.

The published rulings, the written cases, and random games on which the naive simulator's answer is known.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from typing import Any, Literal

from agreement.comparing import ENGINE_RAISED, RandomGame, engine_differences, naive_answer, seeded
from attrs import frozen
from cases import test_own, test_published
from cases.load import Case

from rinkfold import rulesets
from rinkfold.timeline.game import replay

__all__ = ["FAMILIES", "Check", "Failure", "checks", "first_failure", "first_failures"]

Family = Literal["published", "written", "agreement"]
FAMILIES: tuple[Family, ...] = ("published", "written", "agreement")


@frozen
class Check:
    """One check: `wrong` says in words what is wrong, ``None`` if nothing is."""

    family: Family
    name: str
    wrong: Callable[[], str | None]


@frozen
class Failure:
    """A check that failed, and why; `raised` if not by a wrong answer but by an exception."""

    family: Family
    name: str
    why: str
    raised: bool


def checks(family: Family, games: int) -> Iterator[Check]:
    """The checks of one family; of agreement as many as `games`."""
    if family == "published":
        for case in test_published.CASES:
            yield Check(family, case["id"], functools.partial(_published, case))
    elif family == "written":
        for written in test_own.CASES:
            yield Check(family, written.id, functools.partial(_written, written))
    else:
        for seed in range(games):
            yield Check(family, f"game {seed}", functools.partial(_agreement, seed))


def first_failure(games: int) -> Failure | None:
    """The first check of all that fails, random games first, which are quick; ``None`` if nothing is noticed."""
    return next((failure for family in reversed(FAMILIES) for failure in _failures(family, games)), None)


def first_failures(games: int) -> dict[Family, Failure]:
    """The first check of each family that fails; empty if the suite notices nothing."""
    found = {family: next(_failures(family, games), None) for family in FAMILIES}
    return {family: failure for family, failure in found.items() if failure is not None}


def _failures(family: Family, games: int) -> Iterator[Failure]:
    for check in checks(family, games):
        try:
            why = check.wrong()
        except Exception as error:  # a fold that is broken may raise anything
            yield Failure(family, check.name, f"{type(error).__name__}: {error}", True)
            continue
        if why is not None:
            yield Failure(family, check.name, why, why.startswith(ENGINE_RAISED))


def _published(case: dict[str, Any]) -> str | None:
    log = test_published.log_of(case)
    game = replay(log, rulesets.of(log))
    for row in case["expect"]:
        _, wrong = test_published.mistakes(game, row)
        if wrong:
            return f"at {row['period']} {row['clock']}: {'; '.join(wrong)}"
    return None


def _written(case: Case) -> str | None:
    game = test_own.replayed(case)
    found = (test_own.mistake(game, row) for row in case.expect if "finding" not in row)
    return next((wrong for wrong in found if wrong), None)


def _agreement(seed: int) -> str | None:
    game, naive = _judged(seed)
    return next(iter(engine_differences(game, naive)), None)


@functools.cache
def _judged(seed: int) -> tuple[RandomGame, dict[str, Any]]:
    """The game and the simulator's answer, which no fault of the fold changes."""
    game = seeded(seed)
    return game, naive_answer(game)
