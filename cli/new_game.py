"""The first line of a new game, from what was typed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from attrs import frozen

from .. import rulesets
from ..timeline.events import GameOpened
from ..timeline.record import FORMAT, event_from_dict
from ..timeline.rules import KNOBS, Ruleset
from .entries.head import SHORT_FORM
from .entries.words import TEAMS as SIDES
from .errors import refuse
from .roster_file import read_roster

__all__ = ["NewGame", "NewTeam", "header_of", "opened", "setting_value"]

_NUMBER = re.compile(r"[0-9]{1,6}", re.ASCII)
_WORDS: Mapping[str, bool] = {"true": True, "yes": True, "false": False, "no": False}


@frozen(kw_only=True)
class NewTeam:
    """What was typed of a team; `roster` names a CSV file."""

    name: str
    short: str | None = None
    colour: str | None = None
    roster: str | None = None


@frozen(kw_only=True)
class NewGame:
    """What was typed of a game; `settings` are ``knob=value``."""

    ruleset: str
    home: NewTeam
    away: NewTeam
    settings: Sequence[str] = ()
    game: str | None = None
    date: str | None = None
    start: str | None = None
    rink: str | None = None
    competition: str | None = None


def opened(new: NewGame) -> tuple[GameOpened, Ruleset]:
    """The first line of the log, with the whole ruleset pinned in it, and the ruleset.

    Raises:
        ProblemsFound: the ruleset, a setting, a roster or another value is not right.
    """
    settings = dict(_setting(text) for text in new.settings)
    rules = rulesets.with_settings(rulesets.load(new.ruleset), settings)
    fields = {
        "game": new.game,
        "home": _team(new.home),
        "away": _team(new.away),
        "date": _day(new.date),
        "start": new.start,
        "rink": new.rink,
        "competition": new.competition,
    }
    return header_of(rules, settings, fields), rules


def header_of(rules: Ruleset, settings: Mapping[str, Any], fields: Mapping[str, Any]) -> GameOpened:
    """The first line of a log by `rules`, in which `settings` are set; `fields` as in the log, None left out.

    Raises:
        ProblemsFound: a field is not right.
    """
    given = {name: value for name, value in fields.items() if value is not None}
    header = event_from_dict(
        {
            "seq": 1,
            "kind": GameOpened.kind,
            "format": FORMAT,
            "game": _game_id(given),
            "ruleset": rules.name,
            **({"settings": dict(settings)} if settings else {}),
            "pinned": rulesets.pin(rules),
            **given,
        }
    )
    assert isinstance(header, GameOpened)
    _check_names(header)
    return header


def _check_names(header: GameOpened) -> None:
    """Names that tell the sides apart in entries."""
    names = {"home": header.home.name.casefold().strip(), "away": header.away.name.casefold().strip()}
    if names["home"] == names["away"]:
        refuse("same_team", f"Both teams are called {header.home.name}.", "Give each a name of its own.")
    for sheet, team, other in ((header.home, "home", SIDES["away"]), (header.away, "away", SIDES["home"])):
        for name in filter(None, (sheet.name, sheet.short, sheet.colour)):
            if len(name) > SHORT_FORM and name.casefold().strip() in other:
                message = f"The {team} team is called {name}, and in entries that is the {other[0]} side."
                refuse("name_of_other_side", message, "Call the team by another name, for example its town's.")


def _day(typed: str | None) -> str:
    if typed is None:
        return date.today().isoformat()
    try:
        return date.fromisoformat(typed).isoformat()
    except ValueError:
        refuse("bad_date", f"--date {typed!r} is no date.", "Write it as 2026-01-10.")


def _team(team: NewTeam) -> dict[str, Any]:
    fields: dict[str, Any] = {"name": team.name, "short": team.short, "colour": team.colour}
    if team.roster is not None:
        fields["roster"] = read_roster(team.roster)
    return {name: value for name, value in fields.items() if value is not None}


def _game_id(fields: Mapping[str, Any]) -> str:
    """A name for the game that nobody had to think of: ``"lan-pik-2026-11-14"``."""
    teams = (fields.get("home"), fields.get("away"))
    called = [team.get("short") or team.get("name") for team in teams if isinstance(team, Mapping)]
    return "-".join([*(_slug(str(name)) for name in called), str(fields.get("date", ""))])


def _slug(text: str) -> str:
    return re.sub(r"\W+", "-", text.casefold()).strip("-_") or "team"


def _setting(text: str) -> tuple[str, Any]:
    """A knob and its value as they stand in the log: lengths as readings, counts as numbers."""
    name, equals, value = (part.strip() for part in text.partition("="))
    if not equals or not value:
        refuse("bad_setting", f"--setting {text!r} is no setting.", "Write knob=value, for example lengths.minor=1:30.")
    return name, setting_value(name, value)


def setting_value(name: str, typed: str) -> Any:
    """What was typed for the knob `name`, as it stands in the log."""
    knob = KNOBS.get(name)
    if knob is not None and knob.unit == "yes or no" and typed.lower() in _WORDS:
        return _WORDS[typed.lower()]
    return int(typed) if _NUMBER.fullmatch(typed) else typed
