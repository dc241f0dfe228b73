"""The door of the box: time that runs out, slots that free, who is held and who returns, whistles, rulings."""

from .state import MINORS, TEAMS, Chain, Game, Piece, Seat, start_head


def report(g: Game, team: str, seat: Seat, how: str) -> None:
    if seat.who is not None and (team, seat.who) in g.ejected:
        return  # an ejected player is never among those who return
    g.returns.append((g.t, team, tuple(sorted(seat.seqs)), seat.who, seat.role, how))
    if how == "on expiry":
        g.count("return: on expiry")


def leaves_at_stoppage(g: Game, team: str, seat: Seat) -> None:
    """He needs a whistle: in a stoppage he leaves at once, in play at the next one."""
    if g.playing:
        g.sides[team].leaving.append(seat)
    else:
        report(g, team, seat, "at stoppage")


def needs_stand_in(g: Game, chain: Chain) -> bool:
    """Whether somebody else sits for the clock time of a chain."""
    if chain.key[0] == "bench" or not chain.clock_left():
        return False
    named = any(p.served_by for p in clock_spell(chain))
    return bool(g.is_out(chain) or chain.key[0] == "goalkeeper" or chain.off_left() or named)


def clock_spell(chain: Chain) -> list[Piece]:
    """The clock parts since the chain last had none, in the order in which they are served.

    Several may be over at one tenth: what ran out comes before what a goal or an official ended there.
    """
    done = [p for p in chain.past if p.category == "clock" and p.spell == chain.spell]
    ran = [p for p in done if p.start is not None]
    return ran + chain.clock_left() + [p for p in done if p.start is None]


def take_clock_sitter(g: Game, chain: Chain) -> Seat | None:
    """Whoever sat for the clock time and for nothing else: he gets up."""
    if chain.stand_in is not None:
        seat, chain.stand_in = chain.stand_in, None
        return seat
    if chain.seat is not None and not chain.off_left() and not g.is_out(chain):
        seat, chain.seat = chain.seat, None
        return seat
    return None


def queue_moves_up(g: Game, team: str, why: str) -> bool:
    side = g.sides[team]
    if not side.queue or len(side.slots) >= 2:
        return False
    chain = side.queue.pop(0)
    chain.place = "slot"
    side.slots.append(chain)
    start_head(g, chain, begun=not g.playing)
    if why:
        g.count(f"queue: moves up at a {why}")
    return True


def clock_time_over(g: Game, chain: Chain, why: str) -> None:
    """The last on-the-clock part of a chain in a slot has ended: `why` is run-out, goal or ruling."""
    side = g.sides[chain.team]
    side.slots.remove(chain)
    chain.place = "off"
    sitter = take_clock_sitter(g, chain)
    chain.spell += 1
    if chain.off_left():
        g.count("chain: off-the-clock time starts after the clock time")
        start_head(g, chain, begun=not g.playing and why != "run-out")
    moved = queue_moves_up(g, chain.team, why)
    if g.playing and moved:
        if sitter is not None:
            g.count("held: until a stoppage")
            side.held.append(sitter)
    elif g.playing:
        entitled_to_one_more(g, chain.team, sitter)
    elif sitter is not None:
        report(g, chain.team, sitter, "on expiry" if why != "goal" and not moved else "at stoppage")
    if not chain.todo() and chain.seat is not None:  # his other time was ended by a ruling in play
        seat, chain.seat = chain.seat, None
        leaves_at_stoppage(g, chain.team, seat)


def entitled_to_one_more(g: Game, team: str, sitter: Seat | None) -> None:
    """In play, nobody waiting: the one held longest goes on, else the one whose time is up."""
    held = g.sides[team].held
    if held:
        g.count("held: released by a later expiry")
        if sitter is not None:
            held.append(sitter)
        report(g, team, held.pop(0), "on expiry")
    elif sitter is not None:
        report(g, team, sitter, "on expiry")
    most = int(g.knobs["ice.skaters"])
    if g.overtime() and g.base() < most:
        if g.ice[team] < most:
            g.count("overtime: skater added")
        g.ice[team] = min(g.ice[team] + 1, most)
    else:
        g.ice = g.formula()


def run_out(g: Game, chain: Chain, piece: Piece) -> None:
    on_clock = piece.category == "clock"
    chain.finish(piece, "offset" if piece.category == "offset" else "served", g.t)
    if not g.playing:
        g.count("time: running clock, time up between whistle and faceoff")
    if on_clock and chain.clock_left():
        g.count("chain: next part starts at a run-out")
        start_head(g, chain)
    elif on_clock:
        clock_time_over(g, chain, "run-out")
    elif chain.off_left():
        start_head(g, chain)
    elif chain.seat is not None:
        g.count("return: offset or misconduct time, at a stoppage")
        seat, chain.seat = chain.seat, None
        leaves_at_stoppage(g, chain.team, seat)


