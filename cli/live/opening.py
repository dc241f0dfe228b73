"""The opening of a game from the page: teams, rules, rosters, officials, starters. What is missing blocks nothing."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from attrs import asdict

from ... import rulesets
from ...timeline.events import Amend, Event, GameOpened, GoalieChange
from ...timeline.live import LiveGame
from ...timeline.moment import moment_at
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import event_to_dict
from ...timeline.rules import KNOBS, Ruleset, knob_value
from ...timeline.views.findings.completeness import lacking
from ..answers.check import finding_answer
from ..new_game import header_of, setting_value
from ..recording import now
from .answers import Refusal, problem_answer, problems_refusal
from .entering import trouble_refusal
from .former import former_teams, team_of
from .keys import Role
from .roster_text import read_lines

if TYPE_CHECKING:
    from .room import Room

__all__ = ["check_opening", "former_team", "open_game", "opening", "roster_of", "rules_of"]

Body = Mapping[str, Any]

USUAL: Mapping[str, str] = {
    "lengths.minor": "minor",
    "game.period_length": "period",
    "game.periods": "periods",
    "game.reading": "the board counts",
    "game.clock": "the clock",
    "overtime.length": "overtime",
    "overtime.skaters": "skaters in overtime",
    "overtime.periods": "overtime periods, 0 for no end",
}
"""What leagues set otherwise most often, and what it is called on the page."""

_FIELDS = ("home", "away", "date", "start", "rink", "competition", "game", "officials")


def opening(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """What the opening page needs: the rulesets, teams of former games, and the opening as far as there is one."""
    table = room.table
    game = table.game
    header = None if game is None else _as_form(game.header)
    known = _loadable(room)
    return {
        "opened": game is not None,
        "file": table.file_name,
        "today": date.today().isoformat(),
        "rulesets": [_choice(name, rules) for name, rules in known.items()],
        "settings": _settings(next(iter(known.values())) if game is None else game.rules),
        "former": former_teams(table.path),
        "header": header,
    }


def _loadable(room: Room) -> dict[str, Ruleset]:
    """The rulesets to choose from; one of an installed package that is spoilt keeps no other back."""
    known: dict[str, Ruleset] = {}
    for name in room.ruleset_names:
        with contextlib.suppress(ProblemsFound):
            known[name] = rulesets.load(name)
    return known


def _choice(name: str, rules: Ruleset) -> dict[str, Any]:
    """A ruleset to be chosen by `name`, which is the file's for a league's own."""
    return {"name": name, "title": rules.title, "applied": rulesets.applied_line(rules)}


def _as_form(header: GameOpened) -> dict[str, Any]:
    fields = event_to_dict(header)
    return {name: fields.get(name) for name in ("ruleset", "settings", *_FIELDS)}


def _settings(rules: Ruleset) -> list[dict[str, Any]]:
    return [
        {
            "name": name,
            "title": title,
            "value": rulesets.written(knob_value(rules, name), name),
            "values": list(KNOBS[name].values or ()),
        }
        for name, title in USUAL.items()
    ]


def rules_of(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """What would be applied: the line to confirm, and the settings that leagues change most often."""
    rules, _ = _rules(room, body)
    return {"name": rules.name, "applied": rulesets.applied_line(rules), "settings": _settings(rules)}


def _rules(room: Room, body: Body) -> tuple[Ruleset, dict[str, Any]]:
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


def roster_of(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """The players in lines that were pasted or typed, and the lines that are none."""
    text = body.get("text")
    if not isinstance(text, str):
        raise Refusal(400, "bad_request", "There is no roster.", "Paste or type one.")
    players, misread = read_lines(text)
    return {"players": players, "problems": [asdict(one) for one in misread]}


def former_team(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """A team as it stood at the end of a former game in the same folder."""
    file, name = body.get("file"), body.get("team")
    offered = [one for one in former_teams(room.table.path) if one["file"] == file and one["team"] == name]
    if not offered:
        raise Refusal(404, "not_found", "There is no such game in this folder.", "Choose one of those listed.")
    return {"team": team_of(os.path.join(os.path.dirname(room.table.path), str(file)), str(name))}


def check_opening(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """What an opening lacks and what looks wrong in it; nothing is written."""
    try:
        header, _ = _header(room, body)
        live = LiveGame([header])
        for event in _starters(body, live, ()):
            live.record(event)
    except ProblemsFound as found:
        return {"problems": [problem_answer(one) for one in found.problems], "missing": [], "warnings": []}
    except Refusal as refusal:
        if refusal.status != 422:
            raise
        return {"problems": refusal.more["problems"], "missing": [], "warnings": []}
    found_wrong = [finding_answer(one) for one in live.game.findings if one.severity != "note"]
    return {
        "problems": [],
        "missing": lacking(live.game),
        "warnings": found_wrong,
        "applied": rulesets.applied_line(live.rules),
    }


def open_game(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """Open the game; in one that is open already write what differs.

    Raises:
        Refusal: the file is in trouble; nothing was written.
        ProblemsFound: something in the opening is not right; nothing was written.
    """
    table = room.table
    with table.lock:
        table.refresh()
        if table.trouble is not None:
            raise trouble_refusal(table.trouble)
        header, rules = _header(room, body)
        try:
            if table.live is None:
                _check_starters(body, header)
                table.open(header)
            elif changes := _differences(header, table.live.header, body):
                table.append([_correction(table.live, changes)])
            assert table.live is not None
            if starters := list(_starters(body, table.live, table.live.events)):
                table.append(starters)
        except ProblemsFound as found:
            raise problems_refusal(found) from None
        return {"applied": rulesets.applied_line(rules), "state": room.state(role)}


def _header(room: Room, body: Body) -> tuple[GameOpened, Ruleset]:
    """The first line that the form makes.

    Raises:
        Refusal, ProblemsFound: something in it is not right.
    """
    rules, settings = _rules(room, body)
    fields = {name: _filled(body.get(name)) for name in _FIELDS}
    for team in ("home", "away"):
        if not isinstance(fields[team], Mapping) or not fields[team].get("name"):
            message = f"The {team} team has no name."
            raise problems_refusal([Problem(code="no_name", message=message, fix="Type it.", field=f"{team}.name")])
    fields["date"] = fields["date"] or date.today().isoformat()
    return header_of(rules, settings, fields), rules


def _filled(value: Any) -> Any:
    """`value` without what was left empty, since an empty box of a form says nothing; None for nothing at all."""
    if isinstance(value, str):
        return value.strip() or None
    if isinstance(value, Mapping):
        return {name: full for name, one in value.items() if (full := _filled(one)) is not None} or None
    if isinstance(value, list):
        return [full for one in value if (full := _filled(one)) is not None]
    return value


def _starters(body: Body, live: LiveGame, events: tuple[Event, ...]) -> Iterator[GoalieChange]:
    """The starting goalkeepers, as far as they are named and not in net already."""
    goalies = body.get("goalies") or {}
    if not isinstance(goalies, Mapping):
        raise Refusal(400, "bad_request", "The goalkeepers are none.", "Reload the page.")
    last = live.game.folded.last
    clock = moment_at(live.rules, 1, 0).clock
    for team, side in (("home", last.home), ("away", last.away)):
        number = _filled(goalies.get(team))
        if isinstance(number, str) and number != side.goalie and last.now == 0:
            yield GoalieChange(seq=0, period=1, clock=clock, team=team, goalie=number, recorded_at=now())  # type: ignore[arg-type]


def _check_starters(body: Body, header: GameOpened) -> None:
    """Find what is wrong with the starters before the first line is written."""
    live = LiveGame([header])
    for event in _starters(body, live, ()):
        live.record(event)


def _differences(header: GameOpened, counts: GameOpened, body: Body) -> dict[str, Any]:
    """What `header` has otherwise than the first line as it `counts`, of what the form has."""
    new, old = event_to_dict(header), event_to_dict(counts)
    named = [name for name in ("ruleset", "settings", *_FIELDS) if name in body and name != "game"]
    return {name: new.get(name) for name in named if new.get(name) != old.get(name)}


def _correction(live: LiveGame, changes: Mapping[str, Any]) -> Amend:
    pinned = rulesets.pinned_anew(live, dict(changes))
    return Amend(seq=0, target=1, changes=pinned, reason="opening completed", recorded_at=now())
