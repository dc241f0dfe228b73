"""Play resumes: everything called at the stoppage is settled together (sections 3, 4, 5)."""

from itertools import combinations
from typing import Any

from .box import queue_moves_up, report
from .seats import seat_people, withdraw_returns
from .state import MAJORS, MINORS, SHORT, TEAMS, Chain, Game, Key, Piece, other, start_head

FIVE_MINUTES = 3000


def resume(g: Game) -> None:
    """Settle the stoppage, enter the chains, seat people, and let play go on."""
    settle(g)
    for team in TEAMS:
        for chain in g.sides[team].chains:
            start_head(g, chain)
    if g.overtime() and not g.first_overtime_begun:
        g.first_overtime_begun = True
        equal_pairs(g)
    for team in TEAMS:
        for chain in g.sides[team].chains:
            seat_people(g, chain)
    withdraw_returns(g)
    for team in TEAMS:
        g.sides[team].chains = [c for c in g.sides[team].chains if c.todo()]
        g.sides[team].pending = []
    g.ice = g.formula()
    g.playing, g.intermission, g.provisional = True, False, None


def settle(g: Game) -> None:
    called = {team: [p for p in g.sides[team].pending if p.fate is None] for team in TEAMS}
    short = {team: [p for p in called[team] if p.kind in SHORT] for team in TEAMS}
    for team in TEAMS:
        for piece in called[team]:
            if piece.kind == "misconduct":
                piece.category = "misconduct"
    if g.knobs["ice.plays_short"]:
        split = offsetting(g, short)
    else:
        split = []
        for piece in short["home"] + short["away"]:
            g.count("plays_short false: served like offset")
            piece.category = "offset"
    for team in TEAMS:
        into_chains(g, team, called[team] + [p for p in split if p in g.sides[team].pending])
        enter(g, team)


def offsetting(g: Game, short: dict[str, list[Piece]]) -> list[Piece]:
    """Decide the category of every part that leaves a team short; return the offset shares of netted majors."""
    base_three = g.overtime() and g.base() == 3
    ruled = ruled_pair(short)
    rest = {team: [p for p in short[team] if p not in ruled] for team in TEAMS}
    if ruled:
        pair(ruled, on_clock=not base_three)
        g.count("ruled pair: base three" if base_three else "ruled pair: on the clock")
    elif is_lone_pair(g, short):
        four = g.knobs["coincident.lone_minor_pair"] == "four_on_four"
        pair(short["home"] + short["away"], on_clock=four and not base_three)
        if four and base_three:
            g.count("lone pair: base three")
        else:
            g.count("lone pair: on the clock" if four else "lone pair: substituted")
        return []
    majors = min(len([p for p in rest[team] if p.kind in MAJORS]) for team in TEAMS)
    minors = min(len([p for p in rest[team] if p.kind in MINORS]) for team in TEAMS)
    if majors:
        g.count("offset: majors one for one")
    if minors:
        g.count("offset: minors one for one")
    for team in TEAMS:
        gone = choose_offset(g, team, rest[team], majors, minors, ruled)
        for piece in rest[team]:
            piece.category = "offset" if piece in gone else "clock"
    left_over = {team: [p for p in rest[team] if p.category == "clock"] for team in TEAMS}
    return late_netting(g, left_over) if g.knobs["coincident.late_netting"] else []


def pair(pieces: list[Piece], on_clock: bool) -> None:
    for piece in pieces:
        piece.category, piece.lone = ("clock", True) if on_clock else ("offset", False)


def ruled_pair(short: dict[str, list[Piece]]) -> list[Piece]:
    """R9: exactly one minor of each side belongs to a penalty with `on_clock: true`."""
    wished = {team: [p for p in short[team] if p.kind in MINORS and p.wish is True] for team in TEAMS}
    if len(wished["home"]) == 1 and len(wished["away"]) == 1:
        return wished["home"] + wished["away"]
    return []


def is_lone_pair(g: Game, short: dict[str, list[Piece]]) -> bool:
    one_each = all(len(short[team]) == 1 and short[team][0].kind in MINORS for team in TEAMS)
    nobody = not any(g.sides[team].slots or g.sides[team].queue for team in TEAMS)
    return one_each and nobody


