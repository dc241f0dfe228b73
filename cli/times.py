"""Moments, as they are typed and as they are shown."""

from __future__ import annotations

from ..timeline.clock import BadReading, format_reading, parse_moment, parse_reading
from ..timeline.moment import Moment
from ..timeline.rules import Ruleset
from .errors import refuse

__all__ = ["on_board", "ordinal", "period_name", "shown", "typed_moment"]

_EXAMPLE = 'Write the period and what the board shows: --at "2 7:42", in overtime --at "OT 3:10".'
_MOST_SHOWN = 60
_ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}


def typed_moment(text: str, rules: Ruleset) -> Moment:
    """The moment that was typed, for example ``"2 7:42"``; its reading may be written in any way that entries know.

    Raises:
        ProblemsFound: it is none, or there is no such period or reading under `rules`.
    """
    period, clock = _read(text, rules)
    if not _is_played(period, rules):
        refuse("bad_moment", f"{_quoted(text)}: under these rules there is no period {period}.", _EXAMPLE)
    length = rules.period_length(period)
    if parse_reading(clock) > length:
        refuse("bad_moment", f"{_quoted(text)}: period {period} is {format_reading(length)} long.", _EXAMPLE)
    return Moment(period, clock)


def _read(text: str, rules: Ruleset) -> tuple[int, str]:
    try:
        return parse_moment(text, rules.game.periods)
    except BadReading:
        from .entries.head import read_moment

        moment = read_moment(text, rules.game.periods)
    if moment is None:
        refuse("bad_moment", f"{_quoted(text)} is not a game time.", _EXAMPLE)
    return moment


def _quoted(text: str) -> str:
    quoted = repr(text)
    return quoted if len(quoted) <= _MOST_SHOWN else f"{quoted[: _MOST_SHOWN - 1]}…"


def _is_played(period: int, rules: Ruleset) -> bool:
    return period >= 1 and (rules.overtime.periods == 0 or period <= rules.game.periods + rules.overtime.periods)


def period_name(period: int, rules: Ruleset) -> str:
    """The period as it is typed: ``"2"``, ``"OT"``, ``"OT2"``."""
    overtime = period - rules.game.periods
    return str(period) if overtime < 1 else "OT" if overtime == 1 else f"OT{overtime}"


def ordinal(period: int, rules: Ruleset) -> str:
    """The period as it is said: ``"2nd"``, ``"OT"``."""
    return period_name(period, rules) if period > rules.game.periods else _ORDINALS.get(period, f"{period}th")


def shown(moment: Moment, rules: Ruleset) -> str:
    """A moment as it is typed: ``"2 7:42"``, ``"OT 3:10"``."""
    return f"{period_name(moment.period, rules)} {moment.clock}"


def on_board(moment: Moment, at: Moment, rules: Ruleset) -> str:
    """A reading to look out for, seen from `at`: the period is named only where it is another one."""
    if moment.period == at.period:
        return moment.clock
    period = "overtime" if moment.period == rules.game.periods + 1 else f"the {ordinal(moment.period, rules)}"
    return f"{moment.clock} of {period}"
