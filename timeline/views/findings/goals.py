"""Goals and shots: who can have scored, and into which net."""

from __future__ import annotations

from collections.abc import Iterator

from ...clock import format_reading
from ...events import Goal, PenaltyShot, Shot, Team
from ...fold.draft import TEAMS, other
from ...fold.state import Side
from .appearances import PENALIZED, SEEN_IN_THE_BOX, Appearance
from .checked import Checked, length_words
from .finding import Finding, Kind
from .seats import seat_of
from .step import Step

__all__ = ["CHECKS"]

IN_THE_BOX = Kind(
    "in_the_box",
    "error",
    "Somebody who sits in the penalty box scores, assists, shoots or goes in goal.",
    "Write the right number, or the right reading of the goal or of the penalty.",
)
EJECTED_PLAYS = Kind(
    "ejected_plays",
    "error",
    "A player whose game is over scores, assists, shoots, serves, goes in goal, is seen or is penalized again.",
    "Write the right number; if it is right, tell the officials at once.",
)
TOO_MANY_ASSISTS = Kind(
    "too_many_assists",
    "error",
    "A goal has more assists than the ruleset allows.",
    "Take out those that do not count.",
)
ASSISTS_HIMSELF = Kind(
    "assists_himself", "error", "The scorer of a goal has an assist on it.", "Write the right number."
)
SAME_ASSIST = Kind("same_assist", "error", "A player has two assists on one goal.", "Write the right number.")
GOAL_TWICE = Kind(
    "goal_twice",
    "warning",
    "A goal is written twice: the same side, scorer and reading.",
    "Void one of them.",
)
NO_GOALIE_NAMED = Kind(
    "no_goalie_named",
    "note",
    "Goals or shots are against a side for which nobody was named in net.",
    "Name the goalkeeper, from the opening reading on.",
)
OTHER_NET = Kind(
    "other_net",
    "warning",
    "A goal was seen going into an empty net, or not into one, and the goalkeepers' record says otherwise.",
    "Put the goalkeepers' record right, or the mark on the goal.",
)
SAVED_IN_EMPTY_NET = Kind(
    "saved_in_empty_net",
    "warning",
    "A shot on goal was saved while nobody was in net.",
    "Put the goalkeepers' record right; a shot that a skater stops is no shot on goal.",
)
GOAL_AT_EXPIRY = Kind(
    "goal_at_expiry",
    "note",
    "A goal was scored within one second of the end of a penalty, and the readings are in whole seconds.",
    "Nothing, if the reading is right: time that runs out comes first.",
)

NEAR = 10
"""Tenths within which readings in whole seconds settle nothing."""


def check_box(checked: Checked) -> Iterator[Finding]:
    """Check that nobody scores, assists, shoots or goes in goal from the box."""
    for step, one in checked.named:
        if one.doing.on_ice and step.event.clock is not None and _may_sit(step, one.team, one.number):
            yield from _sits(checked, step, one)


def _may_sit(step: Step, team: Team, number: str) -> bool:
    """Whether the game before the event has anything for `number` to sit for; time that passes adds nothing."""
    side = step.before.side(team)
    return (
        any(number == chain.player or number in chain.named_stand_ins() for chain in side.chains())
        or any(number == sitter.who for sitter in side.held + side.finished)
        or any(number in (call.player, call.part.server) for call in step.before.ice.calls)
    )


def _sits(checked: Checked, step: Step, one: Appearance) -> Iterator[Finding]:
    side = step.arrived.side(one.team)
    seat = seat_of(side, one.number, step.arrived.now)
    if seat is None or _is_out(side, one.number):
        return
    if 0 < seat.left < NEAR or (not seat.left and not checked.whistles.kept):
        return
    left = f"with {format_reading(seat.left)} to serve" if seat.left else "until a whistle"
    message = f"{one.says} while sitting in the box {left} (penalty #{max(seat.penalties, default=0)})."
    yield IN_THE_BOX.of(
        step, message, f"Write the right number: {one.corrected(step.event.seq)}; or the right reading."
    )


def _is_out(side: Side, number: str) -> bool:
    return side.record(number).ejected_at is not None


def check_ejected(checked: Checked) -> Iterator[Finding]:
    """Check that a player whose game is over takes no part in it any more."""
    for step, one in checked.named:
        if _is_out(step.before.side(one.team), one.number) and (one.doing.plays or _is_back(step, one)):
            message = f"{one.says}, but the player's game was over."
            remedy = f"{one.corrected(step.event.seq)}. If it is right, tell the officials at once"
            yield EJECTED_PLAYS.of(step, message, f"Write the right number: {remedy}.")


def _is_back(step: Step, one: Appearance) -> bool:
    """Whether somebody is penalized or seen in the box although play has gone on since his game was over."""
    ejected_at = step.before.side(one.team).record(one.number).ejected_at
    if ejected_at is None or one.doing not in (PENALIZED, SEEN_IN_THE_BOX):
        return False
    before = step.before
    resumed = before.in_play or before.whistle > ejected_at or not before.ice.running
    return resumed and step.arrived.now > ejected_at


