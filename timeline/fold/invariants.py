"""What no state of a game can look like, whatever was recorded: called by tests after every step of the fold.

Section 10 of the penalty model, as far as one state alone can show it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ..rules import Ruleset
from .draft import TEAMS
from .state import NEVER, Chain, GameState, Part, Side, Sitter

__all__ = ["check_state"]

SLOTS = 2
"""Section 4 of the penalty model; not the fold's own constant, nor below its own formula, which are checked here."""


def check_state(state: GameState, rules: Ruleset) -> None:
    """Raise an AssertionError with a sentence where `state` is impossible under `rules`."""
    for team in TEAMS:
        side = state.side(team)
        _check_skaters(team, side, rules)
        _check_places(team, side)
        for chain in side.chains():
            _check_chain(team, side, chain, state.now)
        _check_people(team, side, state.in_play)
    _check_parts(state)
    _check_clocks(state)
    _check_play(state, rules)


def _check_skaters(team: str, side: Side, rules: Ruleset) -> None:
    fewest, most = min(rules.ice.min_skaters, rules.ice.skaters), rules.ice.skaters
    assert fewest <= side.on_ice <= most, f"{team} has {side.on_ice} skaters on the ice, not {fewest} to {most}"
    assert side.skaters <= most or side.goalie is None, f"{team} has an extra attacker and a goalkeeper in net"
    assert side.score >= 0, f"{team} has scored {side.score} goals"


def _check_places(team: str, side: Side) -> None:
    """Two slots, a queue behind them only if both are taken, nothing on the clock elsewhere."""
    assert len(side.slots) <= SLOTS, f"{team} has {len(side.slots)} chains on the clock at once"
    assert not side.queue or len(side.slots) == SLOTS, f"{team} has a chain waiting while a slot is free"
    for chain in side.slots + side.queue:
        assert chain.clock, f"{team} has the chain {chain.key!r} in a slot or waiting with no time on the clock"
    for chain in side.off:
        assert not chain.clock, f"{team} has the chain {chain.key!r} off the clock with time on the clock"
        assert chain.off_the_clock, f"{team} has the chain {chain.key!r} with nothing left to serve"
    for chain in side.slots + side.off:
        assert chain.running is not None, f"nothing runs in the chain {chain.key!r} of {team}"
    keys = Counter(chain.key for chain in side.chains())
    assert all(count == 1 for count in keys.values()), f"{team} has two chains under one key: {keys}"


def _check_chain(team: str, side: Side, chain: Chain, now: int) -> None:
    """One part runs, the first, unless the chain waits; the people who sit sat for the parts there are."""
    parts = chain.clock + chain.off_the_clock
    running = [part for part in parts if part.ends_at is not None]
    expected = [] if chain in side.queue else [parts[0]]
    assert running == expected, f"in the chain {chain.key!r} of {team} {running} run, not {expected}"
    for part in parts:
        _check_part(team, part, now)
    for kind in ("misconduct", "game_misconduct"):
        on = [part for part in chain.clock + chain.offset if part.kind == kind]
        assert not on, f"a {kind} of {team} is on the clock or offset"
    assert all(part.kind == "misconduct" for part in chain.misconduct), f"{chain.misconduct} are not misconducts"
    assert not any(part.lone for part in chain.off_the_clock), f"half of a lone pair of {team} is off the clock"
    if chain.ejected:
        assert not chain.off_the_clock, f"{team} {chain.player} is out of the game and owes {chain.off_the_clock}"
    _check_sat_for(team, chain)


def _check_sat_for(team: str, chain: Chain) -> None:
    off_sitter = chain.off_sitter()
    sits = ((chain.clock_sitter(), chain.clock), (off_sitter, chain.off_the_clock))
    for sitter, parts in sits:
        missing = {part.penalty for part in parts} - set(sitter.penalties if sitter else ())
        assert not missing, f"who sits for the chain {chain.key!r} of {team} is not said to sit for {missing}"
        penalties = sitter.penalties if sitter else ()
        assert penalties == tuple(sorted(set(penalties))), f"{penalties} of {team} are not in order of assessment"


def _check_part(team: str, part: Part, now: int) -> None:
    """Something of it is left, and never more than all of it; what runs, runs out later than now."""
    assert 0 < part.left <= part.length, f"{team} {part}: left is not between 0 and the length"
    assert not part.lone or part.is_minor, f"{team} {part}: half of a lone pair and no minor"
    if part.ends_at is not None:
        assert part.ends_at > now, f"{team} {part} should have run out before {now}"
        assert part.ends_at - part.left <= now, f"{team} {part} starts later than {now}"
        assert 0 <= part.served_at(now) <= part.length, f"{team} {part}: served more than there is"


def _check_people(team: str, side: Side, in_play: bool) -> None:
    """Nobody waits for a whistle that has been; nobody who is out of the game sits, nobody sits in two places."""
    waiting = side.held + side.finished
    assert in_play or not waiting, f"{team} {waiting} sit in a stoppage although their time is up"
    assert all(sitter.penalties for sitter in waiting), f"somebody of {team} sits for no penalty: {waiting}"
    out = {number for number, record in side.records.items() if record.ejected_at is not None}
    for chain in side.chains():
        assert (chain.player in out) <= chain.ejected, f"{team} {chain.player} is out, his chain does not know it"
    people = list(_people(side))
    for sitter in people:
        if sitter.role == "player" or in_play:  # a stand-in given a penalty now is replaced when play resumes
            assert sitter.who is None or sitter.who not in out, f"{team} {sitter.who} is out of the game and sits"
    if in_play:
        _check_one_seat_each(team, side, people)