def choose_offset(
    g: Game, team: str, rest: list[Piece], majors: int, minors: int, ruled: list[Piece]
) -> tuple[Piece, ...]:
    """Try every way to offset so many majors and so many minors of a team and take the best (R11)."""
    ways: list[tuple[tuple[Any, ...], tuple[Piece, ...]]] = []
    for some_majors in combinations([p for p in rest if p.kind in MAJORS], majors):
        for some_minors in combinations([p for p in rest if p.kind in MINORS], minors):
            gone = some_majors + some_minors
            ways.append((rank(g, team, rest, gone, ruled), gone))
    tied = ways
    for i, name in enumerate(("", "fewest players short", "fewest stand-ins", "order of assessment")):
        best = min(way[0][i] for way in tied)
        if name and any(way[0][i] != best for way in tied):
            g.count(f"offset: choice by {name}")
        tied = [way for way in tied if way[0][i] == best]
    gone = tied[0][1]
    wishes = [p for p in rest if p.wish is not None]
    if wishes and (majors or minors):
        met = all(p.wish == (p not in gone) for p in wishes)
        g.count("offset: wish of the captain met" if met else "offset: wish of the captain not met")
    return gone


def rank(
    g: Game, team: str, rest: list[Piece], gone: tuple[Piece, ...], ruled: list[Piece]
) -> tuple[int, int, int, list[int]]:
    """Wishes met (most first), chains with clock time, stand-ins, then the earliest parts offset first."""
    side = g.sides[team]
    stays = [p for p in rest if p not in gone]
    ruled_here = [p for p in ruled if p in side.pending]
    met = len([p for p in rest if p.wish is not None and p.wish == (p in stays)])
    on_clock: set[Key] = {c.key for c in side.slots + side.queue}
    on_clock |= {p.key for p in stays} | {p.key for p in ruled_here if p.category == "clock"}
    owes_off: set[Key] = {c.key for c in side.chains if c.off_left()}
    owes_off |= {p.key for p in side.pending if p.kind == "misconduct" and p.fate is None}
    owes_off |= {p.key for p in gone} | {p.key for p in ruled_here if p.category == "offset"}
    stand_ins = [k for k in on_clock if key_is_out(g, team, k) or k[0] == "goalkeeper" or k in owes_off]
    in_order = sorted(rest, key=lambda p: p.order)
    return (-met, len(on_clock), len(stand_ins), [0 if p in gone else 1 for p in in_order])


def key_is_out(g: Game, team: str, key: Key) -> bool:
    if key[0] == "unknown":
        return unknown_is_out(g, key)
    return key[0] in ("player", "goalkeeper") and (team, key[1]) in g.ejected


def unknown_is_out(g: Game, key: Key) -> bool:
    """Whether a player not known is thrown out by the very call."""
    kinds = list({p.index: p.kind for p in g.pieces if p.seq == key[1]}.values())  # a netted part is in two pieces
    misconducts, penalties = int(g.knobs["ejection.misconducts"]), int(g.knobs["ejection.player_penalties"])
    return bool(
        "match" in kinds
        or "game_misconduct" in kinds
        or kinds.count("major") >= {"always": 1, "second": 2, "third": 3}.get(str(g.knobs["ejection.major"]), 99)
        or 0 < misconducts <= kinds.count("misconduct")
        or penalties == 1
    )


def late_netting(g: Game, left_over: dict[str, list[Piece]]) -> list[Piece]:
    """R10: net one leftover major against one leftover minor or double minor."""
    for team in TEAMS:
        mine, theirs = left_over[team], left_over[other(team)]
        one_major = len(mine) == 1 and mine[0].kind in MAJORS
        only_minors = all(p.kind in MINORS for p in theirs)
        one_player = len(theirs) == 1 or (len(theirs) == 2 and theirs[0].key == theirs[1].key)
        if not (one_major and only_minors and one_player):
            continue
        if not all(is_late(g, p) for p in mine + theirs):
            continue
        major, netted = mine[0], sum(p.left for p in theirs)
        if major.left <= netted:
            g.count("late netting: no difference")
            continue
        g.count("late netting: double minor" if len(theirs) == 2 else "late netting")
        for piece in theirs:
            piece.category = "offset"
        return [split_major(g, team, major, netted)]
    return []


def is_late(g: Game, piece: Piece) -> bool:
    last = int(g.knobs["game.periods"])
    if piece.period > last:
        return True
    return piece.period == last and int(g.knobs["game.period_length"]) - piece.e <= FIVE_MINUTES


