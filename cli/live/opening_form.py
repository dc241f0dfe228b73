"""The form in which a game is opened, read: its rules, the first line that it makes, and its starters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from ... import rulesets
from ...timeline.events import GameOpened, GoalieChange
from ...timeline.live import LiveGame
from ...timeline.moment import moment_at
from ...timeline.problems import Problem
from ...timeline.record import event_to_dict
from ...timeline.rules import Ruleset
from ..new_game import header_of, setting_value
from ..recording import now
from ..words import TEAMS
from .answers import Refusal, problems_refusal

if TYPE_CHECKING:
    from .room import Room

__all__ = ["FIELDS", "Body", "differences", "header_from", "rules_from", "starters", "tried"]

Body = Mapping[str, Any]

FIELDS = ("home", "away", "date", "start", "rink", "competition", "game", "officials")
"""What the form has of the first line, besides the rules."""


def header_from(room: Room, body: Body) -> GameOpened:
    """The first line that the form makes.

    Raises:
        Refusal, ProblemsFound: something in it is not right.
    """
    rules, settings = rules_from(room, body)
    fields = {name: _filled(body.get(name)) for name in FIELDS}
    for team in TEAMS:
        if not isinstance(fields[team], Mapping) or not fields[team].get("name"):
            message = f"The {team} team has no name."
            raise problems_refusal([Problem(code="no_name", message=message, fix="Type it.", field=f"{team}.name")])
    fields["date"] = fields["date"] or date.today().isoformat()
    return header_of(rules, settings, fields)


def rules_from(room: Room, body: Body) -> tuple[Ruleset, dict[str, Any]]:
    """The rules of the form, and what it sets otherwise than the ruleset; what is as it was is no setting."""
    name, settings = body.get("ruleset"), _typed_settings(body)
    live = room.table.live
    if live is not None and name == live.header.ruleset and not rulesets.overrides(live.rules, settings):
        return live.rules, dict(live.header.settings or {})
    if not isinstance(name, str) or name not in room.ruleset_names:
        fix = f"There are: {', '.join(room.ruleset_names)}."
        raise problems_refusal([Problem(code="unknown_ruleset", message="Choose a ruleset.", fix=fix, field="ruleset")])
    base = rulesets.load(name)
    differing = {knob for knob, _, _ in rulesets.overrides(base, settings)}
    settings = {knob: value for knob, value in settings.items() if knob in differing}
    return rulesets.with_settings(base, settings), settings


def _typed_settings(body: Body) -> dict[str, Any]:
    """The settings of the form, as they stand in a log."""
    given = body.get("settings") or {}
    if not isinstance(given, Mapping):
        raise Refusal(400, "bad_request", "The settings are none.", "Reload the page.")
    return {
        knob: setting_value(knob, value.strip()) if isinstance(value, str) else value for knob, value in given.items()
    }


def _filled(value: Any) -> Any:
    """`value` without what was left empty, since an empty box of a form says nothing; None for nothing at all."""
    if isinstance(value, str):
        return value.strip() or None
    if isinstance(value, Mapping):
        return {name: full for name, one in value.items() if (full := _filled(one)) is not None} or None
    if isinstance(value, list):
        return [full for one in value if (full := _filled(one)) is not None]
    return value


def starters(body: Body, live: LiveGame) -> Iterator[GoalieChange]:
    """The starting goalkeepers, as far as they are named and not in net already."""
    goalies = body.get("goalies") or {}
    if not isinstance(goalies, Mapping):
        raise Refusal(400, "bad_request", "The goalkeepers are none.", "Reload the page.")
    last = live.game.folded.last
    clock = moment_at(live.rules, 1, 0).clock
    for team in TEAMS:
        number = _filled(goalies.get(team))
        if isinstance(number, str) and number != last.side(team).goalie and last.now == 0:
            yield GoalieChange(seq=0, period=1, clock=clock, team=team, goalie=number, recorded_at=now())


def tried(body: Body, header: GameOpened) -> LiveGame:
    """The game that the form opens, with its starters; nothing is written.

    Raises:
        Refusal, ProblemsFound: a starter is none.
    """
    live = LiveGame([header])
    for event in starters(body, live):
        live.record(event)
    return live


def differences(header: GameOpened, counts: GameOpened, body: Body) -> dict[str, Any]:
    """What `header` has otherwise than the first line as it `counts`, of what the form has."""
    new, old = event_to_dict(header), event_to_dict(counts)
    named = [name for name in ("ruleset", "settings", *FIELDS) if name in body and name != "game"]
    return {name: new.get(name) for name in named if new.get(name) != old.get(name)}
