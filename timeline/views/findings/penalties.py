"""Penalties as they were announced: what for, how long, and who serves them."""

from __future__ import annotations

from collections.abc import Iterator

from ...clock import BadReading, format_reading, parse_reading
from ...events import PenaltyAssessed
from ...fold.state import Chain, Side
from ...rules import Ruleset
from .checked import Checked
from .finding import Finding, Kind
from .seats import seat_of
from .step import Step

__all__ = ["CHECKS"]

NO_INFRACTION = Kind(
    "no_infraction", "note", "A penalty does not say what it was for.", "Ask the official, and write it."
)
OTHER_LENGTH = Kind(
    "other_length",
    "warning",
    "The length that the official announced is not that of the ruleset.",
    "Ask the official which is right; correct the length or the parts.",
)
NO_STAND_IN = Kind(
    "no_stand_in",
    "note",
    "A team-mate has to sit for a bench minor, a goalkeeper, or a player who is out or owes more, and nobody is named.",
    "Name the one who sits.",
)
CANNOT_SERVE = Kind(
    "cannot_serve",
    "error",
    "The one named to serve a penalty sits already, is in goal, or is himself the one who cannot serve it.",
    "Write the right number.",
)
STAFF_SERVED = Kind(
    "staff_served",
    "warning",
    "Somebody is named to serve a penalty on staff that has no bench minor; nobody serves such a penalty.",
    "Take the number out, or write the bench minor.",
)
PLAYER_AND_STAFF = Kind(
    "player_and_staff",
    "error",
    "A penalty is on a player and on somebody of the bench at once.",
    "Take one of them out.",
)
BENCH_MINOR_ON_PLAYER = Kind(
    "bench_minor_on_player",
    "warning",
    "A bench minor is written as a player's own; it is the bench's, and a team-mate serves it.",
    "Take the number out, and write who served it.",
)
PENALTY_TWICE = Kind(
    "penalty_twice",
    "note",
    "Two penalties are alike: the same player, infraction and parts at one reading.",
    "Void one of them, if it was one penalty.",
)
SHORT_MINORS = Kind(
    "short_minors",
    "note",
    "Minors are shorter than 2:00 although periods are longer than 15:00; usually only short periods go with them.",
    "Look whether the game was opened with the right ruleset.",
)

_TWO_MINUTES = 1200
_FIFTEEN_MINUTES = 9000
_NO_LENGTH_SAID = frozenset({"misconduct", "game_misconduct"})


def check_infractions(checked: Checked) -> Iterator[Finding]:
    """Check that every penalty says what it was for."""
    for step, event in checked.of(PenaltyAssessed):
        if event.infraction is None:
            message = f"The penalty on {_on(event)} does not say what it was for."
            yield NO_INFRACTION.of(step, message, f"Write it: `amend {event.seq} infraction …`.")


def _on(event: PenaltyAssessed) -> str:
    if event.player is not None:
        return f"{event.team} {event.player}"
    return f"the {event.team} bench" if event.staff is not None or "bench_minor" in event.parts else event.team


def check_lengths(checked: Checked) -> Iterator[Finding]:
    """Check that the length announced is the ruleset's."""
    for step, event in checked.of(PenaltyAssessed):
        said = _tenths(event.announced)
        right = _lengths(event, checked.rules)
        if said is None or said in right:
            continue
        expected = format_reading(right[0])
        message = f"The official announced {event.announced} for {_on(event)}; by the ruleset it is {expected}."
        remedy = f"`amend {event.seq} announced {expected}` or `amend {event.seq} parts …`"
        yield OTHER_LENGTH.of(step, message, f"Ask the official, and correct the length or the parts: {remedy}.")


def _tenths(announced: str | None) -> int | None:
    try:
        return None if announced is None else parse_reading(announced)
    except BadReading:
        return None


def _lengths(event: PenaltyAssessed, rules: Ruleset) -> tuple[int, ...]:
    """The lengths that may be announced: all parts together, or without what is only said and not timed."""
    every = sum(rules.part_length(kind) for kind in event.parts)
    timed = sum(rules.part_length(kind) for kind in event.parts if kind not in _NO_LENGTH_SAID)
    return (every, timed) if timed else (every,)


def check_stand_ins(checked: Checked) -> Iterator[Finding]:
    """Check that a stand-in is named wherever a team-mate has to sit for time on the clock."""
    told: set[int] = set()
    states = [step.after for step in checked.steps if step.after.in_play]
    last: tuple[Side, ...] = ()
    for state in (*states, checked.folded.standing):
        if last and last[0] is state.home and last[1] is state.away:
            continue
        last = (state.home, state.away)
        for side in last:
            for chain in side.slots + side.queue:
                if chain.needs_stand_in and chain.stand_in is None:
                    yield from _unnamed(checked, chain, told)


def _unnamed(checked: Checked, chain: Chain, told: set[int]) -> Iterator[Finding]:
    penalty = chain.clock[0].penalty
    step = checked.step_of.get(penalty)
    if penalty in told or step is None:
        return
    told.add(penalty)
    message = f"A team-mate has to sit for {_why(chain)}, and nobody is named."
    yield NO_STAND_IN.of(step, message, f"Name the one who sits: `amend {penalty} served_by …`.")


