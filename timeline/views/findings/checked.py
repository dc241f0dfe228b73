"""The game as the checks look at it: its events one by one, its corrections, and what sort of record it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from attrs import frozen

from ...clock import format_reading
from ...events import Event, GameClosed, GameOpened, PenaltyAssessed
from ...folded import FoldedGame
from ...moment import Moment
from ...rules import Ruleset
from ...script.corrections import Corrections
from .step import Step
from .whistles_kept import WhistleCount, count_whistles

if TYPE_CHECKING:
    from ...game import Game

__all__ = ["Checked", "length_words", "listed"]

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
    def step_of(self) -> Mapping[int, Step]:
        """The steps by the `seq` of their event."""
        return {step.event.seq: step for step in self.steps}

    def of(self, kind: type[E]) -> Iterator[tuple[Step, E]]:
        """The events of one class, each with its step, in game order."""
        for step in self._steps_of.get(kind, ()):
            event = step.event
            assert isinstance(event, kind)
            yield step, event

    @cached_property
    def _steps_of(self) -> Mapping[type[Event], list[Step]]:
        """The steps by the class of their event: every check asks for one, and none for a class above."""
        found: dict[type[Event], list[Step]] = {}
        for step in self.steps:
            found.setdefault(type(step.event), []).append(step)
        return found

    @cached_property
    def corrections(self) -> Corrections:
        """What counts of each line."""
        return Corrections(self.game.events)

    def counting(self, seq: int) -> Event | None:
        """The event `seq` as it counts; ``None`` where it is voided."""
        return self.corrections.standing(seq).event

    @property
    def penalties(self) -> Mapping[int, PenaltyAssessed]:
        """The penalties that count, by `seq`."""
        return self.folded.penalties

    @cached_property
    def closing(self) -> GameClosed | None:
        """The closing of the record, where it counts."""
        return next((event for _, event in self.of(GameClosed)), None)

    @cached_property
    def whistles(self) -> WhistleCount:
        """How many faceoffs and stoppages are written, and how many are not."""
        return count_whistles(self.folded.changes, self.folded.placed)

    def adding(self, entry: str, at: Moment | None = None) -> str:
        """What to do to have one more event at `at`: the short entry, after reopening a record that is closed."""
        late = f"`late {at} {entry}`" if at is not None else f"`{entry}`"
        if self.closing is None:
            return late
        return f"reopen the record with `void {self.closing.seq} reopened`, then {late}"


def length_words(tenths: int) -> str:
    """A stretch of time as it is said: ``"0:07"`` is ``"7 s"``, longer ones are written ``"1:30"``."""
    return f"{tenths / 10:g} s" if tenths < 600 else format_reading(tenths)


def listed(words: list[str]) -> str:
    """``"a"``, ``"a and b"``, ``"a, b and c"``."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)