def tick(g: Game) -> None:
    """One tenth of a second of played time: everything that runs is a tenth shorter."""
    g.t += 1
    g.e += 1
    over = []
    for team in TEAMS:
        for chain in g.sides[team].chains:
            for piece in chain.pieces:
                if piece.running:
                    piece.left -= 1
                    piece.served += 1
                    if piece.left == 0:
                        over.append((piece.order, chain, piece))
    if not over:
        return
    over.sort(key=lambda row: row[0])
    if len(over) > 1:
        g.count("expiry: several at one tenth")
    for _, chain, piece in over:
        run_out(g, chain, piece)
    g.provisional = None
    forget_finished(g)


def forget_finished(g: Game) -> None:
    for team in TEAMS:
        g.sides[team].chains = [c for c in g.sides[team].chains if c.todo()]


def whistle(g: Game) -> None:
    """Play stops: everyone whose time is up leaves the box."""
    g.ice_before = dict(g.ice)
    g.ran_before = {(p.seq, p.index) for team in TEAMS for c in g.sides[team].slots for p in c.pieces if p.running}
    g.playing = False
    g.provisional = None
    g.stoppage_start = g.t
    g.calls_here, g.goals_here = [], []
    if g.ice != g.formula():
        g.count("overtime: numbers back to the formula")
    for team in TEAMS:
        side = g.sides[team]
        for seat in side.held:
            g.count("held: released at a stoppage")
            report(g, team, seat, "at stoppage")
        for seat in side.leaving:
            report(g, team, seat, "at stoppage")
        side.held, side.leaving = [], []
        for chain in side.slots + side.queue:
            stand_in_not_needed(g, chain)


def stand_in_not_needed(g: Game, chain: Chain) -> None:
    """A ruling ended the rest.

    The stand-in leaves at a stoppage, and the player sits for the clock time from now on.
    """
    if chain.stand_in is not None and not needs_stand_in(g, chain):
        g.count("stand-in: need goes away")
        seat, chain.stand_in = chain.stand_in, None
        leaves_at_stoppage(g, chain.team, seat)
        if chain.seat is not None:
            chain.seat.seqs |= {p.seq for p in chain.clock_left()}


def ruling(g: Game, seq: int) -> None:
    """An official ends every part of one penalty, as if it ran out here (R6)."""
    g.provisional = None
    for team in TEAMS:
        for piece in g.sides[team].pending:
            if piece.seq == seq and piece.fate is None:
                piece.finish("ended by ruling", g.t)
                g.count("ruling: before play resumes")
        for chain in list(g.sides[team].chains):
            mine = [p for p in chain.todo() if p.seq == seq]
            if mine:
                ruling_in_chain(g, chain, mine)
    forget_finished(g)


def ruling_in_chain(g: Game, chain: Chain, mine: list[Piece]) -> None:
    side = g.sides[chain.team]
    if chain.stand_in is not None and chain.stand_in.who and any(p.served_by and p.category == "clock" for p in mine):
        chain.kept = (chain.spell, chain.stand_in.who)  # a ruling does not change who sits
    stopped = any(p.running for p in mine)
    for piece in mine:
        chain.finish(piece, "ended by ruling", g.t)
    if chain.place == "slot":
        g.count("ruling: slot, in play" if g.playing else "ruling: slot, at a stoppage")
        if not chain.clock_left():
            clock_time_over(g, chain, "ruling")
        elif stopped:
            start_head(g, chain, begun=not g.playing)
    elif chain.place == "queue":
        g.count("ruling: queue")
        if not chain.clock_left():
            side.queue.remove(chain)
            chain.place = "off"
            chain.spell += 1
            sitter = take_clock_sitter(g, chain)
            if sitter is not None:
                leaves_at_stoppage(g, chain.team, sitter)
            start_head(g, chain, begun=not g.playing)
    else:
        g.count("ruling: off the clock")
        if stopped and chain.off_left():
            start_head(g, chain, begun=not g.playing)
    rest_ended(g, chain)


def rest_ended(g: Game, chain: Chain) -> None:
    """After a ruling: does the player still sit, does a stand-in still have to?"""
    if chain.off_left() or chain.seat is None:
        return
    if not chain.todo() or (chain.stand_in is not None and needs_stand_in(g, chain)):
        seat, chain.seat = chain.seat, None
        leaves_at_stoppage(g, chain.team, seat)
    else:
        stand_in_not_needed(g, chain)


def endable(g: Game, team: str) -> list[tuple[Piece, Chain]]:
    """Minors of a team that ran in slots when play stopped, still run, and are not of a lone pair."""
    rows = []
    for chain in g.sides[team].slots:
        for piece in chain.pieces:
            if piece.running and piece.kind in MINORS and (piece.seq, piece.index) in g.ran_before:
                if piece.lone:
                    g.count("goal: lone pair spared")
                else:
                    rows.append((piece, chain))
    return rows
