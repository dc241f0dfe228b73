"""The life of every penalty: a line for each part."""

from __future__ import annotations

from ...timeline.clock import format_reading
from ...timeline.game import Game
from ...timeline.moment import Moment
from ...timeline.views.penalties import PartLife, PenaltyLife, Return
from ..paper import Style
from ..people import People
from ..times import shown
from ..words import PARTS, footer, length_text, listed, offender
from .layout import columns

__all__ = ["penalty_lines"]

HEADS = ("seq", "at", "team", "who", "part", "length", "start", "end", "served", "", "out of the box")
ALIGN = ">><<<>>>><<"


def penalty_lines(game: Game, people: People, style: Style) -> list[str]:
    """Every penalty in game order, each part on a line, with who went back when."""
    rows = [row for life in game.penalties for row in _rows(game, life, people)]
    lines = columns(rows, ALIGN, style, HEADS) if rows else ["No penalties."]
    return [*lines, "", style.faint(footer(game.header))]


def _rows(game: Game, life: PenaltyLife, people: People) -> list[tuple[str, ...]]:
    lead = (str(life.penalty), shown(life.at, game.rules), life.team, _who(life, people))
    rows = []
    for number, part in enumerate(life.parts):
        last = number == len(life.parts) - 1
        out = _returns(game, life, people) if last else ""
        rows.append((*(lead if number == 0 else ("",) * len(lead)), *_part(game, part), _fate(game, part), out))
    return rows


def _who(life: PenaltyLife, people: People) -> str:
    event = life.event
    who = offender(event) or people.called(event.team, event.player)
    return f"{who} ({people.called(event.team, event.served_by)} sits)" if event.served_by else who


def _part(game: Game, part: PartLife) -> tuple[str, ...]:
    return (
        PARTS[part.kind],
        length_text(part.kind, game.rules),
        _when(game, part.start),
        _when(game, part.end),
        format_reading(part.served),
    )


def _fate(game: Game, part: PartLife) -> str:
    """What became of it; where no side plays short, nothing is taken off a clock."""
    return "served, not short" if part.fate == "offset" and not game.rules.ice.plays_short else part.fate


def _when(game: Game, moment: Moment | None) -> str:
    return "" if moment is None else shown(moment, game.rules)


def _returns(game: Game, life: PenaltyLife, people: People) -> str:
    return listed(_return(game, life, one, people) for one in life.returns)


def _return(game: Game, life: PenaltyLife, one: Return, people: People) -> str:
    who = "team-mate" if one.who is None else people.called(life.team, one.who)
    whistle = ", whistle" if one.how == "at stoppage" else ""
    return f"{who} at {shown(one.at, game.rules)}{whistle}"
