"""Goals: their strength, what they end, what becomes of delayed calls (section 6)."""

from .box import clock_time_over, endable, forget_finished
from .state import MINORS, Call, Game, Goal, Piece, other, start_head


def score_goal(g: Game, seq: int, team: str, kind: str, ends: int | None) -> None:
    """A goal by `team`; `kind` is plain, awarded or shot. The whistle has blown."""
    against = other(team)
    if any(p.end == g.t and p.fate == "served" and p.served for p in g.pieces):
        g.count("time: ran out at the tenth of a goal")
    if g.goals_here:
        g.count("goal: two at one reading")
    goal = Goal(seq, team, touches=does_touch(g, kind), ends=ends)
    g.goals_here.append(goal)
    strength = "even"
    if g.ice_before[against] < g.ice_before[team]:
        strength = "power play"
    elif g.ice_before[team] < g.ice_before[against]:
        strength = "short-handed"
    if goal.touches and strength == "power play":
        goal.ended = end_one(g, against, ends)
        goal.serves_calls = goal.ended is not None
    elif goal.touches and strength == "short-handed":
        if g.knobs["goals.shorthanded_ends_own_minor"]:
            goal.ended = end_one(g, team, ends)
            if goal.ended is not None:
                g.count("goal: short-handed goal ends an own minor")
        else:
            g.count("goal: short-handed goal ends nothing")
    g.goals[seq] = {"strength": strength if kind == "plain" else None, "ended": goal.ended, "washed": None}
    for call in g.calls_here:  # only a penalty shot comes after the calls
        if call.delayed and goal.touches:
            delayed_call(g, call, goal)
    level = g.score["home"] == g.score["away"]
    g.score[team] += 1
    if g.overtime() and g.knobs["overtime.sudden_victory"] and level:
        end_game(g, "end: sudden victory")


def does_touch(g: Game, kind: str) -> bool:
    if kind == "plain":
        return True
    knob, what = ("goals.awarded_ends_minor", "awarded")
    if kind == "shot":
        knob, what = ("goals.penalty_shot_ends_minor", "penalty shot")
    g.count(f"goal: {what} ends a minor" if g.knobs[knob] else f"goal: {what} ends nothing")
    return bool(g.knobs[knob])


def end_one(g: Game, team: str, ends: int | None) -> tuple[int, int] | None:
    """End one running minor of a team, chosen as in section 6, item 1; None where there is none."""
    how = g.knobs["goals.ends_minor"]
    if how == "none":
        g.count("goal: ends_minor is none")
        return None
    rows = endable(g, team)
    if not rows:
        g.count("goal: short-handed by majors only")
        return None
    if how == "first_assessed":
        g.count("goal: ends the minor assessed first")
        piece, chain = min(rows, key=lambda row: row[0].order)
    else:
        g.count("goal: ends the minor with least time left")
        least = min(p.left for p, _ in rows)
        equals = sorted((row for row in rows if row[0].left == least), key=lambda row: row[0].order)
        chosen = [row for row in equals if row[0].seq == ends]
        if len(equals) > 1:
            g.count("goal: captain's choice among equals" if chosen else "goal: default among equals")
        piece, chain = (chosen or equals)[0]
    chain.finish(piece, "ended by goal", g.t)
    if chain.clock_left():
        g.count("goal: next part of the chain starts")
        start_head(g, chain, begun=True)
    else:
        clock_time_over(g, chain, "goal")
    forget_finished(g)
    return (piece.seq, piece.index)


def goal_of_call(g: Game, call: Call) -> Goal | None:
    """The goal at this stoppage that a delayed call belongs to: the last against its side."""
    against = [goal for goal in g.goals_here if goal.team != call.team and goal.touches]
    if not against:
        if any(goal.team == call.team for goal in g.goals_here):
            g.count("delayed: served, call on the side that scores")
        return None
    return against[-1]


def delayed_call(g: Game, call: Call, goal: Goal) -> None:
    """Wash, swap or serve one delayed call on the side scored on."""
    if goal.team == call.team:
        return
    minors = [p for p in call.pieces if p.kind in MINORS and p.fate is None]
    if goal.serves_calls:
        g.count("delayed: served in full, the goal ended a minor")
    elif g.knobs["goals.ends_minor"] == "none":
        g.count("delayed: served, goals end no minor")
    elif not minors:
        g.count("delayed: served, no minor among the calls")
    elif goal.washed is None:
        wash_or_swap(g, call, goal, minors[0])


def wash_or_swap(g: Game, call: Call, goal: Goal, first: Piece) -> None:
    mine, theirs = g.ice_before[call.team], g.ice_before[goal.team]
    if mine < theirs:
        g.count("delayed: washed out, short by what no goal ends")
    elif mine > theirs:
        if g.knobs["delayed_call.shorthanded_goal"] == "serve":
            g.count("delayed: served by the knob, short-handed goal")
            return
        g.count("delayed: washed out, short-handed goal")
    elif g.knobs["delayed_call.even"] == "serve":
        g.count("delayed: served by the knob, level")
        return
    else:
        if g.knobs["delayed_call.even"] == "swap":
            if endable(g, call.team):
                g.count("delayed: swap")
                goal.ended = end_one(g, call.team, goal.ends)
                goal.serves_calls = True
                g.goals[goal.seq]["ended"] = goal.ended
                return
            g.count("delayed: swap without a running minor washes")
        g.count("delayed: washed out, level")
    first.finish("washed out", g.t)
    goal.washed = (first.seq, first.index)
    g.goals[goal.seq]["washed"] = goal.washed


def end_game(g: Game, rule: str) -> None:
    if not g.over:
        g.count(rule)
        g.over, g.over_at = True, g.t


def running_clock(g: Game) -> None:
    """After each goal and when a period begins: does the clock run through stoppages? (R17)"""
    lead = abs(g.score["home"] - g.score["away"])
    starts = int(g.knobs["game.running_clock.starts_at_lead"])
    was = g.running_clock
    by_lead = starts > 0 and g.period >= int(g.knobs["game.running_clock.from_period"]) and lead >= starts
    stays = was and lead >= int(g.knobs["game.running_clock.stops_below"])
    g.running_clock = g.knobs["game.clock"] == "running" or by_lead or stays
    if g.knobs["game.clock"] != "running" and g.running_clock != was:
        g.count("time: running clock by lead goes on" if g.running_clock else "time: running clock by lead goes off")


def finish_game(g: Game) -> None:
    """What is not finished when the game ends stays unserved."""
    for piece in [p for p in g.pieces if p.fate is None]:
        piece.finish("unserved", g.t if g.over_at is None else g.over_at)
        g.count("end: unserved")
