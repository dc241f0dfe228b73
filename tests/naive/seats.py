"""Who sits for what when play resumes, and who only seemed to return (R14, R15)."""

from typing import Any

from .box import clock_spell, needs_stand_in
from .state import Chain, Game, Piece, Seat


def seat_people(g: Game, chain: Chain) -> None:
    """Who sits for what, judged anew (R14)."""
    clock, off = chain.clock_left(), chain.off_left()
    if chain.key[0] == "bench":
        seat_bench_minor(g, chain)
        return
    need = needs_stand_in(g, chain)
    if need:
        seat_stand_in(g, chain, clock)
    else:
        chain.stand_in = None
    sits = bool(off) or bool(clock and not need)
    if not sits:
        chain.seat = None
        return
    if chain.seat is None:
        goalkeeper = chain.key[0] == "goalkeeper"
        chain.seat = Seat(named_for_goalkeeper(g, chain), "stand-in") if goalkeeper else Seat(chain.owner, "player")
        if goalkeeper:
            g.count("goalkeeper: second team-mate for off-the-clock time")
    if chain.key[0] == "goalkeeper" and chain.seat.who is not None and is_penalized(g, chain, chain.seat.who):
        chain.seat.who = None
    chain.seat.seqs |= {p.seq for p in (off if need else clock + off)}


def named_for_goalkeeper(g: Game, chain: Chain) -> str | None:
    """Where a goalkeeper owes nothing on the clock, the one who was named sits for what is off it."""
    if any(p.category == "clock" for p in chain.pieces):
        return None
    names = [p.served_by for p in chain.pieces if p.served_by and not is_penalized(g, chain, p.served_by)]
    return names[0] if names else None


def seat_stand_in(g: Game, chain: Chain, clock: list[Piece]) -> None:
    kept = [chain.kept[1]] if chain.kept is not None and chain.kept[0] == chain.spell else []
    names = kept + [p.served_by for p in clock_spell(chain) if p.served_by]
    for name in names:
        if is_penalized(g, chain, name):
            chain.gone.add(name)
    free = [name for name in names if name not in chain.gone]
    who = free[0] if free else None
    if chain.stand_in is None:
        g.count(why_stand_in(g, chain))
        if chain.seat is not None and chain.key[0] == "player":
            g.count("stand-in: takes over from the player")
        chain.stand_in = Seat(who, "stand-in")
    elif chain.stand_in.who != who and chain.stand_in.who in chain.gone:
        g.count("stand-in: penalized himself, place to a new one")
    chain.stand_in.who = who
    chain.stand_in.seqs |= {p.seq for p in clock}


def why_stand_in(g: Game, chain: Chain) -> str:
    if chain.key[0] == "goalkeeper":
        return "stand-in: for a goalkeeper"
    if g.is_out(chain):
        return "stand-in: for an ejected player"
    return "stand-in: beside offset or misconduct time" if chain.off_left() else "stand-in: named where none is needed"


def is_penalized(g: Game, chain: Chain, name: str) -> bool:
    """Whether somebody named as a stand-in owes time of his own, or is out of the game."""
    own = [c for c in g.sides[chain.team].chains if c.key == ("player", name) and c.todo()]
    return bool(own) or (chain.team, name) in g.ejected


def seat_bench_minor(g: Game, chain: Chain) -> None:
    who: Any = chain.key[3]
    if who is not None and is_penalized(g, chain, who):
        chain.gone.add(who)
    if who in chain.gone:
        who = None
    if chain.seat is None:
        chain.seat = Seat(who, "player" if who is not None and who == chain.key[4] else "stand-in")
    elif chain.seat.who != who:
        g.count("stand-in: penalized himself, place to a new one")
        chain.seat.who, chain.seat.role = who, "stand-in"
    chain.seat.seqs |= {p.seq for p in chain.todo()}


def withdraw_returns(g: Game) -> None:
    """R15: whoever is penalized at the stoppage at whose tenth he returned did not return, if he has to sit."""
    for call in g.calls_here:
        if call.player is None:
            continue
        sits = any(p.fate is None for p in call.pieces) or (call.team, call.player) in g.ejected
        for row in list(g.returns):
            if sits and row[0] >= g.stoppage_start and row[1] == call.team and row[3] == call.player:
                g.count("return: withdrawn")
                g.returns.remove(row)
