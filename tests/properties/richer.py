"""Random logs with what the naive simulator's games lack: shots, many goalie changes, evidence, new numbers."""

from __future__ import annotations

import random
from typing import Any

from hypothesis import strategies as st

from rinkfold.timeline import events as ev
from rinkfold.timeline.events import Event

from .writing import WrittenGame, games, seeds, with_inserted, written

__all__ = ["richer", "richer_logs"]

GOALIES: tuple[str | None, ...] = ("1", "30", "31", None, None)


def richer(log: WrittenGame, rng: random.Random) -> WrittenGame:
    """`log` with more events, each written at the reading of one that is there or, a shot, without a reading."""
    extras: dict[int, list[Event]] = {}
    for event in log.events[1:]:
        if event.period is None or event.clock is None:
            continue
        if rng.random() < 0.5:
            extras[event.seq] = [_something(rng, log, event) for _ in range(rng.choice((1, 1, 2, 3)))]
    if rng.random() < 0.7 and len(log.events) > 1 and log.events[1].period is not None:
        starters = [_goalie(rng, {"seq": 0, "period": 1, "clock": log.events[1].clock}, t) for t in ("home", "away")]
        extras[2] = [*starters, *extras.get(2, ())]
    return with_inserted(log, extras)[0]


def _something(rng: random.Random, log: WrittenGame, beside: Event) -> Event:
    """A shot, a change in net, a release seen, a new number, something seen, or a remark at the reading of `beside`."""
    at: dict[str, Any] = {"seq": 0, "period": beside.period, "clock": beside.clock}
    team: ev.Team = rng.choice(("home", "away"))
    draw = rng.random()
    if draw < 0.6:
        at["clock"] = beside.clock if rng.random() < 0.5 else None
        return ev.Shot(**at, team=team, count=rng.choice((None, 1, 2, 5)), player=rng.choice((None, "9")))
    if draw < 0.8:
        return _goalie(rng, at, team)
    if draw < 0.88:
        return _released(rng, log, beside, at) or ev.ObservedStrength(**at, home=5, away=4)
    if draw < 0.94:
        number = str(rng.randrange(200, 990))
        return ev.RosterChange(**at, team=team, number=number, was=rng.choice(("2", "3", "4", "5", "7", "8", "9", "1")))
    return rng.choice(
        (
            ev.Remark(**at, text="seen"),
            ev.ObservedPlayer(**at, team=team, player="7", where="box"),
            ev.Figures(**at, team=team, shots=7, source="board"),
        )
    )


def _goalie(rng: random.Random, at: dict[str, Any], team: ev.Team) -> Event:
    return ev.GoalieChange(**at, team=team, goalie=rng.choice(GOALIES))


def _released(rng: random.Random, log: WrittenGame, beside: Event, at: dict[str, Any]) -> Event | None:
    earlier = [one for one in log.events[: beside.seq - 1] if isinstance(one, ev.PenaltyAssessed)]
    if not earlier:
        return None
    penalty = rng.choice(earlier)
    return ev.PenaltyEnded(**at, team=penalty.team, penalty=penalty.seq, cause="released")


richer_logs = st.builds(lambda game, seed: richer(written(game), random.Random(seed)), games, seeds)
"""Random games as logs with all of this in them."""
