"""Skaters a side: stretches, an instant, or each second."""

from __future__ import annotations

from ...timeline.clock import format_reading
from ...timeline.game import Game, Instant
from ...timeline.moment import moment_at
from ...timeline.views.strength import Segment, Strength
from ..answers.strength import every_second
from ..paper import Style
from ..times import period_name, shown
from ..words import footer
from .layout import columns

__all__ = ["at_lines", "second_lines", "segment_lines"]

NOBODY = "-"
HEADS = ("period", "from", "to", "lasts", "home on away", "in net")


def segment_lines(game: Game, style: Style) -> list[str]:
    """All played time in stretches, and how it stands now while the game is open."""
    starts = {span.period: span.start for span in game.periods}
    rows = [_row(game, segment, starts[segment.period]) for segment in game.strength_segments]
    lines = columns(rows, "<>>><<", style, HEADS) if rows else ["No time has been played yet."]
    if not game.over:
        lines += ["", _now(game)]
    return [*lines, "", style.faint(footer(game.header))]


def _row(game: Game, segment: Segment, begins: int) -> tuple[str, ...]:
    rules, period = game.rules, segment.period
    return (
        period_name(period, rules),
        moment_at(rules, period, segment.start - begins).clock,
        moment_at(rules, period, segment.end - begins).clock,
        format_reading(segment.end - segment.start),
        segment.strength.label,
        _nets(segment.strength),
    )


def _nets(strength: Strength) -> str:
    """Who is in the home net and in the other: ``"31, 30"``; a stroke for nobody, nothing where none was named."""
    goalies = (strength.home_goalie, strength.away_goalie)
    return ", ".join(goalie or NOBODY for goalie in goalies) if any(goalies) else ""


def _now(game: Game) -> str:
    resumed = game.if_play_resumed
    if resumed is None:
        return f"Now, {shown(game.now.at, game.rules)}: {_skaters(game.now.strength)}"
    return f"Stopped at {shown(resumed.at, game.rules)}; if play resumed now: {_skaters(resumed.strength)}"


def _skaters(strength: Strength) -> str:
    nets = _nets(strength)
    return f"home {strength.label} away" + (f"; in net {nets}" if nets else "")


def at_lines(instant: Instant, style: Style) -> list[str]:
    """The strength at `instant`, and what it was up to then where it changes."""
    rules = instant.game.rules
    lines = [f"{shown(instant.at, rules)}: {_skaters(instant.strength)}"]
    if instant.before != instant.strength:
        lines.append(f"Before: {_skaters(instant.before)}")
    return [*lines, "", style.faint(footer(instant.game.header))]


def second_lines(game: Game, style: Style) -> list[str]:
    """The strength in each second of played time, by the reading at which the second begins."""
    rows = [
        (period_name(at.period, game.rules), at.clock, strength.label, _nets(strength))
        for at, strength in every_second(game)
    ]
    lines = columns(rows, "<><<", style) if rows else ["No time has been played yet."]
    return [*lines, "", style.faint(footer(game.header))]
