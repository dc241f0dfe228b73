"""The game as the checks look at it: its events one by one, its corrections, and what sort of record it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar, cast

from attrs import frozen

from ...clock import format_reading, parse_reading
from ...events import (
    ClockSet,
    Event,
    Faceoff,
    GameClosed,
    GameOpened,
    Goal,
    PenaltyAssessed,
    PenaltyShot,
    RosterChange,
    Shot,
    Team,
)
from ...fold.changes import PlayResumed
from ...folded import FoldedGame
from ...moment import Moment
from ...rules import Ruleset
from ...script.corrections import Corrections
from ..penalties import Return, returns_of
from .appearances import Appearance, appearances
from .jumps import Jump, jumps
from .misplaced import Misplaced, misplaced
from .recorded import RecordedLate, recorded_late
from .roster import Roster, rosters
from .step import Step
from .whistles_kept import WhistleCount, count_whistles

if TYPE_CHECKING:
    from ...game import Game

__all__ = ["Checked", "length_words"]

E = TypeVar("E", bound=Event)


@frozen(slots=False, eq=False)
class Checked:
    """A replayed game, and what several checks ask of it."""

    game: Game

    @property
    def folded(self) -> FoldedGame:
        """The fold."""
        return self.game.folded

    @property
    def rules(self) -> Ruleset:
        """The ruleset."""
        return self.game.rules

    @property
    def header(self) -> GameOpened:
        """The first line as it counts."""
        return self.game.header

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The events that count, in game order."""
        folded = self.folded
        befores = (folded.opening, *folded.states)
        rows = zip(folded.placed, befores, folded.states, folded.changes, strict=False)
        return tuple(
            Step(index, one.event, one.period, one.played, before, after, changes, self.rules)
            for index, (one, before, after, changes) in enumerate(rows)
        )

    @cached_property
    def _by_class(self) -> Mapping[type[Event], Sequence[Step]]:
        found: dict[type[Event], list[Step]] = {}
        for step in self.steps:
            found.setdefault(type(step.event), []).append(step)
        return found

    @cached_property
    def step_of(self) -> Mapping[int, Step]:
        """The steps by the `seq` of their event."""
        return {step.event.seq: step for step in self.steps}

    def of(self, kind: type[E]) -> Iterator[tuple[Step, E]]:
        """The events of one class, each with its step, in game order."""
        for step in self._by_class.get(kind, ()):
            yield step, cast(E, step.event)

    @cached_property
    def attempts(self) -> tuple[tuple[Step, Goal | Shot | PenaltyShot], ...]:
        """Goals, shots that were saved and penalty shots, in game order."""
        return tuple((step, step.event) for step in self.steps if isinstance(step.event, Goal | Shot | PenaltyShot))

    @cached_property
    def named(self) -> tuple[tuple[Step, Appearance], ...]:
        """The numbers that events name, in game order."""
        return tuple((step, one) for step in self.steps for one in appearances(step.event))

    @cached_property
    def rosters(self) -> Mapping[Team, Roster]:
        """The rosters of both sides."""
        return rosters(self.header, self.of(RosterChange))

    @cached_property
    def resumptions(self) -> tuple[tuple[Step, PlayResumed], ...]:
        """Where play was resumed, in game order."""
        return tuple(
            (step, change) for step in self.steps for change in step.changes if isinstance(change, PlayResumed)
        )

    @cached_property
    def jumps(self) -> tuple[Jump, ...]:
        """The faceoffs at another reading than that of the stoppage that they belong to."""
        found = jumps(self.game.events, self.step_of)
        inside = (jump for jump in found if not (self.is_outside(jump.stoppage) or self.is_outside(jump.faceoff)))
        return tuple(jump for jump in inside if self.whistles.kept or jump.is_pair)

    def is_outside(self, step: Step) -> bool:
        """Whether the reading of an event is longer than its period, so that nothing can be said of its place.

        It then counts as one of the period's ends.
        """
        length = self.rules.period_length(step.period)
        if step.event.clock is None or step.played not in (0, length):
            return False
        return parse_reading(step.event.clock) > length

    @cached_property
    def corrections(self) -> Corrections:
        """What counts of each line."""
        return Corrections(self.game.events)

    @cached_property
    def clock_sets(self) -> tuple[ClockSet, ...]:
        """The corrections of the clock that count."""
        found = (self.counting(event.seq) for event in self.game.events if isinstance(event, ClockSet))
        return tuple(event for event in found if isinstance(event, ClockSet))

    @cached_property
    def misplaced(self) -> tuple[Misplaced, ...]:
        """The events out of the order in which the others were written."""
        seqs = [step.event.seq for step in self.steps]
        if seqs == sorted(seqs):  # written in the order of the game
            return ()
        return tuple(misplaced(self.game.events, self.step_of, clock_was_set=bool(self.clock_sets)))

    @cached_property
    def recorded_late(self) -> tuple[RecordedLate, ...]:
        """The events recorded long after the game had gone past them."""
        return tuple(recorded_late(self.steps, self.game.events))

    def counting(self, seq: int) -> Event | None:
        """The event `seq` as it counts; ``None`` where it is voided."""
        return self.corrections.standing(seq).event

    @property
    def penalties(self) -> Mapping[int, PenaltyAssessed]:
        """The penalties that count, by `seq`."""
        return self.folded.penalties

    @cached_property
    def returns(self) -> Mapping[int, Sequence[Return]]:
        """Who may go back for each penalty, by its `seq`."""
        return returns_of(self.folded)

    @cached_property
    def closing(self) -> GameClosed | None:
        """The closing of the record, where it counts."""
        return next((event for _, event in self.of(GameClosed)), None)

    @cached_property
    def whistles(self) -> WhistleCount:
        """How many faceoffs and stoppages are written, and how many are not."""
        return count_whistles(self.resumptions, [step for step, _ in self.of(Faceoff)])

    def adding(self, entry: str, at: Moment | None = None) -> str:
        """What to do to have one more event at `at`: the short entry, after reopening a record that is closed."""
        late = f"`late {at} {entry}`" if at is not None else f"`{entry}`"
        if self.closing is None:
            return late
        return f"reopen the record with `void {self.closing.seq} reopened`, then {late}"


def length_words(tenths: int) -> str:
    """A stretch of time as it is said: ``"0:07"`` is ``"7 s"``, longer ones are written ``"1:30"``."""
    return f"{tenths / 10:g} s" if tenths < 600 else format_reading(tenths)
