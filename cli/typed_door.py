"""The typed door: what is understood, and yet not written before its writer says it otherwise.

A log may hold such entries, since other programs write logs too, and `check` tells of them. Typed in a hurry they are
slips.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ..timeline.events import Amend, Event, PeriodEnd
from ..timeline.game import Game
from ..timeline.moment import moment_at
from ..timeline.problems import Problem
from ..timeline.rules import Ruleset
from ..timeline.script.corrections import effective
from .entries import print_entry
from .standing import context_of
from .times import period_name
from .warned import Warned

__all__ = ["Typed", "questions"]


@frozen
class Typed:
    """An entry that was understood, the game without it and with it, and what is newly found in that."""

    event: Event
    before: Game
    after: Game
    warned: Warned

    @property
    def counts(self) -> Event | None:
        """The event that it enters, or amends, as it counts."""
        seq = self.event.target if isinstance(self.event, Amend) else self.event.seq
        return effective(self.after.events, seq)


def questions(typed: Typed) -> list[Problem]:
    """Why the entry is not written; empty where nothing has to be asked."""
    return [*_period(typed)]


def _period(typed: Typed) -> Iterator[Problem]:
    """A period that the game has not come to, or that the ruleset does not have."""
    event = typed.counts
    if event is None or event.period is None:
        return
    found = {one.code for one in typed.warned.warnings if one.seq == event.seq}
    if "no_such_period" in found:
        yield Problem(
            code="no_such_period",
            message=f"By these rules there is no period {event.period}; the last is {_last_period(typed.after.rules)}.",
            fix="Write the right period.",
        )
    elif "period_missing" in found:
        yield _skipped(typed, event.period)


def _skipped(typed: Typed, period: int) -> Problem:
    known = {one.event.period for one in typed.after.folded.placed if one.played is not None}
    missing = next(number for number in range(1, period + 1) if number not in known or number == period)
    moment = moment_at(typed.after.rules, missing, typed.after.rules.period_length(missing))
    end = print_entry(PeriodEnd(seq=0, period=missing, clock=moment.clock), context_of(typed.before))
    return Problem(
        code="period_missing",
        message=f"This would be in period {period}, and nothing is recorded in period {missing}.",
        fix=f"Write the right period. If nothing happened in period {missing}, write first: {end}",
    )


def _last_period(rules: Ruleset) -> str:
    last = rules.game.periods + rules.overtime.periods
    return f"{last}, which is {period_name(last, rules)}" if rules.overtime.periods else str(last)
