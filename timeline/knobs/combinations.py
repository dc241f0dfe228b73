"""Values that are each possible and together are not."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Sequence

from ..problems import Problem
from ..rules import Ruleset

__all__ = ["impossible_combinations"]


def impossible_combinations(rules: Ruleset, unsure: Container[str] = ()) -> Iterator[Problem]:
    """Check that the knobs of `rules` go together; nothing is said about those whose value is `unsure`."""
    for knobs, check in _CHECKS:
        if not any(name in unsure for name in knobs):
            yield from check(rules)


def _impossible(field: str, message: str, fix: str) -> Problem:
    return Problem(code="impossible_combination", message=message, fix=fix, field=field)


def _fewest_skaters(rules: Ruleset) -> Iterator[Problem]:
    """Check that full strength is not below the fewest that penalties leave."""
    yield from _below_the_fewest("ice.skaters", rules.ice.skaters, rules.ice.min_skaters)


def _fewest_in_overtime(rules: Ruleset) -> Iterator[Problem]:
    """Check that full strength in overtime is not below the fewest that penalties leave."""
    yield from _below_the_fewest("overtime.skaters", rules.overtime.skaters, rules.ice.min_skaters)


def _below_the_fewest(field: str, skaters: int, least: int) -> Iterator[Problem]:
    if skaters < least:
        yield _impossible(
            "ice.min_skaters",
            f"Penalties cannot leave a side at least {least} skaters where full strength, {field}, is {skaters}.",
            f"Lower ice.min_skaters or raise {field}.",
        )


def _overtime_skaters(rules: Ruleset) -> Iterator[Problem]:
    """Check that overtime is not played with more skaters than regulation."""
    if rules.overtime.skaters > rules.ice.skaters:
        yield _impossible(
            "overtime.skaters",
            f"Overtime cannot have {rules.overtime.skaters} skaters a side where ice.skaters is {rules.ice.skaters}.",
            "Lower overtime.skaters or raise ice.skaters.",
        )


def _running_clock_stops(rules: Ruleset) -> Iterator[Problem]:
    """Check that the running clock starts at a lead that does not stop it."""
    running = rules.game.running_clock
    if running.stops_below > running.starts_at_lead:
        yield _impossible(
            "game.running_clock.stops_below",
            f"The clock cannot stop again below a lead of {running.stops_below} where it starts to run at a lead of "
            f"{running.starts_at_lead} (game.running_clock.starts_at_lead).",
            "Write a lead that is not above the one that starts it.",
        )


def _running_clock_period(rules: Ruleset) -> Iterator[Problem]:
    """Check that the running clock starts in a period that is played."""
    running, periods = rules.game.running_clock, rules.game.periods
    if running.starts_at_lead and running.from_period > periods:
        yield _impossible(
            "game.running_clock.from_period",
            f"A lead cannot make the clock run from period {running.from_period} on where game.periods is {periods}.",
            f"Write a period from 1 to {periods}.",
        )


_LEAD = "game.running_clock.starts_at_lead"
_CHECKS: Sequence[tuple[tuple[str, ...], Callable[[Ruleset], Iterator[Problem]]]] = (
    (("ice.skaters", "ice.min_skaters"), _fewest_skaters),
    (("overtime.skaters", "ice.min_skaters"), _fewest_in_overtime),
    (("overtime.skaters", "ice.skaters"), _overtime_skaters),
    (("game.running_clock.stops_below", _LEAD), _running_clock_stops),
    (("game.running_clock.from_period", _LEAD, "game.periods"), _running_clock_period),
)
"""Each check with the knobs that it looks at."""
