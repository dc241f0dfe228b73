"""Who left the box, and whose game is over, because of an entry or of the time up to it."""

from __future__ import annotations

from collections.abc import Iterator

from ...timeline.fold.changes import Ejected, Returned, ReturnWithdrawn
from ..times import shown
from ..words import listed
from .entered import Entered
from .resettled import resettled

__all__ = ["consequences", "ejections", "leaving"]


def consequences(entered: Entered) -> list[str]:
    """Who leaves the box, whose game is over, and for whom in the box something else holds now."""
    return [*leaving(entered), *ejections(entered), *resettled(entered)]


def leaving(entered: Entered) -> list[str]:
    """``["home 9 leaves the box", "away 5 out since 2 5:35"]``."""
    stay = {(change.team, change.who, change.at) for change in entered.changes(ReturnWithdrawn)}
    now: list[str] = []
    past: list[str] = []
    for change in entered.changes(Returned):
        if (change.team, change.who, change.at) in stay:
            continue
        who = _name(entered, change)
        if change.at == entered.instant.state.now:
            now.append(who)
        else:
            past.append(f"{who} out since {shown(entered.game.folded.moment_of(change), entered.rules)}")
    return [*_leave(now), *past]


def _leave(who: list[str]) -> Iterator[str]:
    if who:
        yield f"{listed(who)} {'leaves' if len(who) == 1 else 'leave'} the box"


def _name(entered: Entered, change: Returned) -> str:
    if change.who is None:
        return f"the {change.team} team-mate"
    return f"{change.team} {entered.people.called(change.team, change.who)}"


def ejections(entered: Entered) -> list[str]:
    """``["home 18 is out of the game"]``."""
    return [
        f"{change.team} {entered.people.called(change.team, change.player)} is out of the game"
        for change in entered.changes(Ejected)
    ]