def _why(chain: Chain) -> str:
    if chain.is_bench_minor:
        return "the bench minor"
    who = f"number {chain.player}" if chain.player else "the player"
    if chain.keeper:
        return f"{who}, a goalkeeper"
    return f"{who}, who is out of the game" if chain.ejected else f"{who}, who has more to serve"


def check_servers(checked: Checked) -> Iterator[Finding]:
    """Check that whoever is named to serve a penalty can."""
    for step, event in checked.of(PenaltyAssessed):
        if event.served_by is None or event.staff is not None:
            continue
        reason = _hindered(step, event, event.served_by)
        if reason is not None:
            message = f"{event.team} {event.served_by} is named to serve the penalty on {_on(event)}, but {reason}."
            yield CANNOT_SERVE.of(step, message, f"Write the right number: `amend {event.seq} served_by …`.")


def _hindered(step: Step, event: PenaltyAssessed, server: str) -> str | None:
    """Why `server` cannot sit for the penalty, as the box stands at its reading."""
    side = step.after.side(event.team)
    if server == event.player:
        out = side.record(server).ejected_at is not None
        if out:
            return "is out of the game"
        if server in side.keepers:
            return "never sits, being a goalkeeper"
        return "has a misconduct to serve besides" if _has_more(event) else None
    if server == side.goalie:
        return "is in goal"
    seat = seat_of(side, server, step.after.now)
    if seat is not None and seat.left and seat.key not in (event.player, event.seq, -event.seq):
        return f"sits already, for penalty #{max(seat.penalties, default=0)}"
    return next(
        (f"sits from this stoppage on already, by event {seq}" for seq in _called_here(step, event, server)), None
    )


def _has_more(event: PenaltyAssessed) -> bool:
    """Whether there is a misconduct besides the time on the clock, so that a team-mate sits for that."""
    return "misconduct" in event.parts and not {"minor", "major"}.isdisjoint(event.parts)


def _called_here(step: Step, event: PenaltyAssessed, server: str) -> Iterator[int]:
    """The penalties at this stoppage, before this one, for which `server` sits already."""
    for call in step.before.ice.calls if step.before.now == step.after.now else ():
        for_another = call.part.server == server and (call.player is None or call.player != event.player)
        if call.team == event.team and (call.player == server or for_another):
            yield call.part.penalty


def check_staff_served(checked: Checked) -> Iterator[Finding]:
    """Check that nobody serves a penalty on staff that is no bench minor."""
    for step, event in checked.of(PenaltyAssessed):
        if event.staff is None:
            continue
        if event.served_by is not None and "bench_minor" not in event.parts:
            message = f"{event.team} {event.served_by} is named to serve a penalty on staff, which nobody serves."
            yield STAFF_SERVED.of(step, message, f"Take the number out: `amend {event.seq} served_by ?`.")
        if event.player is not None:
            message = f"The penalty is on {event.team} {event.player} and on somebody of the bench at once."
            remedy = f"`amend {event.seq} staff ?` or `amend {event.seq} player ?`"
            yield PLAYER_AND_STAFF.of(step, message, f"Take one of them out: {remedy}.")


def check_bench_minors(checked: Checked) -> Iterator[Finding]:
    """Check that a bench minor is nobody's own."""
    for step, event in checked.of(PenaltyAssessed):
        if event.player is not None and event.staff is None and "bench_minor" in event.parts:
            message = f"The bench minor is written as {event.team} {event.player}'s own; it is the bench's."
            remedy = f"Take the number out: `amend {event.seq} player ?`; whoever sits is to be named as serving."
            yield BENCH_MINOR_ON_PLAYER.of(step, message, remedy)


def check_penalties_once(checked: Checked) -> Iterator[Finding]:
    """Check whether a penalty is written twice."""
    seen: dict[object, int] = {}
    for step, event in checked.of(PenaltyAssessed):
        key = (event.team, event.player, event.staff, event.parts, event.infraction, step.period, step.played)
        if key in seen and (event.player is not None or event.staff is not None):
            message = f"The penalties on {_on(event)} in events {seen[key]} and {event.seq} are alike."
            yield PENALTY_TWICE.of(step, message, f"If it was one: `void {event.seq} written twice`.")
        seen[key] = event.seq


def check_minors(checked: Checked) -> Iterator[Finding]:
    """Check that minors of less than 2:00 do not go with periods of more than 15:00."""
    minor, period = checked.rules.lengths.minor, checked.rules.game.period_length
    if minor < _TWO_MINUTES and period > _FIFTEEN_MINUTES:
        message = (
            f"Minors are {format_reading(minor)} and periods {format_reading(period)}; usually 2:00 goes with that."
        )
        yield SHORT_MINORS.about(message, "Look whether the game was opened with the right ruleset.", seq=1)


CHECKS = (
    check_infractions,
    check_lengths,
    check_stand_ins,
    check_servers,
    check_staff_served,
    check_bench_minors,
    check_penalties_once,
    check_minors,
)