def check_assists(checked: Checked) -> Iterator[Finding]:
    """Check that a goal has no more assists than allowed, none by the scorer, and none twice."""
    most = checked.rules.game.max_assists
    for step, goal in checked.of(Goal):
        assists = goal.assists or ()
        if len(assists) > most:
            kept = " ".join(assists[:most]) or "unassisted"
            message = f"The goal has {len(assists)} assists; at most {most} can be given."
            yield TOO_MANY_ASSISTS.of(step, message, f"Keep those that count: `amend {goal.seq} assists {kept}`.")
        if goal.scorer is not None and goal.scorer in assists:
            rest = " ".join(number for number in assists if number != goal.scorer) or "unassisted"
            message = f"{goal.team} {goal.scorer} scored the goal and assists on it."
            yield ASSISTS_HIMSELF.of(step, message, f"Write the right numbers: `amend {goal.seq} assists {rest}`.")
        if len(set(assists)) < len(assists):
            once = " ".join(dict.fromkeys(assists))
            message = f"One player has two assists on the goal: {', '.join(assists)}."
            yield SAME_ASSIST.of(step, message, f"Write the right numbers: `amend {goal.seq} assists {once}`.")


def check_goals_once(checked: Checked) -> Iterator[Finding]:
    """Check that no goal is written twice."""
    seen: dict[object, int] = {}
    for step, goal in checked.of(Goal):
        key = (goal.team, goal.scorer, step.period, step.played)
        if goal.scorer is not None and key in seen:
            message = f"The goal of {goal.team} {goal.scorer} is written twice, in events {seen[key]} and {goal.seq}."
            yield GOAL_TWICE.of(step, message, f"Void one of them: `void {goal.seq} written twice`.")
        seen[key] = goal.seq


def check_goalies_named(checked: Checked) -> Iterator[Finding]:
    """Check that somebody, or an empty net, is recorded wherever a goal or shot goes."""
    for team in TEAMS:
        against = [
            step
            for step, event in checked.attempts
            if event.team == other(team) and step.before.side(team).goalie == ""
        ]
        if against:
            message = f"Nobody is named in the {team} net for {len(against)} goals and shots, the first in event "
            remedy = checked.adding(f"{team} goalie …", checked.folded.moment(1, 0))
            yield NO_GOALIE_NAMED.about(f"{message}{against[0].event.seq}.", f"Name the goalkeeper: {remedy}.")


def check_empty_nets(checked: Checked) -> Iterator[Finding]:
    """Check that the net was empty where a goal says so, and only there."""
    for step, goal in checked.of(Goal):
        goalie = step.before.side(other(goal.team)).goalie
        if goal.empty_net is None or goalie == "" or goal.empty_net == (goalie is None):
            continue
        side = other(goal.team)
        if goal.empty_net:
            message = f"The goal was seen going into an empty net, but {side} {goalie} is recorded in net."
            remedy, mark = checked.adding(f"late {step.period} … {side} goalie out"), "no"
        else:
            message = f"The goal was seen not going into an empty net, but the {side} net is recorded as empty."
            remedy, mark = checked.adding(f"late {step.period} … {side} goalie …"), "yes"
        remedy = f"{remedy} with the reading of the change, or `amend {goal.seq} empty_net {mark}`"
        yield OTHER_NET.of(step, message, f"Put one of them right: {remedy}.")


def check_saves(checked: Checked) -> Iterator[Finding]:
    """Check that somebody was in net for every shot that was saved."""
    for step, event in checked.attempts:
        saved = isinstance(event, Shot) or (isinstance(event, PenaltyShot) and event.result == "saved")
        side = other(event.team)
        if saved and event.clock is not None and step.before.side(side).goalie is None:
            message = f"A shot of {event.team} was saved, but the {side} net was empty."
            entry = checked.adding(f"late {step.period} … {side} goalie …")
            remedy = f"`void {event.seq} no shot on goal`, or {entry} with the reading of the change"
            yield SAVED_IN_EMPTY_NET.of(step, message, f"Put one of them right: {remedy}.")


def check_goals_at_expiry(checked: Checked) -> Iterator[Finding]:
    """Check whether a goal was scored within a second of the end of a penalty, which whole seconds cannot settle."""
    for step, goal in checked.of(Goal):
        if goal.clock is None or "." in goal.clock or goal.awarded or step.played is None:
            continue
        tenth = step.arrived.now
        state = checked.folded.state_at(step.period, max(step.played - NEAR - 1, 0))
        for side in (state.home, state.away):
            for chain in side.slots:
                ends_at = chain.clock[0].ends_at
                if ends_at is not None and abs(ends_at - tenth) <= NEAR:
                    yield _near(step, chain.clock[0].penalty, ends_at - tenth)


def _near(step: Step, penalty: int, left: int) -> Finding:
    if left > 0:
        how = f"{length_words(left)} before penalty #{penalty} ran out, so it was still on the clock"
    elif left == 0:
        how = f"at the reading at which penalty #{penalty} ran out; time that runs out comes first, so it had ended"
    else:
        how = f"{length_words(-left)} after penalty #{penalty} ran out, so it had ended"
    message = f"The goal was scored {how}. Readings in whole seconds cannot settle it."
    return GOAL_AT_EXPIRY.of(step, message, f"If the officials saw it otherwise: `amend {step.event.seq} clock …`.")


CHECKS = (
    check_box,
    check_ejected,
    check_assists,
    check_goals_once,
    check_goalies_named,
    check_empty_nets,
    check_saves,
    check_goals_at_expiry,
)
