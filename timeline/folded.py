"""A whole game folded: the events that count, the state after each, and every change with its reason.

This is what the views read. `state_at` answers for any instant, also between events.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any, TypeVar, cast

from attrs import frozen

from .events import GameClosed, GameOpened, PenaltyAssessed
from .fold.changes import Change, PartEnded, PartStarted, PlayResumed
from .fold.state import GameState
from .fold.step import advance, advance_in_stoppage, begin, begin_next_period, if_play_resumed, play_resumed, step
from .moment import Moment, PeriodSpan, moment_at
from .rules import Ruleset
from .script.placed import Placed
from .views.strength import Segment, segments

__all__ = ["FoldedGame", "fold"]

C = TypeVar("C", bound=Change)


@frozen(slots=False, eq=False)
class FoldedGame:
    """The fold of a game, event by event.

    Attributes:
        opening: the state before the first event.
        placed: the events that count, in game order.
        states, changes: after and at each of them.
    """

    header: GameOpened
    rules: Ruleset
    opening: GameState
    placed: tuple[Placed, ...]
    states: tuple[GameState, ...]
    changes: tuple[tuple[Change, ...], ...]

    @property
    def last(self) -> GameState:
        """The state after the last event."""
        return self.states[-1] if self.states else self.opening

    @property
    def standing(self) -> GameState:
        """The last state as the board shows it.

        In a stoppage as if play resumed now, after the end of the game as it is.
        """
        return self._standing[0]

    @property
    def pending_changes(self) -> tuple[Change, ...]:
        """What would change if play resumed now: the settlement of what was called since the last whistle."""
        return self._standing[1]

    @cached_property
    def _standing(self) -> tuple[GameState, tuple[Change, ...]]:
        if self.last.ice.over or self.last.in_play:
            return self.last, ()
        return play_resumed(self.last, self.rules)

    def all_changes(self) -> Iterator[Change]:
        """Every change, in game order."""
        for changes in self.changes:
            yield from changes

    @cached_property
    def _by_class(self) -> Mapping[type[Any], Sequence[Change]]:
        found: dict[type[Any], list[Change]] = {}
        for change in self.all_changes():
            found.setdefault(type(change), []).append(change)
        return found

    def changes_of(self, kind: type[C]) -> Sequence[C]:
        """The changes of one class, in game order."""
        return cast(Sequence[C], self._by_class.get(kind, ()))

    @cached_property
    def washed_out(self) -> frozenset[tuple[int, int]]:
        """The parts that goals washed out, each as its penalty and its place there."""
        ended = self.changes_of(PartEnded)
        return frozenset((change.penalty, change.index) for change in ended if change.fate == "washed out")

    @cached_property
    def periods(self) -> tuple[PeriodSpan, ...]:
        """The periods as far as they were played."""
        starts: dict[int, int] = {}
        for state in self.states:
            starts.setdefault(state.ice.period, state.ice.period_start)
        if not starts:
            return ()
        ends = [*list(starts.values())[1:], self.last.now]
        return tuple(PeriodSpan(period, start, end) for (period, start), end in zip(starts.items(), ends, strict=True))

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """All played time in stretches of one strength."""
        return segments(self.changes, self.periods)

    @cached_property
    def _starts(self) -> Mapping[int, int]:
        return {span.period: span.start for span in self.periods}

    def moment(self, period: int, tenth: int) -> Moment:
        """The moment at the played `tenth`, in `period`."""
        return moment_at(self.rules, period, tenth - self._starts.get(period, 0))

    def moment_of(self, change: Change) -> Moment:
        """When `change` happened."""
        return self.moment(change.period, change.at)

    @cached_property
    def penalties(self) -> Mapping[int, PenaltyAssessed]:
        """The penalties that count, by `seq`, in game order."""
        return {p.event.seq: p.event for p in self.placed if isinstance(p.event, PenaltyAssessed)}

    @cached_property
    def closing(self) -> GameClosed | None:
        """The event that closed the record; the last, if it was closed twice."""
        events = (placed.event for placed in reversed(self.placed))
        return next((event for event in events if isinstance(event, GameClosed)), None)

    @cached_property
    def assumed(self) -> frozenset[tuple[int, int]]:
        """The parts whose start was assumed to be the call: a running clock, and no faceoff written."""
        found: set[tuple[int, int]] = set()
        for changes in self.changes:
            resumptions = {change.at for change in changes if isinstance(change, PlayResumed) and change.assumed}
            found.update(
                (change.penalty, change.index)
                for change in changes
                if isinstance(change, PartStarted) and change.at in resumptions
            )
        return frozenset(found)

    @cached_property
    def _places(self) -> list[tuple[int, int]]:
        return [(state.ice.period, state.now - state.ice.period_start) for state in self.states]

    def state_at(self, period: int, played: int) -> GameState:
        """The state at `played` tenths of `period`, after everything that happened there, as if play resumed then."""
        state = self.state_as_it_is(period, played)
        return state if state.ice.over else if_play_resumed(state, self.rules)

    def state_as_it_is(self, period: int, played: int) -> GameState:
        """The state at `played` tenths of `period`, after everything that happened there; play may be stopped.

        A period that lies ahead is reached by playing on; what lies after a period's recorded end is that end.
        """
        index = bisect_right(self._places, (period, played)) - 1
        state = self.states[index] if index >= 0 else self.opening
        following = self.placed[index + 1] if index + 1 < len(self.placed) else None
        if state.ice.period < period:
            state = self._begin(state, period, ahead=following is None)
        tenth = state.ice.period_start + played
        if state.ice.ended and not state.in_play:
            tenth = min(tenth, state.now)
        if tenth > state.now:
            state = self._advanced(state, tenth, following)
        return state

    def _begin(self, state: GameState, period: int, *, ahead: bool) -> GameState:
        """The state when `period` begins.

        Periods that lie ahead are played out, past ones without events added no time.
        """
        while state.ice.period < period:
            state = begin_next_period(state, state.ice.period + 1 if ahead else period, self.rules, played_out=ahead)
        return state

    def _advanced(self, state: GameState, tenth: int, following: Placed | None) -> GameState:
        by_faceoff = (
            following is not None and following.event.kind == "faceoff" and following.period == state.ice.period
        )
        if by_faceoff and state.ice.running and state.ice.opened and not state.in_play:
            return advance_in_stoppage(state, tenth, self.rules)
        return advance(state, tenth, self.rules)[0]


def fold(header: GameOpened, placed: Iterable[Placed], rules: Ruleset) -> FoldedGame:
    """Fold the events of a game that count, in game order."""
    opening = state = begin(rules, header)
    script = tuple(placed)
    states: list[GameState] = []
    changes: list[tuple[Change, ...]] = []
    for one in script:
        state, changed = step(state, one, rules)
        states.append(state)
        changes.append(changed)
    return FoldedGame(header, rules, opening, script, tuple(states), tuple(changes))
