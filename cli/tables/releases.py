"""Who went back when: every release of the game in its order."""

from __future__ import annotations

from ...timeline.game import Game
from ...timeline.views.penalties import PenaltyLife, Return
from ..paper import Style
from ..people import People
from ..times import shown
from ..words import offender, parts_text
from .layout import columns

__all__ = ["release_lines"]


def release_lines(game: Game, people: People, style: Style) -> list[str]:
    """Each release on a line: when, who, after what, and whether the clock or a whistle decided."""
    releases = [(one.tenth, number, life, one) for number, life in enumerate(game.penalties) for one in life.returns]
    rows = [_row(game, life, one, people) for _, _, life, one in sorted(releases, key=lambda release: release[:2])]
    return columns(rows, "><<<<", style) if rows else ["Nobody sat."]


def _row(game: Game, life: PenaltyLife, one: Return, people: People) -> tuple[str, ...]:
    who = "a team-mate" if one.who is None else people.called(life.team, one.who)
    for_whom = f" for {_offender(life, people)}" if one.role != "player" else ""
    infraction = f" {life.event.infraction}" if life.event.infraction else ""
    how = "when the time was over" if one.how == "on expiry" else "at the whistle"
    return (
        shown(one.at, game.rules),
        life.team,
        f"{who}{for_whom}",
        f"{parts_text(life.event.parts, game.rules)}{infraction}",
        how,
    )


def _offender(life: PenaltyLife, people: People) -> str:
    return offender(life.event) or people.called(life.team, life.event.player)
