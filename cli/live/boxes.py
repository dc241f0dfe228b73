"""Both boxes in words: the reading to watch for, what somebody waits for, on what condition."""

from __future__ import annotations

from typing import Any

from ...timeline.clock import parse_reading, played_in_period
from ...timeline.events import Team
from ...timeline.game import Game, Instant
from ...timeline.moment import Moment
from ...timeline.rules import Ruleset
from ...timeline.views.box import Sitting
from ...timeline.views.penalties import PenaltyLife, Return
from ..answers.box import sitting_answer
from ..answers.common import time
from ..people import People, people_of
from ..standing import as_of_latest, just_out
from ..tables.box import conditions, out_text, standing_text, what_for, who_sits
from ..times import ordinal
from ..words import TEAMS

__all__ = ["boxes", "left"]


def boxes(game: Game, *, names: bool) -> dict[Team, list[dict[str, Any]]]:
    """Who sits on each side, of the shape of `box --json` and with words."""
    people = people_of(game.header, (one.event for one in game.folded.placed), names=names)
    now = as_of_latest(game)
    return {team: [_sitting(now, one, people) for one in now.box if one.team == team] for team in TEAMS}


def left(game: Game, *, names: bool) -> dict[Team, list[dict[str, Any]]]:
    """Who left each box a moment ago by the rules, without a door written: it may still be."""
    people = people_of(game.header, (one.event for one in game.folded.placed), names=names)
    sits = {(one.team, one.penalty, one.sits) for one in as_of_latest(game).box}
    rows: dict[Team, list[dict[str, Any]]] = {"home": [], "away": []}
    for life, one in just_out(game):
        if (life.team, life.penalty, one.who) not in sits:
            rows[life.team].append(_left(life, one, people))
    return rows


def _left(life: PenaltyLife, one: Return, people: People) -> dict[str, Any]:
    event = life.event
    what = event.infraction or "penalty"
    who = "a team-mate" if one.who is None else people.called(life.team, one.who)
    return {"penalty": life.penalty, "sits": one.who, "who": who, "what": what, "at": time(one.at)}


def _sitting(now: Instant, one: Sitting, people: People) -> dict[str, Any]:
    out = one.out.at
    up = one.out.time_up
    return {
        **sitting_answer(one),
        "who": who_sits(now, one, people),
        "what": what_for(one),
        "words": out_text(now, one),
        "conditions": conditions(now, one, people),
        "standing": standing_text(one),
        "waits": _waits(one),
        "watch": None if out is None else out.clock,
        "watch_period": None if out is None else out.period,
        "watch_said": "" if out is None else _said(out, now),
        "out_played_t": _played(out, now.game.rules),
        "up": None if up is None or up == out else up.clock,
        "up_period": None if up is None or up == out else up.period,
        "up_played_t": None if up == out else _played(up, now.game.rules),
    }


def _waits(one: Sitting) -> str | None:
    """Whether a place has to open for him, or a whistle has to go, before he may leave."""
    if one.out.how == "when a place opens" or one.waits_for_place:
        return "place"
    return "whistle" if one.out.how == "at stoppage" else None


def _said(out: Moment, now: Instant) -> str:
    """The period, where it is another one than the board's."""
    if out.period == now.at.period:
        return ""
    rules = now.game.rules
    return f"of {'overtime' if out.period == rules.game.periods + 1 else f'the {ordinal(out.period, rules)}'}"


def _played(at: Moment | None, rules: Ruleset) -> int | None:
    if at is None:
        return None
    return played_in_period(parse_reading(at.clock), rules.period_length(at.period), rules.game.reading)