def split_major(g: Game, team: str, major: Piece, netted: int) -> Piece:
    """Only the difference stays on the clock; the rest becomes offset time of the same player, after it."""
    rest = Piece(
        major.seq, major.index, major.kind, netted, major.order, major.key, major.period, major.e, major.served_by, None
    )
    rest.category = "offset"
    major.left -= netted
    g.pieces.append(rest)
    g.sides[team].pending.append(rest)
    return rest


def into_chains(g: Game, team: str, pieces: list[Piece]) -> None:
    """Put what was called into the chains of those who owe it; nobody sits off the clock for an ejected player."""
    side = g.sides[team]
    for piece in pieces:
        chain = next((c for c in side.chains if c.key == piece.key), None)
        if chain is None:
            chain = Chain(team, piece.key, out=piece.key[0] == "unknown" and unknown_is_out(g, piece.key))
            side.chains.append(chain)
        elif chain.place != "new":
            g.count("chain: new parts join a chain that sits")
            note_order(g, chain, piece)
        piece.spell = chain.spell
        chain.pieces.append(piece)
        if piece.category != "clock" and g.is_out(chain):
            g.count("ejection: ends owed time")
            piece.finish("ended by ejection", g.t)


def note_order(g: Game, chain: Chain, piece: Piece) -> None:
    if piece.category == "clock" and piece.kind in MAJORS:
        minors = [p for p in chain.clock_left() if p.kind in MINORS]
        if any(not p.has_begun() for p in minors):
            g.count("chain: major goes before a waiting minor")
        if any(p.has_begun() for p in minors):
            g.count("chain: begun minor finished before a new major")


def enter(g: Game, team: str) -> None:
    """Chains that begin at this stoppage: minors before majors by the part served first, else by assessment."""
    side = g.sides[team]
    new = [c for c in side.chains if c.clock_left() and c.place in ("new", "off")]
    by_assessment = sorted(new, key=lambda c: c.clock_left()[0].order)
    new.sort(key=lambda c: (c.clock_left()[0].kind in MAJORS, c.clock_left()[0].order))
    if new != by_assessment:
        g.count("slots: minors entered before majors")
    for chain in new:
        if len(side.slots) < 2:
            chain.place = "slot"
            side.slots.append(chain)
        else:
            g.count("queue: third chain waits")
            chain.place = "queue"
            side.queue.append(chain)
    for chain in side.chains:
        if chain.place == "new":
            chain.place = "off"


def equal_pairs(g: Game) -> None:
    """R8: at the first faceoff of the first overtime, if that is smaller."""
    if g.base() >= int(g.knobs["ice.skaters"]):
        return
    rows = {}
    for team in TEAMS:
        rows[team] = sorted(g.sides[team].slots, key=lambda c: c.clock_left()[0].order)
    taken: list[Chain] = []
    for home in rows["home"]:
        same = [c for c in rows["away"] if c not in taken and clock_time(c) == clock_time(home)]
        if same:
            taken += [home, same[0]]
    how = str(g.knobs["overtime.equal_pair"])
    if taken:
        g.count("equal pair: off the clock" if how == "off_the_clock" else "equal pair: on the clock")
    if how == "off_the_clock":
        for chain in taken:
            off_the_clock(g, chain)
        for team in TEAMS:
            while queue_moves_up(g, team, ""):
                pass


def clock_time(chain: Chain) -> int:
    return sum(p.left for p in chain.clock_left())


def off_the_clock(g: Game, chain: Chain) -> None:
    """A chain of an equal pair gives up its slot; what remains of its clock parts is offset time."""
    g.sides[chain.team].slots.remove(chain)
    chain.place = "off"
    chain.spell += 1
    for piece in chain.clock_left():
        piece.category = "offset"
        if g.is_out(chain):
            piece.finish("ended by ejection", g.t)
    if chain.stand_in is not None:
        seat, chain.stand_in = chain.stand_in, None
        if chain.key[0] == "goalkeeper" and chain.seat is None and not g.is_out(chain):
            chain.seat = seat  # nothing is on the clock any more: the one who sits sits on (R14 d)
        else:
            report(g, chain.team, seat, "at stoppage")
    start_head(g, chain)
