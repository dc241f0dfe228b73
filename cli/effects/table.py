"""What the table writes down beside the play: rosters, what was seen or counted elsewhere, remarks, the closing."""

from __future__ import annotations

from ...timeline.events import Figures, GameClosed, ObservedPlayer, ObservedStrength, Remark, RosterChange
from .entered import Entered

__all__ = ["figures", "game_closed", "observed_player", "observed_strength", "remark", "roster_change"]

Said = tuple[str, str]


def roster_change(entered: Entered, event: RosterChange) -> Said:
    """Who is on the roster, and as what."""
    was = f", was {event.was}" if event.was else ""
    marks = [mark for mark in (event.position, event.letter, event.status) if mark]
    return f"{event.team} roster, {entered.people.called(event.team, event.number)}{was}", ", ".join(marks)


def observed_strength(entered: Entered, event: ObservedStrength) -> Said:
    """What was seen, beside what the rules owe."""
    owed = entered.instant.strength
    same = (owed.home, owed.away) == (event.home, event.away)
    return f"seen, home {event.home} on {event.away}", "as the rules say" if same else f"the rules say {owed.label}"


def observed_player(entered: Entered, event: ObservedPlayer) -> Said:
    """Where somebody was seen, beside where he should be."""
    sits = any(one.team == event.team and one.sits == event.player for one in entered.instant.box)
    should = "box" if sits else "ice"
    seen = f"seen, {event.team} {entered.people.called(event.team, event.player)} {_PLACES[event.where]}"
    return seen, "as the rules say" if should == event.where else f"by the rules {_OWED[should]}"


_PLACES = {"ice": "on the ice", "box": "in the box"}
_OWED = {"ice": "nobody of this number sits", "box": "in the box"}


def figures(entered: Entered, event: Figures) -> Said:
    """Figures are only compared."""
    counts = [f"{name} {value}" for name in ("goals", "shots", "saves") if (value := getattr(event, name)) is not None]
    return f"{event.team} figures of the {event.source}, {', '.join(counts) or 'none'}", "written, to be compared"


def remark(entered: Entered, event: Remark) -> Said:
    """A remark is only written down."""
    return "remark", "written"


def game_closed(entered: Entered, event: GameClosed) -> Said:
    """The result."""
    final = entered.game.summary.final
    return f"closed, {event.outcome}", f"{final.home}-{final.away}"
