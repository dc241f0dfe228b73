"""From the plain tuples of the naive simulator to the engine's values.

And the engine's answers in the simulator's form.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from attrs import evolve

from rinkfold.timeline import events as ev
from rinkfold.timeline.fold.changes import Ejected, PartEnded, Returned, ReturnWithdrawn
from rinkfold.timeline.fold.step import if_play_resumed
from rinkfold.timeline.folded import FoldedGame, fold
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.script.placed import Placed
from rinkfold.timeline.views.goals import goal_lines
from rinkfold.timeline.views.penalties import penalty_lives, started_parts

Tuples = Sequence[tuple[Any, ...]]


def ruleset(knobs: dict[str, object]) -> Ruleset:
    """A ruleset with `knobs` by their dotted names; lengths are tenths already."""
    rules = Ruleset(name="random")
    for name, value in knobs.items():
        rules = _with_knob(rules, name.split("."), value)
    return rules


def _with_knob(rules: Any, path: list[str], value: object) -> Any:
    if len(path) == 1:
        return evolve(rules, **{path[0]: value})
    return evolve(rules, **{path[0]: _with_knob(getattr(rules, path[0]), path[1:], value)})


def possible(knobs: Mapping[str, Any]) -> dict[str, Any]:
    """What the door of rulesets asks for beyond what the simulator does."""
    lead = knobs["game.running_clock.starts_at_lead"]
    return {
        "game.running_clock.from_period": min(knobs["game.running_clock.from_period"], knobs["game.periods"]),
        "game.running_clock.stops_below": min(knobs["game.running_clock.stops_below"], lead),
    }


def header(goalkeepers: dict[str, set[str]]) -> ev.GameOpened:
    """A first line with the goalkeepers on the rosters."""
    home, away = (
        ev.TeamSheet(
            name=team,
            roster=tuple(ev.Player(number=n, position="goalkeeper") for n in sorted(goalkeepers.get(team, ()))),
        )
        for team in ("home", "away")
    )
    return ev.GameOpened(seq=1, format=1, game="random", ruleset="random", home=home, away=away)


def placed(events: Tuples) -> list[Placed]:
    """The events at their places; the tuples are in game order already."""
    return [
        Placed(event, row[2], row[3]) if len(row) > 3 else Placed(event, last_period(events), None)
        for row in events
        for event in [_event(row)]
    ]


def last_period(events: Tuples) -> int:
    """The period of the last event that has one."""
    return max((row[2] for row in events if len(row) > 3), default=1)


def _event(row: tuple[Any, ...]) -> ev.Event:
    kind, seq = row[0], row[1]
    at = {"seq": seq, "period": row[2], "clock": "0:00"} if len(row) > 3 else {"seq": seq}
    event: ev.Event = _MAKERS[kind](at, row)
    return event


def _penalty(at: dict[str, Any], row: tuple[Any, ...]) -> ev.Event:
    more = row[5]
    return ev.PenaltyAssessed(
        **at,
        team=row[4],
        player=more["player"],
        staff="somebody" if more["staff"] else None,
        parts=more["parts"],
        served_by=more["served_by"],
        delayed_call=more["delayed"],
        on_clock=more["on_clock"],
        penalty_shot=more["shot"],
    )


_MAKERS: dict[str, Any] = {
    "faceoff": lambda at, row: ev.Faceoff(**at),
    "stoppage": lambda at, row: ev.Stoppage(**at),
    "timeout": lambda at, row: ev.Timeout(**at, team="home"),
    "period_end": lambda at, row: ev.PeriodEnd(**at),
    "goal": lambda at, row: ev.Goal(**at, team=row[4], ends=row[5]["ends"], awarded=row[5]["awarded"]),
    "penalty": _penalty,
    "penalty_shot": lambda at, row: ev.PenaltyShot(**at, team=row[4], result=row[5]),
    "goalie": lambda at, row: ev.GoalieChange(**at, team=row[4], goalie=row[5]),
    "ruling": lambda at, row: ev.PenaltyEnded(**at, team="home", penalty=row[4], cause="ruling"),
    "other": lambda at, row: ev.ObservedStrength(**at, home=5, away=5),
    "closed": lambda at, row: ev.GameClosed(**at, outcome="played"),
}


def folded(knobs: dict[str, object], goalkeepers: dict[str, set[str]], events: Tuples) -> FoldedGame:
    """The engine's fold of a game written for the simulator."""
    teams = {row[1]: row[4] for row in events if row[0] == "penalty"}
    places = [
        Placed(evolve(one.event, team=teams[one.event.penalty]), one.period, one.played)
        if isinstance(one.event, ev.PenaltyEnded)
        else one
        for one in placed(in_game_order(events))
    ]
    return fold(header(goalkeepers), places, ruleset(knobs))


def answer(game: FoldedGame) -> dict[str, Any]:
    """What the engine says, in the simulator's form."""
    standing = if_play_resumed(game.last, game.rules)
    return {
        "skaters": skaters(game),
        "last": (standing.home.on_ice, standing.away.on_ice),
        "returns": sorted(returns(game), key=repr),
        "parts": parts(game),
        "goals": goals(game),
        "ejected": {(c.team, c.player): c.at for c in game.all_changes() if isinstance(c, Ejected)},
        "over": game.last.ice.over,
    }


def skaters(game: FoldedGame) -> list[tuple[int, int]]:
    """Skaters by penalties at every played tenth; the goalkeepers are put back, so that no extra attacker counts."""
    rows: list[tuple[int, int]] = []
    goalies = _goalie_in_net(game)
    for segment in game.segments:
        for tenth in range(segment.start, segment.end):
            out = goalies[tenth] if tenth < len(goalies) else (False, False)
            rows.append((segment.strength.home - out[0], segment.strength.away - out[1]))
    return rows


