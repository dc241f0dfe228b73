"""The written cases: their short notation (README.md beside this file) as plain events of the game log."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

Event = dict[str, Any]

OWN = Path(__file__).parent / "own"
REQUIRED = {"id", "settles", "ruleset", "events", "expect", "why"}
OPTIONAL = {"settings", "keepers"}
EXPECTATIONS: dict[str, frozenset[str]] = {
    "skaters": frozenset({"at"}),
    "returns": frozenset({"at"}),
    "box": frozenset({"at"}),
    "part": frozenset({"start", "end", "served", "fate"}),
    "goal": frozenset({"strength", "ended"}),
    "ejected": frozenset({"at"}),
    "not_ejected": frozenset(),
    "segments": frozenset(),
    "finding": frozenset(),
}
INTEGERS = {"ends", "after", "count"}
KINDS = {
    "penalty": "penalty_assessed",
    "goalie": "goalie_change",
    "ruling": "penalty_ended",
    "released": "penalty_ended",
}
PLAIN = {"faceoff", "stoppage", "period_end", "clock_set"}
WHO = r"(home|away) (?:stand-in for (\d+|bench)|(\d+))"
RETURN = re.compile(rf"{WHO} (on expiry|at stoppage)")
SEAT = re.compile(rf"{WHO} (running|waiting|suspended|offset|held)")


class Case(NamedTuple):
    """One written case: ``events`` are log lines without the chain, the opening first; ``expect`` is as written."""

    id: str
    settles: str
    why: str
    events: tuple[Event, ...]
    expect: tuple[dict[str, Any], ...]


class Return(NamedTuple):
    """Who goes back: ``who`` a number, None for a stand-in not named; ``stands_in_for`` is a number or ``bench``."""

    team: str
    who: str | None
    stands_in_for: str | None
    how: str


class Seat(NamedTuple):
    """Who sits, named as in ``Return``, and what is said of him: ``running``, ``held`` and the like."""

    team: str
    who: str | None
    stands_in_for: str | None
    state: str


def return_of(text: str) -> Return:
    """``"home 12 on expiry"`` taken apart; ``ValueError`` where it is written otherwise."""
    found = RETURN.fullmatch(text)
    if not found:
        raise ValueError(
            f"not a return: {text!r}; expected as in 'home 12 on expiry', 'away stand-in for 9 at stoppage'"
        )
    team, stands_in_for, who, how = found.groups()
    return Return(team, who, stands_in_for, how)


def seat_of(text: str) -> Seat:
    """``"home 12 held"`` taken apart; ``ValueError`` where it is written otherwise."""
    found = SEAT.fullmatch(text)
    if not found:
        raise ValueError(f"not a seat: {text!r}; expected as in 'home 12 held', 'away stand-in for 9 running'")
    team, stands_in_for, who, state = found.groups()
    return Seat(team, who, stands_in_for, state)


def value_of(key: str, text: str) -> Any:
    """The value of one ``key=value`` word."""
    if key in INTEGERS:
        return int(text)
    return {"true": True, "false": False}.get(text, text)


def who_is_called(word: str) -> Event:
    """The fields that say who is penalized: a number, ``?``, ``bench`` or ``staff``."""
    if word == "bench":
        return {}
    if word == "staff":
        return {"staff": "Coach"}
    return {"player": None if word == "?" else word}


def fields_of(kind: str, words: list[str], before: list[Event]) -> Event:
    """The fields that the plain words of an event stand for; ``before`` are the events written so far."""
    match kind, words:
        case "penalty", [team, who, parts]:
            return {"team": team, **who_is_called(who), "parts": parts.split("+")}
        case "goal" | "timeout" | "shot", [team]:
            return {"team": team}
        case "goalie", [team, goalie]:
            return {"team": team, "goalie": None if goalie == "out" else goalie}
        case "penalty_shot", [team, player, result]:
            return {"team": team, "player": player, "result": result}
        case ("ruling" | "released") as cause, [seq]:
            return {"team": before[int(seq) - 1]["team"], "penalty": int(seq), "cause": cause}
        case _, [] if kind in PLAIN:
            return {}
    raise ValueError(f"not an event: {kind} {' '.join(words)}")


def event_of(text: str, before: list[Event]) -> Event:
    """One event from its line; its ``seq`` follows from the events before it."""
    seq = {"seq": len(before) + 1}
    words = text.split()
    if words[0] == "closed":
        return seq | {"kind": "game_closed", "outcome": words[1]}
    period, clock, kind, *rest = words
    named = [word for word in rest if "=" in word]
    pairs = dict(word.split("=", 1) for word in named)
    fields = fields_of(kind, [word for word in rest if word not in named], before)
    extra = {key: value_of(key, value) for key, value in pairs.items()}
    return seq | {"kind": KINDS.get(kind, kind), "period": int(period), "clock": clock} | fields | extra


def team_of(name: str, keepers: list[str]) -> Event:
    """A team of the opening, with its goalkeepers on the roster."""
    roster = [{"number": number, "position": "goalkeeper"} for number in keepers]
    return {"name": name, "roster": roster} if roster else {"name": name}


def opening(raw: dict[str, Any]) -> Event:
    """Line 1 of the log of a case."""
    keepers = raw.get("keepers", {})
    return {
        "seq": 1,
        "kind": "game_opened",
        "format": 1,
        "game": raw["id"],
        "ruleset": raw["ruleset"],
        "settings": {"game.period_length": "20:00", **raw.get("settings", {})},
        "home": team_of("Alders", keepers.get("home", [])),
        "away": team_of("Birches", keepers.get("away", [])),
    }


def checked(row: dict[str, Any], case: str) -> dict[str, Any]:
    """An expectation that is one of the known ones and says something; ``ValueError`` otherwise."""
    kinds = [key for key in row if key in EXPECTATIONS]
    if len(kinds) != 1 or set(row) - {kinds[0]} - EXPECTATIONS[kinds[0]]:
        raise ValueError(f"{case}: not an expectation: {row}")
    if len(row) == 1 and EXPECTATIONS[kinds[0]]:
        raise ValueError(f"{case}: an expectation that asks nothing: {row}")
    for text in row.get("returns", []):
        return_of(text)
    for text in row.get("box", []):
        seat_of(text)
    return row


def case_of(raw: dict[str, Any]) -> Case:
    """One case from its table; ``ValueError`` names the case and what is wrong in it."""
    name = raw.get("id", "?")
    if wrong := (REQUIRED - set(raw)) | (set(raw) - REQUIRED - OPTIONAL):
        raise ValueError(f"{name}: keys missing or unknown: {sorted(wrong)}")
    events = [opening(raw)]
    for line in raw["events"]:
        events.append(event_of(line, events))
    expect = tuple(checked(row, name) for row in raw["expect"])
    return Case(name, raw["settles"], raw["why"], tuple(events), expect)


def cases_in(path: Path) -> Iterator[Case]:
    """The cases of one file, in order."""
    for raw in tomllib.loads(path.read_text(encoding="utf-8"))["case"]:
        yield case_of(raw)


def own_cases() -> list[Case]:
    """Every written case, file by file."""
    return [case for path in sorted(OWN.glob("*.toml")) for case in cases_in(path)]
