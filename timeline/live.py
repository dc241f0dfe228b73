"""A game while it is played: one event at a time in, the changes it made out.

The events are kept as written; the script puts them in game order, and the state after every event is kept, so that
a late entry or a correction folds again only from where it takes its place. The answers are those of `replay`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from attrs import evolve, frozen

from .events import Amend, Event, GameOpened, TeamSheet, Void
from .fold.changes import Change
from .fold.state import GameState
from .fold.step import begin, step
from .folded import FoldedGame
from .game import Game, Instant, RecordedGame, ruleset_needed
from .pinned import effective_header, pinned_rules
from .problems import Problem, ProblemsFound
from .record import check_events
from .rules import Ruleset
from .script import Script

__all__ = ["Feed", "LiveGame", "Recorded"]


@frozen
class Recorded:
    """An event that was recorded, and what is different since."""

    event: Event
    changes: tuple[Change, ...]


class LiveGame:
    """A game that takes one event at a time.

    >>> from rinkfold import rulesets
    >>> from rinkfold.timeline import PenaltyAssessed
    >>> live = LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons")
    >>> call = PenaltyAssessed(seq=2, period=1, clock="9:15", team="home", player="12", parts=("minor",))
    >>> changes = live.record(call)
    >>> live.if_play_resumed.strength.label
    '4 on 5'
    """

    def __init__(self, events: Sequence[Event], rules: Ruleset | None = None) -> None:
        """A game with these events, the first of which opens it.

        Without `rules` the ruleset pinned in the first line is used.

        Raises:
            ProblemsFound: with the code ``ruleset_needed``, if neither is there.
        """
        self._events: list[Event] = list(events)
        self._given = rules
        self._history: list[Recorded] = []
        self._start()

    @classmethod
    def open(
        cls, rules: Ruleset, *, home: str | TeamSheet, away: str | TeamSheet, game: str = "live", **header: Any
    ) -> LiveGame:
        """A new game by `rules`; `header` are further fields of the first line."""
        from .knobs.pinning import pin

        opened = GameOpened(
            seq=1,
            format=1,
            game=game,
            ruleset=rules.name,
            pinned=pin(rules),
            home=home if isinstance(home, TeamSheet) else TeamSheet(name=home),
            away=away if isinstance(away, TeamSheet) else TeamSheet(name=away),
            **header,
        )
        return cls([opened], rules)

    @classmethod
    def of(cls, log: RecordedGame, rules: Ruleset | None = None) -> LiveGame:
        """The game of `log`, going on."""
        return cls(log.events, rules)

    def _start(self) -> None:
        """Fold everything from the first line."""
        rules = self._given if self._given is not None else pinned_rules(self._events)
        header = effective_header(self._events)
        if rules is None:
            raise ProblemsFound([ruleset_needed(header)])
        self.rules: Ruleset = rules
        self._header = header
        self._script = Script.build(self._events, rules)
        self._opening = begin(rules, header)
        self._states: list[GameState] = []
        self._changes: list[tuple[Change, ...]] = []
        self._game: Game | None = None
        self._fold_from(0)

    def _fold_from(self, first: int) -> None:
        """Fold again from the place `first` of the script on."""
        del self._states[first:], self._changes[first:]
        state = self._states[-1] if self._states else self._opening
        for place in range(first, len(self._script.placed)):
            state, changes = step(state, self._script.placed[place], self.rules)
            self._states.append(state)
            self._changes.append(changes)
        self._game = None

    @property
    def events(self) -> tuple[Event, ...]:
        """Every event, in the order written."""
        return tuple(self._events)

    @property
    def next_seq(self) -> int:
        """The `seq` that the next event has."""
        return len(self._events) + 1

    def record(self, event: Event) -> tuple[Change, ...]:
        """Take one event in; what is different since, each change with its reason.

        For an event on time these are the changes that it made; for a late entry or a correction all changes of the
        game that were not so before. An event with the `seq` 0 gets the next one.

        Raises:
            ProblemsFound: the event does not fit the log; nothing was taken in.
        """
        event = evolve(event, seq=self.next_seq) if event.seq == 0 else event
        if problems := self._problems(event):
            raise ProblemsFound(problems)
        self._events.append(event)
        if touches_rules(event, self._events):
            before = self._changes
            self._start()
            first = 0
        else:
            first = self._script.append(event)
            before = self._changes[first:]
            self._fold_from(first)
        changes = _new(before, self._changes[first:])
        self._history.append(Recorded(event, changes))
        return changes

    def _problems(self, event: Event) -> list[Problem]:
        if event.seq != self.next_seq:
            message = f"The next event has the seq {self.next_seq}, found {event.seq}."
            return [Problem(code="sequence", message=message, seq=event.seq, field="seq")]
        if event.kind not in _POINTING and event.after is None and not self._closed:
            return []
        return [problem for problem in check_events([*self._events, event]) if problem.seq == event.seq]

    @property
    def _closed(self) -> bool:
        return self._states[-1].ice.closed if self._states else False

    @property
    def game(self) -> Game:
        """The game as recorded so far, to be asked like one that was replayed."""
        if self._game is None:
            folded = FoldedGame(
                self._header,
                self.rules,
                self._opening,
                tuple(self._script.placed),
                tuple(self._states),
                tuple(self._changes),
            )
            self._game = Game(folded, tuple(self._events))
        return self._game

    @property
    def now(self) -> Instant:
        """The game after its last event; in a stoppage what the board shows."""
        return self.game.now

    @property
    def if_play_resumed(self) -> Instant | None:
        """In a stoppage of a game that goes on: the game if play resumed now."""
        return self.game.if_play_resumed

    def at(self, moment: str) -> Instant:
        """The game at `moment`, for example ``"2 7:42"``."""
        return self.game.at(moment)

    def __iter__(self) -> Feed:
        """What was recorded since this object was made, and later what comes; see `Feed`."""
        return Feed(self._history)


class Feed(Iterator[Recorded]):
    """A subscription: gives what was recorded since it was last asked, and stops when there is no more for now.

    It can be asked again after that: ``for recorded in feed: …`` each time something may have come.
    """

    def __init__(self, history: Sequence[Recorded]) -> None:
        """A feed of `history`, from its beginning."""
        self._history = history
        self._given = 0

    def __next__(self) -> Recorded:
        """The next one."""
        if self._given >= len(self._history):
            raise StopIteration
        self._given += 1
        return self._history[self._given - 1]


_POINTING = frozenset({"void", "amend", "penalty_ended", "goal", "game_closed", "game_opened"})


def touches_rules(event: Event, events: Sequence[Event]) -> bool:
    """Whether `event` corrects the first line, or a correction of it."""
    target: Event | None = event
    while isinstance(target, Void | Amend):
        if target.target == 1:
            return True
        target = events[target.target - 1]
    return False


def _new(before: Sequence[tuple[Change, ...]], after: Sequence[tuple[Change, ...]]) -> tuple[Change, ...]:
    """The changes of `after` that were not among those of `before`."""
    if not before:
        return tuple(change for changes in after for change in changes)
    known = Counter(id_of(change) for changes in before for change in changes)
    new = []
    for changes in after:
        for change in changes:
            if known[id_of(change)] > 0:
                known[id_of(change)] -= 1
            else:
                new.append(change)
    return tuple(new)


def id_of(change: Change) -> tuple[object, ...]:
    """A change as a value that can be counted, its causing event apart, since another event may cause the same."""
    return (type(change), *(value for name, value in zip(change._fields, change, strict=True) if name != "seq"))
