"""What ends a player's game, and whether the record says so."""

from __future__ import annotations

from collections.abc import Iterator

from ...events import TEAMS, PartKind, PenaltyAssessed, Remark, Team
from ...fold.changes import Ejected
from ...fold.state import PlayerRecord
from ...rules import Ruleset
from .appearances import WENT_IN_GOAL, Appearance
from .checked import Checked
from .finding import Finding, Kind
from .step import Step

__all__ = ["CHECKS"]

NO_GAME_MISCONDUCT = Kind(
    "no_game_misconduct",
    "warning",
    "A player's game is over by the number of majors, misconducts or penalties, and no game misconduct is recorded.",
    "Tell the officials; record the game misconduct that they assess.",
)
EJECTED_IN_GOAL = Kind(
    "ejected_in_goal",
    "error",
    "Play goes on with a goalkeeper recorded in net whose game is over.",
    "Write who went in goal.",
)
NO_REMARK = Kind(
    "no_remark",
    "note",
    "A misconduct, a match or a game misconduct has no rule or no remark; most leagues want a report.",
    "Write the rule that the official names, and what happened.",
)

_REPORTED: frozenset[PartKind] = frozenset({"misconduct", "match", "game_misconduct"})
_ORDINALS = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth"}
_SAID = {"rule": "rule", "note": "remark"}


def check_game_misconducts(checked: Checked) -> Iterator[Finding]:
    """Check that a game misconduct is recorded for whoever the ruleset puts out of the game."""
    if not checked.folded.changes_of(Ejected):
        return
    for step in checked.steps:
        for change in step.changes:
            if isinstance(change, Ejected) and not _recorded(checked, step, change):
                why = _why(step.after.side(change.team).record(change.player), checked.rules)
                who = f"{change.team} {change.player}"
                message = f"The ruleset puts {who} out of the game ({why}), and no game misconduct is recorded."
                entry = checked.adding(f"{change.team} penalty {change.player} game misconduct", step.at)
                yield NO_GAME_MISCONDUCT.of(step, message, f"Tell the officials; if they assess it: {entry}.")


def _recorded(checked: Checked, step: Step, change: Ejected) -> bool:
    """Whether the penalty itself, or one written behind it, is a match or a game misconduct."""
    return any(
        later.index >= step.index
        and event.team == change.team
        and event.player == change.player
        and ("match" in event.parts or "game_misconduct" in event.parts)
        for later, event in checked.of(PenaltyAssessed)
    )


def _why(record: PlayerRecord, rules: Ruleset) -> str:
    majors = rules.ejection.ending_major
    counts = {
        "major": (record.majors, majors),
        "misconduct": (record.misconducts, rules.ejection.misconducts),
        "penalty": (record.penalties, rules.ejection.player_penalties),
    }
    return " and ".join(f"the {_ordinal(had)} {name}" for name, (had, most) in counts.items() if 0 < most <= had)


def _ordinal(number: int) -> str:
    return _ORDINALS.get(number, f"{number}th")


def check_ejected_goalkeepers(checked: Checked) -> Iterator[Finding]:
    """Check that nobody whose game is over stays in net when play goes on."""
    if not checked.folded.changes_of(Ejected):
        return
    told = {(one.team, one.number) for step, one in checked.named if _went_in(step, one)}
    for step, _ in checked.resumptions:
        for team in TEAMS:
            goalie = step.before.side(team).goalie
            if goalie and (team, goalie) not in told and _out(step, team, goalie):
                told.add((team, goalie))
                message = f"Play goes on with {team} {goalie} in net, but that player's game is over."
                entry = checked.adding(f"{team} goalie …", step.at)
                yield EJECTED_IN_GOAL.of(step, message, f"Write who went in goal: {entry}.")


def _went_in(step: Step, one: Appearance) -> bool:
    """Whether a player went in goal when his game was over already, which is told as such."""
    return one.doing is WENT_IN_GOAL and _out(step, one.team, one.number)


def _out(step: Step, team: Team, player: str) -> bool:
    return step.before.side(team).record(player).ejected_at is not None


def check_remarks(checked: Checked) -> Iterator[Finding]:
    """Check that a misconduct, a match and a game misconduct have their rule and a remark."""
    remarks = {(step.period, step.played) for step, _ in checked.of(Remark)}
    for step, event in checked.of(PenaltyAssessed):
        if _REPORTED.isdisjoint(event.parts):
            continue
        missing = [] if event.rule else ["rule"]
        if not event.note and (step.period, step.played) not in remarks:
            missing.append("note")
        if missing:
            words = " and ".join(f"no {_SAID[field]}" for field in missing)
            entries = " and ".join(f"`amend {event.seq} {field} …`" for field in missing)
            yield NO_REMARK.of(step, f"The penalty on {_on(event)} has {words}.", f"Write it: {entries}.")


def _on(event: PenaltyAssessed) -> str:
    if event.staff is not None:
        return f"somebody of the {event.team} bench"
    return f"{event.team} {event.player}" if event.player else f"a player of {event.team}"


CHECKS = (check_game_misconducts, check_ejected_goalkeepers, check_remarks)
