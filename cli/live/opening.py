"""The opening of a game from the page: teams, rules, rosters, officials, starters. What is missing blocks nothing."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from attrs import asdict

from ... import rulesets
from ...timeline.events import Amend, Event, GameOpened
from ...timeline.live import LiveGame
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import event_to_dict
from ...timeline.rules import KNOBS, Ruleset, knob_value
from ...timeline.views.findings.completeness import lacking
from ..answers.check import finding_answer
from ..recording import now
from .answers import Refusal, problem_answer
from .entering import trouble_refusal
from .former import former_teams, team_of
from .keys import Role
from .opening_form import FIELDS, Body, differences, header_from, rules_from, starters, tried
from .roster_text import read_lines
from .table import Table

if TYPE_CHECKING:
    from .room import Room

__all__ = ["check_opening", "former_team", "open_game", "opening", "roster_of", "rules_of"]

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
    return {name: fields.get(name) for name in ("ruleset", "settings", *FIELDS)}


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
    rules, _ = rules_from(room, body)
    return {"name": rules.name, "applied": rulesets.applied_line(rules), "settings": _settings(rules)}


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
        live = tried(body, header_from(room, body))
    except ProblemsFound as found:
        return {"problems": [problem_answer(one) for one in found.problems], "missing": [], "warnings": []}
    except Refusal as refusal:
        if refusal.status != 422:
            raise
        return {"problems": refusal.more["problems"], "missing": [], "warnings": []}
    return {
        "problems": [],
        "missing": lacking(live.game),
        "warnings": [finding_answer(one) for one in live.game.findings if one.severity != "note"],
        "applied": rulesets.applied_line(live.rules),
    }


def open_game(room: Room, role: Role, body: Body) -> dict[str, Any]:
    """Open the game; in one that is open already write what differs.

    Raises:
        Refusal: something in the opening is not right, or the file is in trouble. Nothing was written, except where it
            says that the game is open.
        ProblemsFound: something in the opening is not right; nothing was written.
    """
    table = room.table
    table.refresh()
    if table.trouble is not None:
        raise trouble_refusal(table.trouble, role)
    header = header_from(room, body)
    live = tried(body, header)
    new = table.live is None
    if new:
        _open(table, header, role)
    _complete(table, header, body, role, new=new)
    return {"applied": rulesets.applied_line(live.rules), "state": room.state(role)}


def _open(table: Table, header: GameOpened, role: Role) -> None:
    """Write the first line."""
    try:
        table.open(header)
    except ProblemsFound as found:
        raise trouble_refusal(found.problems[0], role) from None
    if table.trouble is not None:
        raise trouble_refusal(table.trouble, role)


def _complete(table: Table, header: GameOpened, body: Body, role: Role, *, new: bool) -> None:
    """Write what differs from the first line, and the starters: all of it or nothing."""
    if not (missing := list(_missing(table, header, body))):
        return
    try:
        table.append(missing)
    except ProblemsFound as found:
        raise _half_opened(found.problems[0]) if new else trouble_refusal(found.problems[0], role) from None


def _missing(table: Table, header: GameOpened, body: Body) -> Iterator[Event]:
    assert table.live is not None
    live = LiveGame(table.live.events, table.live.rules)
    if changes := differences(header, live.header, body):
        correction = _correction(live, changes)
        live.record(correction)
        yield correction
    yield from starters(body, live)


def _half_opened(problem: Problem) -> Refusal:
    """The first line is a file of its own, which is not taken away again; what belongs behind it is not there."""
    message = f"The game is open, but the starting goalkeepers could not be written. {problem.message}"
    fix = f"{problem.fix} Then open it again: what is there is not written twice."
    return Refusal(503, "log_trouble", message, fix.strip(), code=problem.code, opened=True)


def _correction(live: LiveGame, changes: Mapping[str, Any]) -> Amend:
    pinned = rulesets.pinned_anew(live, dict(changes))
    return Amend(seq=live.next_seq, target=1, changes=pinned, reason="opening completed", recorded_at=now())
