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
from .errors import refuse
from .roster_file import read_roster

__all__ = ["NewGame", "NewTeam", "opened"]

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
    day = _day(new.date)
    fields: dict[str, Any] = {
        "seq": 1,
        "kind": GameOpened.kind,
        "format": FORMAT,
        "game": new.game or _game_id(new, day),
        "ruleset": rules.name,
        "settings": settings or None,
        "pinned": rulesets.pin(rules),
        "home": _team(new.home),
        "away": _team(new.away),
        "date": day,
        "start": new.start,
        "rink": new.rink,
        "competition": new.competition,
    }
    header = event_from_dict({name: value for name, value in fields.items() if value is not None})
    assert isinstance(header, GameOpened)
    return header, rules


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


def _game_id(new: NewGame, day: str) -> str:
    """A name for the game that nobody had to think of: ``"lan-pik-2026-11-14"``."""
    return "-".join([*(_slug(team.short or team.name) for team in (new.home, new.away)), day])


def _slug(text: str) -> str:
    return re.sub(r"\W+", "-", text.casefold()).strip("-_") or "team"


def _setting(text: str) -> tuple[str, Any]:
    """A knob and its value as they stand in the log: lengths as readings, counts as numbers."""
    name, equals, value = (part.strip() for part in text.partition("="))
    if not equals or not value:
        refuse("bad_setting", f"--setting {text!r} is no setting.", "Write knob=value, for example lengths.minor=1:30.")
    knob = KNOBS.get(name)
    if knob is not None and knob.unit == "yes or no" and value.lower() in _WORDS:
        return name, _WORDS[value.lower()]
    return name, int(value) if _NUMBER.fullmatch(value) else value
