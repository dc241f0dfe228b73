"""The typed door: what is understood, and yet most probably a slip.

A log may hold such entries, since other programs write logs too. Typed, what cannot be meant is not written before it
is said otherwise; what is odd and can be meant is written, and its writer is told to look again.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, frozen

from ..timeline.clock import parse_reading, played_in_period
from ..timeline.events import Amend, Event, ShootoutAttempt, Void
from ..timeline.game import Game
from ..timeline.moment import moment_at
from ..timeline.problems import Problem
from ..timeline.record.amendments import voided_by
from ..timeline.rules import Ruleset
from ..timeline.script.corrections import effective
from ..timeline.views.findings import Finding
from .entries import print_entry
from .standing import context_of, latest
from .times import period_name
from .warned import Warned

__all__ = ["Typed", "questions", "refusals"]


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


def refusals(typed: Typed) -> list[Problem]:
    """Why the entry is not written; empty where it is."""
    return [*_taken_back(typed), *_no_such_period(typed)]


def questions(typed: Typed) -> tuple[Finding, ...]:
    """What its writer should look at again that is no finding of `check`; on a page what is refused here among it."""
    known = {one.code for one in typed.warned.warnings}
    return tuple(
        Finding(code=one.code, severity="warning", seq=typed.event.seq, at=None, message=one.message, fix=one.fix)
        for one in (*refusals(typed), *_shootout(typed))
        if one.code not in known
    )


def _taken_back(typed: Typed) -> Iterator[Problem]:
    """A correction of what was taken back already."""
    event = typed.event
    if not isinstance(event, Void | Amend):
        return
    gone = voided_by(typed.before.events)
    if event.target not in gone:
        return
    by = next(
        one.seq
        for one in reversed(typed.before.events)
        if isinstance(one, Void) and one.target == event.target and one.seq not in gone
    )
    again = f"To have it count again, write: void {by}"
    yield Problem(
        code="already_voided",
        message=f"Event {event.target} was taken back by event {by} already, and does not count.",
        fix=again if isinstance(event, Void) else f"{again}. Then it can be changed.",
    )


def _shootout(typed: Typed) -> Iterator[Problem]:
    """An attempt of a shootout while the game is not over, or not level."""
    event, before = typed.event, typed.before
    if not isinstance(event, ShootoutAttempt):
        return
    home, away = before.folded.last.home.score, before.folded.last.away.score
    if not _is_after_play(event, before):
        yield Problem(
            code="shootout_too_early",
            message=f"A shootout follows the last period, and this is at {event.clock} of period {event.period}.",
            fix=_at_the_end(event, before),
        )
    elif home != away:
        yield Problem(
            code="shootout_not_level",
            message=f"A shootout follows a game that is level, and this one stands {home}-{away}.",
            fix="Put the goals right first.",
        )


def _is_after_play(event: ShootoutAttempt, before: Game) -> bool:
    """Whether it stands at the end of the third period or of an overtime, or where an overtime would begin."""
    rules, (period, _) = before.rules, latest(before)
    if event.period is None or event.clock is None or period < rules.game.periods:
        return False
    length = rules.period_length(event.period)
    played = played_in_period(parse_reading(event.clock), length, rules.game.reading)
    ended = event.period == period and before.folded.last.ice.ended
    return event.period >= period and (played == length or ended or (event.period > rules.game.periods and not played))


def _at_the_end(event: ShootoutAttempt, before: Game) -> str:
    """What to write where the game has come to its last period."""
    rules, (period, _) = before.rules, latest(before)
    if period < rules.game.periods:
        return "Write what happened before it first."
    end = moment_at(rules, period, rules.period_length(period))
    there = evolve(event, seq=0, period=period, clock=end.clock, recorded_at=None)
    return f"Write: {print_entry(there, context_of(before))}"


def _no_such_period(typed: Typed) -> Iterator[Problem]:
    """A period that the ruleset does not have."""
    event = typed.counts
    found = {one.code for one in typed.warned.warnings if event is not None and one.seq == event.seq}
    if event is not None and "no_such_period" in found:
        yield Problem(
            code="no_such_period",
            message=f"By these rules there is no period {event.period}; the last is {_last_period(typed.after.rules)}.",
            fix="Write the right period.",
        )


def _last_period(rules: Ruleset) -> str:
    last = rules.game.periods + rules.overtime.periods
    return f"{last}, which is {period_name(last, rules)}" if rules.overtime.periods else str(last)
