"""A first look at what the tool can say about a game."""

from __future__ import annotations

from textwrap import wrap

from ...timeline.game import Game
from ..example import Telling
from ..paper import Style
from ..people import People
from ..words import footer
from .box import both_sides, heading
from .releases import release_lines
from .summary import summary_sections

__all__ = ["demo_lines"]

WIDTH = 100


def demo_lines(game: Game, moments: tuple[Telling, ...], people: People, style: Style) -> list[str]:
    """Three boxes, every release, the summary."""
    header = game.header
    lines = [
        f"An invented game: {header.home.name} (home) against {header.away.name} (away), {len(game.events)} events.",
        "",
    ]
    for moment in moments:
        lines += [*_box(game, moment, people, style), ""]
    lines += [*style.ruled("Who left the box when"), *(f"  {line}" for line in release_lines(game, people, style)), ""]
    lines += summary_sections(game, people, style)
    return [*lines, style.faint(footer(header)), "", *_next()]


def _box(game: Game, moment: Telling, people: People, style: Style) -> list[str]:
    instant = game.at(moment.at)
    return [*style.ruled(heading(instant)), *both_sides(instant, people, style), *wrap(moment.why, WIDTH)]


def _next() -> list[str]:
    return [
        "Your own game: rinkfold new GAME.jsonl --ruleset youth-12u --home NAME --away NAME",
        "           then rinkfold record GAME.jsonl 9:15 home penalty 12 minor tripping",
        "            and rinkfold box GAME.jsonl",
    ]
