"""What a complete record still lacks: a note for each when it is closed, one for all while it is open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ...events import TEAMS, Team
from ...fold.state import GameState
from ...wording import listed
from .checked import Checked
from .finding import Finding, Kind

if TYPE_CHECKING:
    from ...game import Game

__all__ = ["CHECKS", "lacking"]

STILL_OPEN = Kind(
    "still_open",
    "note",
    "The record is not closed; says what a complete one would still need.",
    "Close it when the game is over and everything is written.",
)
NO_OFFICIALS = Kind(
    "no_officials",
    "note",
    "The record is closed and names no referee.",
    "Write the officials, if your league wants them.",
)
NO_ROSTER = Kind(
    "no_roster",
    "note",
    "The record is closed and a side has no roster; numbers cannot be checked.",
    "Write the roster, if your league wants it.",
)
NO_STARTING_GOALIE = Kind(
    "no_starting_goalie",
    "note",
    "The record is closed and nobody is named in a net at the start.",
    "Name the goalkeeper who started.",
)
NOT_SIGNED = Kind(
    "not_signed",
    "note",
    "The record is closed and not signed off.",
    "Write who signed.",
)


def _has_referee(checked: Checked) -> bool:
    officials = checked.header.officials
    return officials is not None and bool(officials.referees)


def _without_roster(checked: Checked) -> list[str]:
    sheets = {"home": checked.header.home, "away": checked.header.away}
    return [team for team in TEAMS if not sheets[team].roster]


def _without_starter(checked: Checked, yet: GameState | None = None) -> list[Team]:
    """The sides for which nobody, and no empty net, is recorded when play begins; in `yet` where it has not begun."""
    begun = next((step.after for step in checked.steps if step.after.in_play or step.after.now), yet)
    return [team for team in TEAMS if begun is not None and begun.side(team).goalie == ""]


def check_complete(checked: Checked) -> Iterator[Finding]:
    """Check that a closed record has its officials, rosters, starting goalkeepers and signatures."""
    closing = checked.closing
    if closing is None:
        return
    if not _has_referee(checked):
        yield NO_OFFICIALS.about(
            "No referee is named.", 'Write the officials: `amend 1 officials {"referees": ["…"]}`.', seq=1
        )
    for team in _without_roster(checked):
        message = f"The {team} side has no roster, so its numbers cannot be checked."
        yield NO_ROSTER.about(message, "Give the roster when the game is opened: `rinkfold new`.", seq=1)
    for team in _without_starter(checked):
        if any(event.team != team and step.before.side(team).goalie == "" for step, event in checked.attempts):
            continue  # told by the goals and shots
        entry = checked.adding(f"{team} goalie …", checked.folded.moment(1, 0))
        yield NO_STARTING_GOALIE.about(
            f"Nobody is named in the {team} net at the start.", f"Name the goalkeeper: {entry}."
        )
    if not closing.signed:
        yield NOT_SIGNED.about("Nobody signed.", f"Write who did: `amend {closing.seq} signed …`.", seq=closing.seq)


def check_open(checked: Checked) -> Iterator[Finding]:
    """Check whether the record is still open, and what it lacks."""
    if checked.closing is not None:
        return
    lacks = _lacks(checked)
    message = f"The record is not closed; besides its closing and signatures it lacks {listed(lacks)}."
    if not lacks:
        message = "The record is not closed."
    yield STILL_OPEN.about(message, "When the game is over and everything is written: `close played signed …`.")


def _lacks(checked: Checked, yet: GameState | None = None) -> list[str]:
    lacks = [] if _has_referee(checked) else ["the officials"]
    lacks += [f"the {team} roster" for team in _without_roster(checked)]
    return lacks + [f"the {team} starting goalkeeper" for team in _without_starter(checked, yet)]


def lacking(game: Game) -> list[str]:
    """What a complete record of `game` would still need besides its closing: ``["the officials"]``.

    Starting goalkeepers are missing from the opening on, before play begins.
    """
    return _lacks(Checked(game), game.folded.last)


CHECKS = (check_complete, check_open)