def _check_one_seat_each(team: str, side: Side, people: list[Sitter]) -> None:
    """Whoever owes time himself sits for nobody else, and nobody sits in two places for himself."""
    own = Counter(sitter.who for sitter in people if sitter.role == "player" and sitter.who is not None)
    assert all(count == 1 for count in own.values()), f"a player of {team} sits in two places: {own}"
    for sitter in people:
        elsewhere = sitter.role != "player" and sitter.who is not None and sitter.who in own
        assert not elsewhere, f"{team} {sitter.who} sits for himself and as a stand-in"


def _people(side: Side) -> Iterator[Sitter]:
    """Everybody who sits, the same person in one chain once."""
    yield from side.held
    yield from side.finished
    for chain in side.chains():
        on = chain.clock_sitter() if chain.clock else None
        off = chain.off_sitter() if chain.off_the_clock else None
        if on is not None:
            yield on
        if off is not None and (on is None or on.role != "player"):
            yield off


def _check_parts(state: GameState) -> None:
    """Each part is in one place, or in two shares: one on the clock and one offset, as late netting splits it."""
    clock = Counter(part.order for team in TEAMS for chain in state.side(team).chains() for part in chain.clock)
    offset = Counter(part.order for team in TEAMS for chain in state.side(team).chains() for part in chain.offset)
    rest = Counter(part.order for team in TEAMS for chain in state.side(team).chains() for part in chain.misconduct)
    rest += Counter(call.part.order for call in state.ice.calls)
    for found in (clock, offset, rest):
        assert all(count == 1 for count in found.values()), f"a part is in two places: {found}"
    assert not rest.keys() & (clock.keys() | offset.keys()), "a part is among the chains and among the calls"
    for call in state.ice.calls:
        part = call.part
        assert part.ends_at is None, f"{part} of {call.team} runs before play has resumed"
        assert part.left == part.length, f"{part} of {call.team} was served before play has resumed"
        assert not part.begun, f"{part} of {call.team} has begun before play has resumed"
        assert part.kind != "game_misconduct", f"{part} of {call.team}: a game misconduct is not served"


def _check_clocks(state: GameState) -> None:
    """`due` is the next tenth at which something runs out; the period has begun and the last whistle has been."""
    for team in TEAMS:
        side = state.side(team)
        ends = [part.ends_at for chain in side.chains() if (part := chain.running) and part.ends_at is not None]
        assert side.due == min(ends, default=NEVER), f"{team}: due is {side.due}, but time runs out at {ends}"
    due = min(state.home.due, state.away.due)
    assert state.ice.due == due, f"due is {state.ice.due}, for the sides {due}"
    assert state.ice.period_start <= state.now, f"the period starts at {state.ice.period_start}, after {state.now}"
    assert 0 <= state.whistle <= state.now, f"the last whistle was at {state.whistle}, after {state.now}"


def _check_play(state: GameState, rules: Ruleset) -> None:
    """In play nothing is unsettled, and as many skate as the formula says; a returning player may be added to it."""
    ice = state.ice
    assert not ice.closed or ice.over or state.in_play, "the record is closed and the game goes on"
    assert ice.quiet in (0, ice.due), f"quiet until {ice.quiet}, and due is {ice.due}"
    assert not ice.quiet or (ice.settled and ice.opened), "a whistle changes nothing, but something is not settled"
    if not state.in_play:
        assert ice.running or state.whistle == state.now, f"the clock went on from {state.whistle} to {state.now}"
        return
    assert ice.closed or not ice.over, "the game is decided and play is on"
    assert not ice.calls, f"play is on and {ice.calls} are not settled"
    assert not ice.goals, "play is on and the goals of the last stoppage are remembered"
    home, away = ice.home, ice.away
    assert ice.strength == (home.on_ice, away.on_ice, home.goalie, away.goalie), f"{ice.strength} was told last"
    formula = _formula(rules, ice.period, len(home.slots), len(away.slots))
    added = (home.on_ice - formula[0], away.on_ice - formula[1])
    assert min(added) >= 0, f"{home.on_ice} on {away.on_ice} skate, fewer than {formula} by the penalties"
    if rules.base_skaters(ice.period) - SLOTS >= rules.ice.min_skaters:
        assert added == (0, 0), f"{home.on_ice} on {away.on_ice} skate, not {formula} by the penalties"


def _formula(rules: Ruleset, period: int, home_slots: int, away_slots: int) -> tuple[int, int]:
    """The skaters by the slots in use, as section 4 puts it."""
    home, away = (rules.base_skaters(period) - slots for slots in (home_slots, away_slots))
    while min(home, away) < rules.ice.min_skaters:
        home, away = home + 1, away + 1
    return min(home, rules.ice.skaters), min(away, rules.ice.skaters)