def _goalie_in_net(game: FoldedGame) -> list[tuple[bool, bool]]:
    """Whether the net of each side is empty, at every played tenth."""
    out = [False, False]
    rows: list[tuple[bool, bool]] = []
    for one, state in zip(game.placed, game.states, strict=True):
        rows.extend([(out[0], out[1])] * (state.now - len(rows)))
        if isinstance(one.event, ev.GoalieChange):
            out[one.event.team == "away"] = one.event.goalie is None
    return rows


def returns(game: FoldedGame) -> list[tuple[Any, ...]]:
    """Everybody who went back, without withdrawn returns."""
    rows: list[tuple[Any, ...]] = []
    for change in game.all_changes():
        if isinstance(change, Returned):
            rows.append((change.at, change.team, tuple(sorted(change.penalties)), change.who, change.how))
        elif isinstance(change, ReturnWithdrawn):
            rows = [row for row in rows if not (row[0] == change.at and row[1] == change.team and row[3] == change.who)]
    return rows


def parts(game: FoldedGame) -> dict[tuple[int, int], tuple[int | None, int | None, int, str]]:
    """Every part's first start, end, tenths served, and fate or state.

    A part that never ran has an end all the same.
    """
    starts = {key: one.start.at for key, one in started_parts(game).items() if one.start is not None}
    ends: dict[tuple[int, int], int] = {}
    for change in (*game.all_changes(), *game.pending_changes):
        if isinstance(change, PartEnded):
            ends[change.penalty, change.index] = change.at
    found: dict[tuple[int, int], tuple[int | None, int | None, int, str]] = {}
    for life in penalty_lives(game):
        for index, part in enumerate(life.parts):
            key = (life.penalty, index)
            start, end = starts.get(key), ends.get(key)
            if part.kind == "game_misconduct" and part.fate == "served":
                start = end
            if (
                part.fate in {"waiting", "running", "suspended"}
                or (part.fate == "offset" and part.end is None)
                or start is None
            ):
                end = None
            elif part.fate == "unserved":
                end = game.last.now
            found[key] = (start, end, part.served, part.fate)
    return found


def goals(game: FoldedGame) -> dict[int, dict[str, Any]]:
    """Every goal's strength, the part it ended, and the part it washed out."""
    found: dict[int, dict[str, Any]] = {
        line.seq: {"strength": line.strength, "ended": None, "washed": None} for line in goal_lines(game)
    }
    last_goal: int | None = None
    for one, changes in zip(game.placed, game.changes, strict=True):
        if one.event.seq in found:
            last_goal = one.event.seq
        for change in changes:
            if isinstance(change, PartEnded) and change.fate == "ended by goal":
                found[change.seq or 0]["ended"] = (change.penalty, change.index)
            if isinstance(change, PartEnded) and change.fate == "washed out" and last_goal is not None:
                found[last_goal]["washed"] = (change.penalty, change.index)
    return found


def as_if_never_run(parts: dict[Any, tuple[Any, ...]], *, over: bool) -> dict[Any, tuple[Any, ...]]:
    """Parts that served no time have no start and end here; the simulator writes when their fate was decided.

    At the end of a game the engine leaves the calls of the last stoppage unsettled; the simulator settles them as if
    play resumed.
    """
    rows = {}
    for key, (start, end, served, fate) in parts.items():
        never = start is None or (start == end and not served)
        unsettled = over and never and fate == "ended by ejection"
        rows[key] = (None if never else start, None if never else end, served, "unserved" if unsettled else fate)
    return rows


def in_game_order(events: Tuples) -> list[tuple[Any, ...]]:
    """Goals before the first whistle of their reading since the faceoff there, as the script puts them."""
    rows: list[tuple[Any, ...]] = []
    for row in events:
        place = len(rows)
        if row[0] == "goal":
            for at in range(len(rows) - 1, -1, -1):
                if rows[at][2:4] != row[2:4] or rows[at][0] in {"faceoff", "goal"}:
                    break
                place = at if rows[at][0] in IMPLY_A_STOPPAGE else place
        rows.insert(place, row)
    return rows


IMPLY_A_STOPPAGE = {"stoppage", "penalty", "timeout", "penalty_shot", "period_end"}


def differences(engine: dict[str, Any], naive: dict[str, Any]) -> Iterable[str]:
    """What the two answers do not agree on, in words."""
    naive = {**naive, "returns": sorted(((*row[:4], row[5]) for row in naive["returns"]), key=repr)}
    naive = {**naive, "parts": as_if_never_run(naive["parts"], over=naive["over"])}
    engine = {**engine, "parts": as_if_never_run(engine["parts"], over=naive["over"])}
    for name in ("last", "over", "ejected", "goals", "parts", "returns", "skaters"):
        one, two = engine[name], naive[name]
        if one == two:
            continue
        if isinstance(one, dict):
            for key in {**one, **two}:
                if one.get(key) != two.get(key):
                    yield f"{name} {key}: engine {one.get(key)}, simulator {two.get(key)}"
        elif name == "skaters":
            at = next((t for t, (a, b) in enumerate(zip(one, two, strict=False)) if a != b), min(len(one), len(two)))
            here, there = one[at : at + 1], two[at : at + 1]
            yield f"skaters from {at} on: engine {here} of {len(one)}, simulator {there} of {len(two)}"
        elif name == "returns":
            here, there = [row for row in one if row not in two], [row for row in two if row not in one]
            yield f"returns: only engine {here}, only simulator {there}"
        else:
            yield f"{name}: engine {one}, simulator {two}"
