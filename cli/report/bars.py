"""The penalties as bars: from when to when, how it ended, and in which lane each stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from attrs import evolve, frozen

from ...timeline.clock import format_reading
from ...timeline.events import Team
from ...timeline.game import Game
from ...timeline.views.penalties import PartLife, PenaltyLife
from ..people import People
from ..times import shown
from ..words import PARTS, TEAMS, offender
from .timeline import Axis

__all__ = ["Bar", "bars", "fate_of", "penalized"]

SHORT: Mapping[str, str] = {
    "ended by goal": "goal",
    "ended by ruling": "ruling",
    "ended by ejection": "ejected",
    "replaced by penalty shot": "shot",
    "washed out": "washed",
}
LINES: Mapping[str, str] = {
    "served": "served",
    "ended by goal": "goal",
    "ended by ruling": "cut",
    "ended by ejection": "cut",
    "offset": "offset",
}


@frozen
class Bar:
    """One part of a penalty in the picture.

    Attributes:
        called, start, end: played tenths since the opening faceoff; `start` is `called` for a part that never ran.
        look: how it is drawn: ``served``, ``goal``, ``cut``, ``offset``, ``open``, ``mark``.
        label: who, and how it ended, in a word or two.
        tells: the whole story, as a sentence.
        lane: from 0, nearest to the middle.
    """

    team: Team
    period: int
    penalty: int
    called: int
    start: int
    end: int
    look: str
    misconduct: bool
    label: str
    tells: str
    lane: int = 0


def bars(game: Game, people: People, axis: Axis) -> tuple[Bar, ...]:
    """Every part of every penalty; home and away each in lanes in which nothing covers anything else."""
    found = [bar for life in game.penalties for bar in _bars(game, life, people, axis)]
    return tuple(laid for team in TEAMS for laid in _in_lanes([bar for bar in found if bar.team == team], axis))


def penalized(life: PenaltyLife, people: People) -> str:
    """Whom the penalty is on."""
    return offender(life.event) or people.called(life.team, life.event.player)


def _bars(game: Game, life: PenaltyLife, people: People, axis: Axis) -> list[Bar]:
    called = axis.tenth(life.at)
    return [_bar(game, life, part, people, axis, called) for part in life.parts]


def _bar(game: Game, life: PenaltyLife, part: PartLife, people: People, axis: Axis, called: int) -> Bar:
    start = called if part.start is None else axis.tenth(part.start)
    still = part.end is None and part.start is not None
    end = max(start, game.folded.last.now) if still else start if part.end is None else axis.tenth(part.end)
    look = "mark" if end <= start else "open" if still else LINES.get(part.fate, "cut")
    number = offender(life.event) or life.event.player or "?"
    return Bar(
        life.team,
        life.at.period,
        life.penalty,
        called,
        start,
        end,
        look,
        "misconduct" in part.kind,
        f"{number} {_word(part)}",
        _tells(game, life, part, people),
    )


def _word(part: PartLife) -> str:
    if part.kind == "game_misconduct":
        return "game misc."
    return SHORT.get(part.fate, part.fate)


def _tells(game: Game, life: PenaltyLife, part: PartLife, people: People) -> str:
    rules, event = game.rules, life.event
    what = PARTS[part.kind] + (f", {event.infraction}" if event.infraction else "")
    said = [f"{life.team} {penalized(life, people)}: {what}; called {shown(life.at, rules)}"]
    if part.start is not None and part.kind != "game_misconduct":
        until = f" to {shown(part.end, rules)}" if part.end is not None else ""
        said.append(f"ran {shown(part.start, rules)}{until}, {format_reading(part.served)} served")
    said.append(fate_of(part))
    return "; ".join(said)


def fate_of(part: PartLife) -> str:
    """How a part ended or stands; nobody serves a game misconduct."""
    nobody_serves = part.kind == "game_misconduct" and part.fate in ("served", "unserved")
    return "out of the game" if nobody_serves else part.fate


def _in_lanes(found: Sequence[Bar], axis: Axis) -> list[Bar]:
    """The lowest lane that is free for the bar and its label; parts of one penalty that follow each other share one."""
    free: list[float] = []
    laid: list[Bar] = []
    for bar in sorted(found, key=lambda bar: (bar.called, bar.start)):
        from_, to = _begins(bar, axis), _reach(bar, axis)
        lane = next((number for number, until in enumerate(free) if until <= from_), len(free))
        before = laid[-1] if laid else None
        if before is not None and _goes_on(before, bar) and free[before.lane] <= bar.start:
            lane = before.lane
        free[lane:] = [to, *free[lane + 1 :]]
        laid.append(evolve(bar, lane=lane))
    return laid


def _begins(bar: Bar, axis: Axis) -> float:
    """The tenth from which the bar takes room; near a panel's right edge its label stands to the left."""
    edge = axis.right_edge(bar.start, bar.period)
    return min(bar.called, edge - (len(bar.label) + 1) * axis.letter)


def _reach(bar: Bar, axis: Axis) -> float:
    """The tenth up to which the bar and its labels, one in each panel, take room."""
    begins = [bar.start, *(span.start for span in axis.spans if bar.start < span.start < bar.end)]
    return max(bar.end, begins[-1] + (len(bar.label) + 2) * axis.letter)


def _goes_on(before: Bar, bar: Bar) -> bool:
    """Whether `bar` is the part of the same penalty that follows."""
    return before.penalty == bar.penalty and before.end <= bar.start < bar.end
