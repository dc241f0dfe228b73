"""Words that the tables and the effects of entries share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from ..timeline.clock import format_reading
from ..timeline.events import GameOpened, PartKind, PenaltyAssessed, Team
from ..timeline.rules import Ruleset

__all__ = [
    "PARTS",
    "TEAMS",
    "footer",
    "kinds_text",
    "length_text",
    "listed",
    "offender",
    "overridden",
    "part_text",
    "parts_text",
    "side_title",
    "yes_or_no",
]

TEAMS: tuple[Team, Team] = ("home", "away")

PARTS: Mapping[PartKind, str] = {
    "minor": "minor",
    "bench_minor": "bench minor",
    "major": "major",
    "match": "match",
    "misconduct": "misconduct",
    "game_misconduct": "game misconduct",
}

_NO_LENGTH = "game_misconduct"


def listed(words: Iterable[str]) -> str:
    """``"a"``, ``"a and b"``, ``"a, b and c"``."""
    *before, last = [*words] or [""]
    return f"{', '.join(before)} and {last}" if before else last


def length_text(kind: PartKind, rules: Ruleset) -> str:
    """The length of a part as it is written, ``""`` for one that has none."""
    return "" if kind == _NO_LENGTH else format_reading(rules.part_length(kind))


def part_text(kind: PartKind, rules: Ruleset) -> str:
    """A part with its length: ``"minor 2:00"``."""
    return f"{PARTS[kind]} {length_text(kind, rules)}".strip()


def parts_text(parts: Sequence[PartKind], rules: Ruleset) -> str:
    """The parts of a penalty: ``"minor 2:00 + misconduct 10:00"``; a double minor is said as one."""
    if tuple(parts) == ("minor", "minor"):
        return f"double minor {format_reading(2 * rules.part_length('minor'))}"
    return " + ".join(part_text(kind, rules) for kind in parts)


def kinds_text(parts: Iterable[tuple[int, PartKind]]) -> str:
    """Parts of one or more penalties, each with the `seq` of its penalty: ``"double minor + misconduct"``."""
    said: list[str] = []
    for (_, kind), same in groupby(parts):
        double = kind == "minor" and len([*same]) > 1
        said.append(f"double {PARTS[kind]}" if double else PARTS[kind])
    return " + ".join(said)


def offender(penalty: PenaltyAssessed) -> str | None:
    """Who was penalized, where it is not a player with a number."""
    if penalty.staff is not None:
        return "staff"
    return "bench" if penalty.player is None and "bench_minor" in penalty.parts else None


def side_title(header: GameOpened, team: Team) -> str:
    """A side with its team's name: ``"home  Larkmoor Lanterns"``."""
    return f"{team}  {(header.home if team == 'home' else header.away).name}"


def overridden(header: GameOpened) -> str:
    """What the game sets otherwise than its ruleset: ``"overtime.skaters 3"``; empty where nothing."""
    return ", ".join(f"{name} {yes_or_no(value)}" for name, value in (header.settings or {}).items())


def yes_or_no(value: object) -> str:
    """A value of a knob in words."""
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def footer(header: GameOpened) -> str:
    """The last line of every answer: whose rules were used, what was overridden, and who decides."""
    with_changes = f", with {overridden(header)}" if header.settings else ""
    return f"Rules: {header.ruleset}{with_changes}. The league's own rules and the officials on the ice decide."
