"""Games with one fault, written as short entries (`planted/*.toml`), and how they are read."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from attrs import evolve, frozen

from rinkfold import rulesets
from rinkfold.cli.entries import Entry, parse_entry
from rinkfold.cli.standing import context_of
from rinkfold.timeline import Event, Game, GameOpened, Log, event_from_dict, replay
from rinkfold.timeline.record import check_events

__all__ = ["Fault", "completed", "faults", "game_of", "quoted"]

SKATERS = {"home": range(2, 21), "away": range(4, 30)}
GOALKEEPERS = {"home": ("1", "31"), "away": ("30", "35")}
STARTERS = ("1 15:00 home goalie 31", "1 15:00 away goalie 30")
WHISTLES = tuple(
    entry for second in range(55, -1, -5) for entry in (f"14:{second:02} stop icing", f"14:{second:02} go")
)
"""What a table that keeps whistles has written after the opening faceoff."""


@frozen
class Fault:
    """One fault.

    Attributes:
        id: the code, and what tells it from others of that code.
        entries: the game with the fault; a line in braces is an event as JSON, which no entry would write.
        seq, message, fix: what has to be found. `seq` counts from the opening, which is 1.
        right: a game like it without the fault.
        also: codes of other errors and warnings that come with it.
    """

    id: str
    code: str
    entries: tuple[str, ...]
    seq: int | None
    message: str
    fix: str
    right: tuple[str, ...] | None
    also: frozenset[str]
    opening: dict[str, Any]


def faults() -> list[Fault]:
    """Every planted fault."""
    found = []
    for path in sorted(Path(__file__).with_name("planted").glob("*.toml")):
        for raw in tomllib.loads(path.read_text(encoding="utf-8"))["fault"]:
            found.append(_fault(raw))
    return found


def _fault(raw: dict[str, Any]) -> Fault:
    opening: dict[str, Any] = {name: raw.pop(name) for name in ("ruleset", "settings", "header") if name in raw}
    start = () if raw.pop("bare", False) else STARTERS
    if raw.pop("whistles", False):
        start = (*start, "1 15:00 go", *WHISTLES)
    right = raw.pop("right", None)
    name = f"{raw['code']} {raw.pop('case', '')}".strip()
    return Fault(
        id=name,
        code=raw.pop("code"),
        entries=(*start, *raw.pop("entries")),
        seq=raw.pop("seq", None),
        message=raw.pop("message"),
        fix=raw.pop("fix"),
        right=None if right is None else (*start, *right),
        also=frozenset(raw.pop("also", ())),
        opening={**opening, **({"unknown": raw} if raw else {})},
    )


def _opened(opening: dict[str, Any]) -> GameOpened:
    assert "unknown" not in opening, opening
    header = {
        "seq": 1,
        "kind": "game_opened",
        "format": 1,
        "game": "planted",
        "ruleset": opening.get("ruleset", "youth-14u"),
        "settings": opening.get("settings", {}),
        "home": _sheet("home"),
        "away": _sheet("away"),
        "officials": {"referees": ["Ada Birk"]},
        **opening.get("header", {}),
    }
    event = event_from_dict({name: value for name, value in header.items() if value != "none"})
    assert isinstance(event, GameOpened)
    return event


def _sheet(team: str) -> dict[str, Any]:
    keepers = [{"number": number, "position": "goalkeeper"} for number in GOALKEEPERS[team]]
    skaters = [{"number": str(number)} for number in SKATERS[team]]
    return {"name": team, "roster": keepers + skaters, "staff": [{"name": "Bo Lind", "role": "head coach"}]}


def game_of(opening: dict[str, Any], entries: Sequence[str]) -> Game:
    """The game that the entries write, each read as the table would have it read."""
    events: tuple[Event, ...] = (_opened(opening),)
    for text in entries:
        event = event_from_dict({"seq": len(events) + 1, **json.loads(text)}) if text[0] == "{" else _read(events, text)
        events = (*events, event)
    assert check_events(events) == [], check_events(events)
    return _replayed(events)


def _read(events: tuple[Event, ...], text: str) -> Event:
    entry = parse_entry(text, context_of(_replayed(events)))
    assert isinstance(entry, Entry), f"{text}: {entry}"
    return evolve(entry.event, seq=len(events) + 1)


def _replayed(events: tuple[Event, ...]) -> Game:
    assert isinstance(events[0], GameOpened)
    log = Log(name="planted", header=events[0], events=events, chained=False, head="")
    return replay(log, rulesets.of(log))


SAMPLES = {"clock": "9:15", "to": "9:15", "infraction": "tripping", "parts": "2", "team": "away", "signed": "Jo Hale"}
"""What people might put in the place of ``…`` behind a field; a reading behind a period, elsewhere a number."""


def quoted(fix: str) -> list[str]:
    """The short entries in a remedy as they stand there, with ``…`` where people have to know."""
    return [entry for entry in re.findall(r"`([^`]*)`", fix) if not entry.startswith("rinkfold ")]


def completed(entry: str) -> str:
    """An entry of a remedy as people would complete it."""
    return re.sub(r"(?:(late \d+|\w+) )?…", _filled, entry)


def _filled(found: re.Match[str]) -> str:
    name = found[1] or ""
    sample = "9:15" if name.startswith("late ") else SAMPLES.get(name, "7")
    return f"{name} {sample}".strip()
