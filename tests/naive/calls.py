"""A penalty is called: its parts, what ends the player's game, what an ejection does."""

from typing import Any

from .box import forget_finished, report
from .goals import delayed_call, goal_of_call
from .state import MINORS, Call, Game, Key, Piece, Seat

NTH = {"always": 1, "second": 2, "third": 3}


def penalty(g: Game, place: int, seq: int, team: str, details: dict[str, Any]) -> None:
    """Record one penalty event; `place` is its place in the game. The whistle has blown."""
    pieces = [make_piece(g, place, seq, i, team, details) for i in range(len(details["parts"]))]
    g.pieces += pieces
    g.sides[team].pending += pieces
    if details["shot"]:
        replaced = [p for p in pieces if p.kind in MINORS and p.fate is None]
        if replaced:
            g.count("penalty shot: replaces the first minor")
            replaced[0].finish("replaced by penalty shot", g.t)
    call = Call(team, details["player"], pieces, details["delayed"])
    g.calls.append(call)
    g.calls_here.append(call)
    if call.delayed:
        goal = goal_of_call(g, call)
        if goal is not None:
            delayed_call(g, call, goal)
    if not details["staff"]:
        ejection(g, call)


def make_piece(g: Game, place: int, seq: int, index: int, team: str, details: dict[str, Any]) -> Piece:
    kind = details["parts"][index]
    names = {"minor": "minor", "bench_minor": "minor", "major": "major", "match": "match", "misconduct": "misconduct"}
    length = 0 if kind == "game_misconduct" else int(g.knobs[f"lengths.{names[kind]}"])
    key = chain_key(g, seq, index, team, details)
    piece = Piece(
        seq, index, kind, length, (place, index), key, g.period, g.e, details["served_by"], details["on_clock"]
    )
    if details["staff"] and kind != "bench_minor":
        g.count("part: staff part nobody serves")
        piece.finish("unserved", g.t)
    elif kind == "game_misconduct":
        g.count("part: game misconduct served at the call")
        piece.start = g.t
        piece.finish("served", g.t)
    return piece


def chain_key(g: Game, seq: int, index: int, team: str, details: dict[str, Any]) -> Key:
    player = details["player"]
    if details["parts"][index] == "bench_minor":
        g.count("chain: bench minor of its own")
        return ("bench", seq, index, details["served_by"] or player, player)
    if player is None:
        if not details["staff"]:
            g.count("chain: unknown player of its own")
        return ("unknown", seq)
    if player in g.goalkeepers[team]:
        g.count("goalkeeper: chain of its own")
        return ("goalkeeper", player, seq)
    return ("player", player)


def ejection(g: Game, call: Call) -> None:
    """Does this call end the player's game? A player not known is somebody else every time."""
    mine = [call]
    if call.player is not None:
        mine = [c for c in g.calls if c.team == call.team and c.player == call.player]
    reasons = ejection_reasons(g, mine, call)
    already = (call.team, call.player or "") in g.ejected
    if reasons and not already:
        g.count(reasons[0])
        if call.player is not None:
            g.ejected[(call.team, call.player)] = g.t
    if reasons or already:
        end_owed_time(g, call)


def ejection_reasons(g: Game, mine: list[Call], call: Call) -> list[str]:
    kinds = list({(p.seq, p.index): p.kind for c in mine for p in c.pieces}.values())  # a netted part is in two pieces
    counted = [c for c in mine if counts(g, c)]
    if len(counted) < len(mine):
        g.count("ejection: washed-out penalty not counted")
    reasons = []
    if "match" in kinds or "game_misconduct" in kinds:
        reasons.append("ejection: match or game misconduct")
    nth = NTH.get(str(g.knobs["ejection.major"]))
    if nth is not None and kinds.count("major") >= nth:
        reasons.append("ejection: majors")
    if 0 < int(g.knobs["ejection.misconducts"]) <= kinds.count("misconduct"):
        reasons.append("ejection: misconducts")
    if 0 < int(g.knobs["ejection.player_penalties"]) <= len(counted):
        reasons.append("ejection: number of penalties")
    return reasons


def counts(g: Game, call: Call) -> bool:
    """R2: a penalty that is nothing but washed-out minors may not count."""
    only_washed = all(p.kind in MINORS and p.fate == "washed out" for p in call.pieces)
    return bool(g.knobs["ejection.counts_washed_out"]) or not only_washed


def end_owed_time(g: Game, call: Call) -> None:
    """The misconduct and offset time an ejected player owes ends; a stand-in who sits for it is released."""
    pieces = [p for p in g.sides[call.team].pending if p.kind == "misconduct" and p.fate is None]
    for piece in pieces:
        if piece.key in (("unknown", call.pieces[0].seq), ("player", call.player)) or piece.key[:2] == (
            "goalkeeper",
            call.player,
        ):
            g.count("ejection: ends owed time")
            piece.finish("ended by ejection", g.t)
    if call.player is None:
        return
    for chain in g.sides[call.team].chains:
        if chain.owner != call.player:
            continue
        for piece in chain.off_left():
            g.count("ejection: ends owed time")
            piece.finish("ended by ejection", g.t)
        seat, chain.seat = chain.seat, None
        if seat is not None and chain.key[0] == "goalkeeper":
            g.count("goalkeeper: second team-mate released by the ejection")
            report(g, call.team, seat, "at stoppage")
        if chain.clock_left() and chain.stand_in is None:
            chain.stand_in = Seat(None, "stand-in", {p.seq for p in chain.clock_left()})
    forget_finished(g)
