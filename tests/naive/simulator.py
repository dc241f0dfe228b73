"""A naive, independent simulator of the penalty model, tenth by tenth.

`simulate(knobs, goalkeepers, events)` takes plain values and gives plain values. Knobs have the dotted names of
section 9 of the penalty model, lengths as integer tenths of a second. Events are tuples in game order, each with the
tenths elapsed in its period:

    ("faceoff" | "stoppage" | "timeout" | "period_end" | "other", seq, period, e)
    ("goal", seq, period, e, team, {"ends": seq or None, "awarded": bool})
    ("penalty", seq, period, e, team, {"player", "staff", "parts", "served_by", "delayed", "on_clock", "shot"})
    ("penalty_shot", seq, period, e, team, "scored" | "saved" | "missed")
    ("goalie", seq, period, e, team, number or None), ("ruling", seq, period, e, penalty_seq), ("closed", seq)

The answer: "skaters", one (home, away) for each tenth of played time; "last", the provisional numbers at the end;
"returns", (tenth, team, seqs of the penalties sat for, number or None, "player" | "stand-in", "on expiry" | "at
stoppage"); "parts", (seq, index) -> (start, end, tenths served, fate), the start None if it never ran, the end the
tenth at which its fate was decided; "goals", seq -> strength, ended, washed; "ejected", (team, number) -> tenth;
"over"; "counts", how often each rule of RULES_COUNTED fired.
"""

import copy
from typing import Any

from .box import ruling, tick, whistle
from .calls import penalty
from .goals import end_game, finish_game, running_clock, score_goal
from .rules import RULES_COUNTED
from .settle import resume
from .state import TEAMS, Game, Piece

__all__ = ["RULES_COUNTED", "simulate"]

Event = tuple[Any, ...]


def simulate(knobs: dict[str, Any], goalkeepers: dict[str, set[str]], events: list[Event]) -> dict[str, Any]:
    g = Game(dict(knobs), {team: set(goalkeepers.get(team, ())) for team in TEAMS})
    g.ice_before = {team: int(knobs["ice.skaters"]) for team in TEAMS}
    for place, event in enumerate(goals_before_calls(events)):
        if event[0] == "closed":
            end_game(g, "end: closed")
            continue
        if not g.over:
            go_to(g, event)
        happen(g, place, event)
    return answer(g)


def goals_before_calls(events: list[Event]) -> list[Event]:
    """A goal is judged by the ice before whatever stoppage or call is written at its reading."""
    ordered: list[Event] = []
    for event in events:
        at = len(ordered)
        if event[0] == "goal":
            while at > 0 and ordered[at - 1][0] in ("stoppage", "penalty", "timeout", "other"):
                if ordered[at - 1][2:4] != event[2:4]:
                    break
                at -= 1
        ordered.insert(at, event)
    return ordered


def go_to(g: Game, event: Event) -> None:
    """Let time pass until the reading of an event, with the whistles and faceoffs that nobody wrote."""
    kind, period, e = event[0], event[2], event[3]
    if period != g.period:
        begin_period(g, period)
    g.used = True
    if not g.playing and e > g.e:
        if kind == "faceoff" and g.running_clock and not g.intermission:
            g.count("time: running clock, stoppage ends at a later faceoff")
            stand_still_until(g, e)
            return
        g.count("time: opening faceoff implied" if g.intermission else "time: implied resumption")
        resume(g)
    play_until(g, e)


def begin_period(g: Game, period: int) -> None:
    if g.period and (not g.intermission or (g.used and not g.ended)):
        length = g.period_length()
        if not g.playing and g.e < length:
            resume(g)
        if g.playing:
            play_until(g, length)
            whistle(g)
        g.count("time: period played out though no end is written")
    if any(side.pending for side in g.sides.values()):
        g.count("time: horn penalty starts with the next period")
    g.period, g.e, g.base_t = period, 0, g.t
    g.used = g.ended = False
    g.intermission = True
    running_clock(g)


