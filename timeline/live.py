"""A game while it is played: one event at a time in, the changes it made out.

The events are kept as written; the script puts them in game order, and a late entry or a correction folds again only
from where it takes its place. Every state is a checkpoint: the state after each event is kept. States share what did
not change, so those of a whole game take less than 100 kilobytes: keeping only some would save nothing worth having.
The answers are those of `replay`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from attrs import evolve, frozen

from .events import Amend, Event, GameClosed, GameOpened, TeamSheet, Void
from .fold.changes import Change
from .fold.state import GameState
from .fold.step import begin, step
from .folded import FoldedGame
from .game import Game, Instant, RecordedGame, ruleset_needed, told_briefly
from .moment import Moment
from .pinned import OF_RULES, effective_header
from .problems import Problem, ProblemsFound
from .record.checks import AFTER_CLOSING, check_events, check_targets_of
from .record.codec import event_from_line, event_to_line, no_event
from .record.events_written import check_written
from .rules import Ruleset
from .script import Script

__all__ = ["Feed", "LiveGame", "Recorded"]


@frozen
class Recorded:
    """An event that was recorded, and what is different since.

    Attributes:
        event: as recorded, with its `seq`.
        changes: each with its reason.
        withdrawn: changes that were so before and are no more; only a late entry and a correction have some. Their
            tenths and the numbers of their penalties' parts are those of the game before it.
    """

    event: Event
    changes: tuple[Change, ...]
    withdrawn: tuple[Change, ...] = ()


class LiveGame:
    """A game that takes one event at a time.

    It is no value: `record` changes it, and so it is not safe to be used by several threads at once. Hold one lock
    around `record` and around what is asked of the live game itself; what was asked for, the `game`, its answers and
    the events, are values, and may be read by every thread without one.

    ``copy.copy(live)`` is a fork, for what-if: it goes on by itself, and what is recorded in it is in it alone. A live
    game can be pickled; what comes back has the same events and rules, and nothing for `Feed` yet.

    Attributes:
        rules: the ruleset it is played by; a correction of the first line can bring another.

    >>> from rinkfold import rulesets
    >>> from rinkfold.timeline import PenaltyAssessed
    >>> live = LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons")
    >>> call = PenaltyAssessed(seq=2, period=1, clock="9:15", team="home", player="12", parts=("minor",))
    >>> changes = live.record(call)
    >>> live.if_play_resumed.strength.label
    '4 on 5'
    """

    def __init__(self, events: Sequence[Event], rules: Ruleset | None = None) -> None:
        """A game with these events, the first of which opens it; they are taken as they are, like those of a log read.

        Args:
            events: the log so far.
            rules: what it is played by; without them, what is pinned in the log. A correction that pins another
                ruleset counts either way.

        Raises:
            ProblemsFound: with the code ``ruleset_needed``, if no rules are given and none are pinned; the rules are
                not right, or the first line names others than are pinned in it; or the events do not begin with the
                opening, or are not numbered 1, 2, 3 …
            TypeError: one of them is no event.
        """
        self._events: list[Event] = list(events)
        check_written(self._events)
        self._given = None if rules is None else _right(rules)
        self._history: list[Recorded] = []
        self._first_header = header = effective_header(self._events)
        self._start(header, self._rules_by(header))

    @classmethod
    def open(
        cls,
        rules: Ruleset,
        *,
        home: str | TeamSheet,
        away: str | TeamSheet,
        game: str = "live",
        settings: Mapping[str, Any] | None = None,
        **header: Any,
    ) -> LiveGame:
        """A new game.

        Args:
            rules: what it is played by.
            home: the team's name, or its whole sheet.
            away: likewise.
            game: the game's id.
            settings: single knobs set otherwise for this game, by dotted names: ``{"lengths.minor": "1:30"}``. They are
                set in `rules`; the whole that comes of it is pinned in the first line, and is what is applied.
            header: further fields of the first line, see `GameOpened`; what `create` would refuse is refused here.

        Raises:
            ProblemsFound: the ruleset, a setting or a field is not right, or there is none of this name.
        """
        from .opening import first_line

        opened, applied = first_line(rules, {**header, "game": game, "home": home, "away": away}, settings)
        return cls([opened], applied)

    @classmethod
    def of(cls, log: RecordedGame, rules: Ruleset | None = None) -> LiveGame:
        """The game of `log`, going on, by `rules` or by what is pinned in the log.

        Raises:
            ProblemsFound: with the code ``ruleset_needed``, if neither is there.
        """
        return cls(log.events, rules)

    def _rules_by(self, header: GameOpened) -> Ruleset:
        """The rules of the game when its first line has come to `header`."""
        first = self._first_header
        if self._given is not None and all(getattr(header, name) == getattr(first, name) for name in OF_RULES):
            return self._given
        if header.pinned is None:
            problem = ruleset_needed(header)
            fix = "Pin it in the amendment: changes=rulesets.pinned_anew(live, changes)."
            raise ProblemsFound([problem if header is first else evolve(problem, seq=self.next_seq, fix=fix)])
        from .knobs.pinning import unpin

        return unpin(header.pinned)

    def _start(self, header: GameOpened, rules: Ruleset) -> None:
        """Fold everything from the first line."""
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
    def header(self) -> GameOpened:
        """The first line as it counts, its amendments applied."""
        return self._header

    @property
    def events(self) -> tuple[Event, ...]:
        """Every event, in the order written."""
        return tuple(self._events)

    @property
    def next_seq(self) -> int:
        """The `seq` that the next event has."""
        return len(self._events) + 1

    def record(self, event: Event) -> tuple[Change, ...]:
        """Take one `event` in; what is different since, each change with its reason.

        For an event on time these are the changes that it made; for a late entry or a correction all changes of the
        game that were not so before; what was so and is no more has `last_recorded`. An event with the `seq` 0 gets
        the next one.

        Raises:
            ProblemsFound: the event is not right or does not fit the log; nothing was taken in.
            TypeError: it is no event; `event_from_dict` makes one of an object.
        """
        event = self._checked(event)
        header = self._header_with(event)
        rules = self.rules if header is self._header else self._rules_by(header)
        self._events.append(event)
        before = self._changes
        if header is self._header:
            first = self._script.append(event)
            before = before[first:]
            self._fold_from(first)
        else:
            first = 0
            self._start(header, rules)
        changes = _not_among(before, self._changes[first:])
        withdrawn = _not_among(self._changes[first:], before) if before else ()
        self._history.append(Recorded(event, changes, withdrawn))
        return changes

    @property
    def last_recorded(self) -> Recorded | None:
        """What was recorded last, with what it changed and what it withdrew; None before the first `record`."""
        return self._history[-1] if self._history else None

    def _checked(self, event: Event) -> Event:
        """`event` with its `seq`, as reading its line gives it.

        Raises:
            ProblemsFound: it is not right by itself, or does not fit what is there.
        """
        if not isinstance(event, Event):
            raise TypeError(no_event(event))
        event = evolve(event, seq=self.next_seq) if event.seq == 0 else event
        event = event_from_line(event_to_line(event).decode())
        if problems := self._problems(event):
            raise ProblemsFound(problems)
        return event

    def _problems(self, event: Event) -> list[Problem]:
        if event.seq != self.next_seq:
            message = f"The next event has the seq {self.next_seq}, found {event.seq}."
            return [Problem(code="out_of_sequence", message=message, seq=event.seq, field="seq")]
        if isinstance(event, GameOpened):
            message = "The game is open already."
            return [Problem(code="opened_again", message=message, fix="Amend event 1.", seq=event.seq, field="kind")]
        refused_if_closed = self._closed and not isinstance(event, AFTER_CLOSING)
        if refused_if_closed or isinstance(event, Void | Amend | GameClosed):
            return check_events([*self._events, event])
        return check_targets_of(event, range(1, self.next_seq + 1))

    @property
    def _closed(self) -> bool:
        return self._states[-1].ice.closed if self._states else False

    def _header_with(self, event: Event) -> GameOpened:
        """The first line as it counts with one more `event`; the same object where that changes nothing."""
        if not isinstance(event, Void | Amend):
            return self._header
        header = effective_header([*self._events, event])
        return self._header if header == self._header else header

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

    def at(self, moment: str | Moment) -> Instant:
        """The game at `moment`, for example ``"2 7:42"``; see `Game.at`."""
        return self.game.at(moment)

    def _check(self) -> None:
        """Raise an AssertionError unless everything is as a replay of the whole log has it; for tests."""
        from .folded import fold

        self._script._check()
        whole = fold(self._header, Script.build(self._events, self.rules).placed, self.rules)
        mine = self.game.folded
        assert self._header == effective_header(self._events)
        assert self.rules == self._rules_by(self._header)
        assert mine.opening == whole.opening
        assert mine.placed == whole.placed
        assert mine.states == whole.states
        assert mine.changes == whole.changes

    def __iter__(self) -> Feed:
        """What was recorded in this object so far, and later what comes; see `Feed`.

        The events that a game is made with, by ``LiveGame(events)`` or `of`, are not told: they stand in `events`.
        """
        return Feed(self._history)

    def __copy__(self) -> LiveGame:
        """A fork: the same events and rules, going on by itself."""
        return type(self)(self._events, self._given)

    def __deepcopy__(self, memo: dict[int, Any]) -> LiveGame:
        """The same, since events and rules are values."""
        return self.__copy__()

    def __reduce__(self) -> tuple[Any, ...]:
        """Made again from its events and rules."""
        return type(self), (self.events, self._given)

    def __repr__(self) -> str:
        """Which game, and how far it is."""
        return told_briefly("LiveGame", self.game)


class Feed(Iterator[Recorded]):
    """A subscription, made by ``iter(live)``: gives what was recorded, and stops when there is no more for now.

    It begins with the first event that was recorded in the live game, and each event is given once. It can be asked
    again after it stopped: ``for recorded in feed: …`` each time something may have come.
    """

    def __init__(self, history: Sequence[Recorded]) -> None:
        """A feed of `history`, from its beginning; made for you by ``iter(live)``."""
        self._history = history
        self._given = 0

    def __next__(self) -> Recorded:
        """The next one."""
        if self._given >= len(self._history):
            raise StopIteration
        self._given += 1
        return self._history[self._given - 1]


def _right(rules: Ruleset) -> Ruleset:
    from .knobs.checking import right_rules

    return right_rules(rules)


def _not_among(known: Sequence[tuple[Change, ...]], these: Sequence[tuple[Change, ...]]) -> tuple[Change, ...]:
    """The changes of `these` that are not among those that are `known`."""
    if not known:
        return tuple(change for changes in these for change in changes)
    left = Counter(id_of(change) for changes in known for change in changes)
    others = []
    for changes in these:
        for change in changes:
            if left[id_of(change)] > 0:
                left[id_of(change)] -= 1
            else:
                others.append(change)
    return tuple(others)


def id_of(change: Change) -> tuple[object, ...]:
    """A change as a value that can be counted, its causing event apart, since another event may cause the same."""
    return (type(change), *(value for name, value in zip(change._fields, change, strict=True) if name != "seq"))
