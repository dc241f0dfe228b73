"""Periods, time-outs, the end of the game, and the shootout."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from ...events import PeriodEnd, ShootoutAttempt, Team, Timeout
from ...fold.draft import TEAMS
from ...moment import Moment, moment_at
from .checked import Checked, length_words
from .finding import Finding, Kind
from .seats import owes_time
from .step import Step

__all__ = ["CHECKS"]

PERIOD_MISSING = Kind(
    "period_missing",
    "warning",
    "A period has no event, although one behind it has, or the game is closed as played.",
    "Put the period of the events right, or write the end of the period.",
)
NO_SUCH_PERIOD = Kind(
    "no_such_period",
    "error",
    "An event is in a period that the ruleset does not have.",
    "Write the right period.",
)
PERIOD_CUT_SHORT = Kind(
    "period_cut_short",
    "note",
    "A period ended before its time was played.",
    "Nothing, if it was cut short; else put the reading right.",
)
AFTER_PERIOD_END = Kind(
    "after_period_end",
    "warning",
    "Something happens in a period after its end was recorded.",
    "Put the reading of the end right, or that of the event.",
)
ENDED_TWICE = Kind(
    "ended_twice",
    "warning",
    "The end of a period is written twice.",
    "Void one of them.",
)
PERIOD_NOT_ENDED = Kind(
    "period_not_ended",
    "warning",
    "The game is closed as played, but the end of its last period is not written; the rest does not count as played.",
    "Write the end of the period, or close the game as shortened.",
)
END_NOT_WRITTEN = Kind(
    "end_not_written",
    "note",
    "The record has ends of periods, and one is missing; the period is taken as played out.",
    "Nothing, if it was played out; else write the end.",
)
TOO_MANY_TIMEOUTS = Kind(
    "too_many_timeouts",
    "warning",
    "A side took more time-outs than the ruleset allows.",
    "Tell the officials; put the side right if it was written down wrong.",
)
AFTER_THE_GAME = Kind(
    "after_the_game",
    "error",
    "Play goes on although the game was decided.",
    "Put the goals right, or the reading or period of what follows.",
)
NO_SHOOTOUT = Kind(
    "no_shootout", "warning", "A shootout is recorded, and the ruleset has none.", "Look at the ruleset of the game."
)
SHOOTS_WHILE_PENALIZED = Kind(
    "shoots_while_penalized",
    "error",
    "A player whose penalty is not finished takes part in the shootout.",
    "Write the right number; if it is right, tell the officials at once.",
)
SHOOTS_AGAIN = Kind(
    "shoots_again",
    "warning",
    "A player shoots a second time within the rounds of the shootout.",
    "Write the right number.",
)

_PLAY = frozenset({"faceoff", "stoppage", "shot", "goal", "penalty_shot", "timeout", "shootout_attempt", "period_end"})
_APART = frozenset({"figures", "remark", "shootout_attempt"})
_IN_A_PERIOD = _PLAY | {"goalie_change", "observed_strength", "observed_player"}


def _periods(checked: Checked) -> dict[int, Step]:
    """The periods in which something happened, each with its first event."""
    first: dict[int, Step] = {}
    for step in checked.steps:
        if step.event.period is not None and step.event.kind not in _APART:
            first.setdefault(step.period, step)
    return first


def check_periods(checked: Checked) -> Iterator[Finding]:
    """Check that no period is missing; what is missing in one go is one finding."""
    found = _periods(checked)
    written = sorted(found)
    for before, after in itertools.pairwise((0, *written)):
        if after - before > 1:
            gap, seq = range(before + 1, after), found[after].event.seq
            message = f"Nothing is recorded in {_named(gap)}, so none of {_it(gap)} counts as played; "
            message += f"event {seq} is in period {after}."
            remedy = f"`amend {seq} period …`, or {_all_ended(checked, gap)}"
            yield PERIOD_MISSING.of(found[after], message, f"Put one of them right: {remedy}.")
    closing = checked.closing
    rest = range(max(found, default=0) + 1, checked.rules.game.periods + 1)
    if closing is not None and closing.outcome == "played" and rest:
        message = f"The game is closed as played, but nothing is recorded in {_named(rest)}."
        remedy = f"`amend {closing.seq} outcome shortened`, or {_all_ended(checked, rest)}"
        yield PERIOD_MISSING.about(message, f"Put one of them right: {remedy}.", seq=closing.seq)


def _named(gap: range) -> str:
    """``"period 2"``, ``"periods 2 and 3"``, ``"periods 4 to 7"``."""
    first, last = gap[0], gap[-1]
    return f"period {first}" if len(gap) == 1 else f"periods {first} {'and' if len(gap) == 2 else 'to'} {last}"


def _it(gap: range) -> str:
    return "it" if len(gap) == 1 else "them"


def _all_ended(checked: Checked, gap: range) -> str:
    each = "" if len(gap) == 1 else ", and so for each of them"
    return f"{_ended(checked, gap[0])}{each}"


def _ended(checked: Checked, period: int) -> str:
    return checked.adding("end period", _end_of(checked, period))


def _end_of(checked: Checked, period: int) -> Moment:
    return moment_at(checked.rules, period, checked.rules.period_length(period))


def check_period_numbers(checked: Checked) -> Iterator[Finding]:
    """Check that no event is in a period that the ruleset does not have."""
    game, overtime = checked.rules.game, checked.rules.overtime
    last = game.periods + overtime.periods
    for period, step in _periods(checked).items():
        if overtime.periods and period > last:
            has = f"{game.periods} and {overtime.periods} of overtime"
            message = f"Event {step.event.seq} is in period {period}; the ruleset has {has}."
            remedy = f"Write the right period: `amend {step.event.seq} period …`."
            yield NO_SUCH_PERIOD.of(step, message, remedy)


def check_period_ends(checked: Checked) -> Iterator[Finding]:
    """Check whether a period was cut short, and that nothing happens in it after its end."""
    ended: dict[int, Step] = {}
    for step in checked.steps:
        end = ended.get(step.period)
        if end is not None and step.event.kind in _IN_A_PERIOD and (step.played or 0) > (end.played or 0):
            message = f"{step.at} is after the end of period {step.period} at {end.at} (event {end.event.seq})."
            remedy = f"`amend {end.event.seq} clock …` or `amend {step.event.seq} period …`"
            yield AFTER_PERIOD_END.of(step, message, f"Put one of them right: {remedy}.")
            del ended[step.period]
        elif end is not None and isinstance(step.event, PeriodEnd):
            message = f"The end of period {step.period} is written twice, in events {end.event.seq} and "
            message += f"{step.event.seq}."
            yield ENDED_TWICE.of(step, message, f"Void one of them: `void {step.event.seq} written twice`.")
            continue
        if isinstance(step.event, PeriodEnd) and step.played is not None:
            ended[step.period] = step
            left = checked.rules.period_length(step.period) - step.played
            if left > 0 and not step.arrived.ice.over:
                message = f"Period {step.period} ended with {length_words(left)} not played."
                whole = _end_of(checked, step.period).clock
                remedy = f"Nothing, if it was cut short; else `amend {step.event.seq} clock {whole}`."
                yield PERIOD_CUT_SHORT.of(step, message, remedy)


def check_last_period(checked: Checked) -> Iterator[Finding]:
    """Check that the last period of a game closed as played has its end."""
    closing, last = checked.closing, checked.folded.last.ice
    if closing is None or closing.outcome != "played" or last.period < checked.rules.game.periods:
        return
    before = checked.step_of[closing.seq].before
    decided = any(step.before.ice.over for step in checked.steps[: checked.step_of[closing.seq].index + 1])
    if not before.ice.ended and not decided:
        stands = max(
            (step for step in checked.steps if step.at is not None), key=lambda step: (step.period, step.played)
        )
        message = f"The game is closed as played, but period {last.period} has no end; the record stops at {stands.at}."
        remedy = f"`amend {closing.seq} outcome shortened`, or {_ended(checked, last.period)}"
        yield PERIOD_NOT_ENDED.about(message, f"Put one of them right: {remedy}.", seq=closing.seq)


def check_ends_written(checked: Checked) -> Iterator[Finding]:
    """Check that every period behind which another follows has its end, where the record has ends."""
    ended = {step.period for step, _ in checked.of(PeriodEnd)}
    played = _periods(checked)
    for period in sorted(played.keys() - ended - {max(played, default=0)} if ended else ()):
        message = f"The end of period {period} is not written; the period is taken as played out."
        yield END_NOT_WRITTEN.about(message, f"Nothing, if it was; else: {_ended(checked, period)}.")


def check_timeouts(checked: Checked) -> Iterator[Finding]:
    """Check that no side takes more time-outs than it has."""
    most = checked.rules.game.timeouts
    taken: dict[Team, int] = dict.fromkeys(TEAMS, 0)
    for step, event in checked.of(Timeout):
        taken[event.team] += 1
        if taken[event.team] > most:
            message = f"Time-out number {taken[event.team]} of {event.team}; the ruleset allows {most}."
            remedy = f"`amend {event.seq} team …` or `void {event.seq} no time-out`"
            yield TOO_MANY_TIMEOUTS.of(step, message, f"If it was written down wrong: {remedy}.")


def check_after_the_end(checked: Checked) -> Iterator[Finding]:
    """Check that play does not go on after the game was decided."""
    for step in checked.steps:
        if step.before.ice.over and not step.before.ice.closed and _goes_on(step) and not checked.is_outside(step):
            score = f"{step.before.home.score}-{step.before.away.score}"
            message = f"The game was decided, {score}, but event {step.event.seq} goes on with it."
            remedy = f"Put the goals right, or this event: `void {step.event.seq} after the end`."
            yield AFTER_THE_GAME.of(step, message, remedy)
            return


def _goes_on(step: Step) -> bool:
    """Whether the clock ran on to get there; a penalty may be called after the last horn, but not in a next period."""
    in_next = step.period > step.before.period
    if isinstance(step.event, PeriodEnd):
        return in_next
    if step.event.kind in _PLAY:
        return step.event.clock is not None
    return in_next and step.event.kind not in _APART and bool(step.played)


def check_shootout(checked: Checked) -> Iterator[Finding]:
    """Check that there may be a shootout, and who takes part in it."""
    attempts = [*checked.of(ShootoutAttempt)]
    if attempts and not checked.rules.shootout.rounds:
        message = "A shootout is recorded, and the ruleset has none."
        yield NO_SHOOTOUT.of(attempts[0][0], message, "Look at the ruleset of the game: `rinkfold rules show`.")
    for team in TEAMS:
        shots = [(step, event) for step, event in attempts if event.team == team]
        yield from _shooters(checked, shots)


def _shooters(checked: Checked, shots: list[tuple[Step, ShootoutAttempt]]) -> Iterator[Finding]:
    seen: set[str] = set()
    for number, (step, event) in enumerate(shots, 1):
        if event.player is None:
            continue
        who, other = f"{event.team} {event.player}", f"`amend {event.seq} player …`"
        if _penalty_unfinished(step, event):
            message = f"{who} shoots in the shootout, but a penalty of that player is not finished."
            remedy = f"Write the right number: {other}. If it is right, tell the officials at once."
            yield SHOOTS_WHILE_PENALIZED.of(step, message, remedy)
        if event.player in seen and number <= checked.rules.shootout.rounds:
            yield SHOOTS_AGAIN.of(step, f"{who} shoots a second time.", f"Write the right number: {other}.")
        seen.add(event.player)


def _penalty_unfinished(step: Step, event: ShootoutAttempt) -> bool:
    state = step.arrived if step.event.clock is not None and step.period == step.before.period else step.before
    side = state.side(event.team)
    if event.player is None or side.record(event.player).ejected_at is not None:
        return False
    called = any(call.team == event.team and call.player == event.player for call in state.ice.calls)
    return called or owes_time(side, event.player, state.now)


CHECKS = (
    check_periods,
    check_period_numbers,
    check_period_ends,
    check_last_period,
    check_ends_written,
    check_timeouts,
    check_after_the_end,
    check_shootout,
)