def play_until(g: Game, e: int) -> None:
    while g.e < e:
        g.skaters.append((g.ice["home"], g.ice["away"]))
        tick(g)


def stand_still_until(g: Game, e: int) -> None:
    """A stoppage under a running clock: what has begun goes on, the numbers are the provisional ones."""
    while g.e < e:
        if g.provisional is None:
            then = as_if_resumed(g)
            g.provisional = (then.ice["home"], then.ice["away"])
        g.skaters.append(g.provisional)
        tick(g)


def as_if_resumed(g: Game) -> Game:
    """What it would be if play resumed now."""
    skaters, g.skaters = g.skaters, []
    then = copy.deepcopy(g)
    g.skaters = skaters
    if not then.playing:
        resume(then)
    return then


def happen(g: Game, place: int, event: Event) -> None:
    kind, seq = event[0], event[1]
    if kind == "faceoff":
        if g.playing:
            g.count("time: implied whistle at a faceoff")
            whistle(g)
        if not g.over:
            resume(g)
    elif kind == "ruling":
        ruling(g, event[4])
    elif kind == "goalie":
        if event[5] is not None:
            g.goalkeepers[event[4]].add(event[5])
    elif kind != "other":
        if g.playing:
            whistle(g)
        at_the_whistle(g, place, kind, seq, event)


def at_the_whistle(g: Game, place: int, kind: str, seq: int, event: Event) -> None:
    if kind == "goal":
        score_goal(g, seq, event[4], "awarded" if event[5]["awarded"] else "plain", event[5]["ends"])
        running_clock(g)
    elif kind == "penalty_shot" and event[5] == "scored":
        score_goal(g, seq, event[4], "shot", None)
        running_clock(g)
    elif kind == "penalty":
        g.provisional = None
        penalty(g, place, seq, event[4], event[5])
    elif kind == "period_end":
        g.ended = True
        g.intermission = True
        if g.e < g.period_length():
            g.count("time: period cut short")
        if g.period >= int(g.knobs["game.periods"]) and g.score["home"] != g.score["away"]:
            end_game(g, "end: last period")


def answer(g: Game) -> dict[str, Any]:
    then = as_if_resumed(g)
    if g.over:
        finish_game(g)
    return {
        "skaters": g.skaters,
        "last": (then.ice["home"], then.ice["away"]),
        "returns": then.returns,
        "parts": parts(g if g.over else then),
        "goals": g.goals,
        "ejected": g.ejected,
        "over": g.over,
        "counts": g.counts,
    }


def parts(g: Game) -> dict[tuple[int, int], tuple[int | None, int | None, int, str]]:
    by_part: dict[tuple[int, int], list[Piece]] = {}
    for piece in g.pieces:
        by_part.setdefault((piece.seq, piece.index), []).append(piece)
    rows = {}
    for part, shares in by_part.items():
        starts = [p.start for p in shares if p.start is not None]
        ends = [p.end for p in shares if p.end is not None]
        end = max(ends) if len(ends) == len(shares) else None
        served = sum(p.served for p in shares)
        rows[part] = (min(starts) if starts else None, end, served, fate(shares))
    return rows


def fate(shares: list[Piece]) -> str:
    """One word for a part; of a part in two shares, that of the one not finished or finished last."""
    live = [p for p in shares if p.fate is None]
    unserved = [p for p in shares if p.fate == "unserved"]
    if not live and unserved:
        never_ran = all(p.start is None for p in unserved)
        return "ended by ruling" if never_ran and any(p.fate == "ended by ruling" for p in shares) else "unserved"
    cut_short = [p for p in shares if p.fate in ("ended by goal", "ended by ruling", "ended by ejection")]
    if not live and cut_short:
        return str(max(cut_short, key=lambda p: p.end or 0).fate)
    if not live:
        return str(max(shares, key=lambda p: (p.end or 0, p.category == "offset")).fate)
    piece = next((p for p in live if p.running), live[0])
    if piece.running:
        return "offset" if piece.category == "offset" else "running"
    return "suspended" if any(p.start is not None for p in shares) else "waiting"
