"""Whistles, faceoffs, ends of periods, goalkeepers, and the clock."""

from __future__ import annotations

from ...timeline.events import ClockSet, Faceoff, GoalieChange, PeriodEnd, Stoppage, Timeout
from ...timeline.views.goalkeepers import shots_on_goal
from ..times import ordinal
from ..words import TEAMS
from .entered import Entered
from .leaving import consequences

__all__ = ["clock_set", "faceoff", "goalie_change", "period_end", "stoppage", "timeout"]

Said = tuple[str, str]


def _and(*effects: str) -> str:
    return "; ".join(filter(None, effects))


def faceoff(entered: Entered, event: Faceoff) -> Said:
    """Play goes on."""
    return "faceoff", _and("play is on", *consequences(entered))


def stoppage(entered: Entered, event: Stoppage) -> Said:
    """Play stops, and who leaves at the whistle."""
    what = f"stoppage, {event.reason}" if event.reason else "stoppage"
    return what, _and(*consequences(entered)) or "nobody leaves the box"


def timeout(entered: Entered, event: Timeout) -> Said:
    """How many of its time-outs the side has taken."""
    taken = sum(isinstance(one.event, Timeout) and one.event.team == event.team for one in entered.game.folded.placed)
    return f"{event.team} time-out", _and(f"{taken} of {entered.rules.game.timeouts} taken", *consequences(entered))


def period_end(entered: Entered, event: PeriodEnd) -> Said:
    """The score and the shots of the period."""
    state = entered.instant.state
    shots = dict.fromkeys(TEAMS, 0)
    for count in shots_on_goal(entered.game.folded):
        if count.period == event.period:
            shots[count.team] = count.shots
    period = ordinal(event.period or 1, entered.rules)
    return "end of the period", _and(
        f"{state.home.score}-{state.away.score}",
        f"shots in the {period}: home {shots['home']}, away {shots['away']}",
        *consequences(entered),
    )


def goalie_change(entered: Entered, event: GoalieChange) -> Said:
    """Who is in net."""
    if event.goalie is None:
        return f"{event.team} net empty", _and("one more skater", *consequences(entered))
    return f"{event.team} {entered.people.called(event.team, event.goalie)} in net", _and(*consequences(entered))


def clock_set(entered: Entered, event: ClockSet) -> Said:
    """The reading that counts for the stoppage."""
    return f"clock set to {event.to}", _and("the stoppage counts there", *consequences(entered))
