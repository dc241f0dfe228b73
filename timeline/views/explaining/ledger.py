"""What the changes have told so far, as far as later ones are explained by it."""

from __future__ import annotations

from attrs import Factory, define

from ...events import Team
from ...fold.changes import (
    Change,
    GoalieChanged,
    PartEnded,
    PartSetAside,
    PartStarted,
    PartSuspended,
    PenaltyCalled,
    PlayResumed,
    PlayStopped,
    StrengthChanged,
    Waits,
)
from ...fold.state import ChainKey

__all__ = ["Ledger", "PartId", "Skaters"]

PartId = tuple[int, int]
Skaters = tuple[int, int]


@define
class Ledger:
    """What runs, who waits, how many skate, and what was called since the whistle.

    Attributes:
        running: the parts that run, with their starts.
        served: tenths served of each part that ended.
        started, aside: the parts that have run, and those that were set aside.
        waiting: the penalties that wait for a place.
        seated: the chains for which it was said who sits in.
        before: the change before this one.
        strength: skaters and goalkeepers as last told.
        skaters: home and away, without extra attackers.
        empty: the sides that have pulled their goalkeeper.
        called: the penalties called since the whistle, in order.
    """

    running: dict[PartId, PartStarted] = Factory(dict)
    served: dict[PartId, int] = Factory(dict)
    started: set[PartId] = Factory(set)
    aside: set[PartId] = Factory(set)
    waiting: dict[int, Waits] = Factory(dict)
    seated: set[tuple[Team, ChainKey]] = Factory(set)
    before: Change | None = None
    strength: StrengthChanged | None = None
    skaters: Skaters | None = None
    empty: set[Team] = Factory(set)
    called: list[PenaltyCalled] = Factory(list)

    def note(self, change: Change) -> None:
        """Write `change` down."""
        if isinstance(change, PartStarted):
            self.running[change.penalty, change.index] = change
            self.started.add((change.penalty, change.index))
            self.waiting.pop(change.penalty, None)
        elif isinstance(change, PartEnded):
            part = (change.penalty, change.index)
            self.running.pop(part, None)
            self.served[part] = self.served.get(part, 0) + change.served
        elif isinstance(change, PartSuspended):
            self.running.pop((change.penalty, change.index), None)
        elif isinstance(change, PartSetAside):
            self.aside.add((change.penalty, change.index))
        elif isinstance(change, Waits):
            self.waiting[change.penalty] = change
        elif isinstance(change, StrengthChanged):
            self.strength = change
            self.skaters = self.without_attackers(change)
        elif isinstance(change, GoalieChanged):
            (self.empty.add if change.goalie is None else self.empty.discard)(change.team)
        elif isinstance(change, PenaltyCalled):
            self.called.append(change)
        elif isinstance(change, PlayStopped | PlayResumed):
            self.called.clear()
        self.before = change

    def without_attackers(self, change: StrengthChanged) -> Skaters:
        """The skaters that penalties leave each side."""
        return change.home - ("home" in self.empty), change.away - ("away" in self.empty)

    def on_the_clock(self, team: Team) -> list[PartStarted]:
        """The parts of `team` that run on the clock, the one begun first first."""
        return [start for start in self.running.values() if start.team == team and start.on_clock]

    def is_short(self, team: Team) -> bool:
        """Whether penalties left `team` fewer than its opponent as play last went on."""
        if self.strength is None:
            return False
        return self.strength.home_short if team == "home" else self.strength.away_short
