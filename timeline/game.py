"""A whole game replayed, and the answers that it gives.

`replay` folds a log; `Game` answers: skaters and boxes at any instant, the life of every penalty, goals,
goalkeepers, totals. Nothing here changes anything: a query is a pure function of the folded game.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any, Protocol

from attrs import frozen

from .bounds import MOST_PERIOD
from .clock import BadReading, parse_reading, played_in_period
from .events import Event, GameOpened
from .fold.changes import Change
from .fold.state import GameState
from .fold.step import if_play_resumed
from .folded import FoldedGame, fold
from .moment import Moment, PeriodSpan, typed_moment
from .pinned import effective_header, pinned_rules
from .problems import Problem, ProblemsFound
from .rules import Ruleset
from .script import Script
from .views.strength import Segment, Strength, strength_of

if TYPE_CHECKING:  # each answer's view is imported when it is first asked for
    from .views.box import Sitting
    from .views.findings import Finding
    from .views.goalkeepers import GoalieLine
    from .views.goals import GoalLine
    from .views.penalties import PenaltyLife
    from .views.summary import Summary

__all__ = ["Game", "Instant", "replay"]


class RecordedGame(Protocol):
    """What `replay` needs of a log: its first line and all its events in the order written."""

    @property
    def header(self) -> GameOpened:
        """The first line."""

    @property
    def events(self) -> Sequence[Event]:
        """Every event, the first line included."""


@frozen(slots=False, eq=False)
class Instant:
    """A game at one moment, after everything that happened at its reading; a value, equal to the same of an equal game.

    Attributes:
        game: the game that was asked.
        at: the period and the reading that it was asked about.
        state: the engine's state as if play resumed now, where it is stopped.
        as_it_is: the engine's state itself.
    """

    game: Game
    at: Moment
    state: GameState
    as_it_is: GameState

    def __eq__(self, other: object) -> bool:
        """Equal to the same moment of an equal game."""
        return isinstance(other, Instant) and self._key() == other._key() and self.game == other.game

    def __hash__(self) -> int:
        """By its moment."""
        return hash((self.at, self.game))

    def _key(self) -> tuple[Moment, GameState, GameState]:
        return self.at, self.state, self.as_it_is

    def __copy__(self) -> Instant:
        """Itself: it is a value."""
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Instant:
        """Itself: it is a value."""
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        """Asked again of its game."""
        now = self.as_it_is is self.game.folded.last and self.state is self.game.folded.standing
        return _asked, (self.game, None if now else self.at)

    def __repr__(self) -> str:
        """When and of which game, and the strength."""
        return f"<Instant {str(self.at)!r} of {self.game.header.game!r}: {self.strength.label}>"

    @property
    def strength(self) -> Strength:
        """Skaters on the ice, extra attackers included."""
        return strength_of(self.state)

    @cached_property
    def before(self) -> Strength:
        """The strength that lasted up to this moment; at the opening faceoff the one that it opens with."""
        return self.game._before(self.state)

    @cached_property
    def box(self) -> tuple[Sitting, ...]:
        """Who sits, until when, and why; home first."""
        from .views.box import box

        folded = self.game.folded
        return box(self.state, folded.rules, folded.penalties, self._assumed(), self.as_it_is)

    def _assumed(self) -> frozenset[tuple[int, int]]:
        """Parts whose start is assumed.

        Those that no faceoff started under a running clock, and in a stoppage those called at it.
        """
        folded = self.game.folded
        if not self.state.ice.running or self.as_it_is.in_play:
            return folded.assumed
        started = {
            part.order
            for side in (self.state.home, self.state.away)
            for chain in side.slots + side.off
            if (part := chain.running) is not None
            and part.left == part.length
            and part.ends_at == self.state.now + part.left
        }
        return folded.assumed | started


@frozen(slots=False, eq=False)
class Game:
    """A replayed game; ask it. A value: two are equal if their events and rules are.

    Attributes:
        folded: the engine's own: every state and change. It may differ from one release to the next.
        events: all events as written, those included that do not count.
    """

    folded: FoldedGame
    events: tuple[Event, ...]

    def __eq__(self, other: object) -> bool:
        """Equal to a game of the same events, played by equal rules."""
        return isinstance(other, Game) and (
            self is other or (self.events == other.events and self.rules == other.rules)
        )

    def __hash__(self) -> int:
        """By the game's id and how many events it has."""
        return hash((self.header.game, len(self.events)))

    def __copy__(self) -> Game:
        """Itself: it is a value."""
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Game:
        """Itself: it is a value."""
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        """Folded again from its events by its rules."""
        return _game_of, (self.events, self.rules)

    def __repr__(self) -> str:
        """Which game, and how far it is."""
        return told_briefly("Game", self)

    @property
    def header(self) -> GameOpened:
        """The first line of the log."""
        return self.folded.header

    @property
    def rules(self) -> Ruleset:
        """The ruleset that was applied."""
        return self.folded.rules

    def at(self, moment: str | Moment) -> Instant:
        """The game at `moment`, for example ``"2 7:42"`` or ``"OT 3:10"``, after everything that happened there.

        In a stoppage it is answered as if play resumed then. A moment ahead of the record is what follows if nothing
        else happens. What was typed must be a time of this game; a `Moment` is taken as it is, and where its reading is
        outside its period it is the nearer end: on a board that counts down, 16:00 of a period of 15:00 is its start.

        Raises:
            BadReading: `moment` is not a period and a reading, or under these rules there is none such.
        """
        if isinstance(moment, Moment) and moment.period > MOST_PERIOD:
            raise BadReading(str(moment))
        rules = self.folded.rules
        if not isinstance(moment, Moment):
            moment = typed_moment(moment, rules, self.folded.last.ice.period)
        length = rules.period_length(moment.period)
        played = played_in_period(parse_reading(moment.clock), length, rules.game.reading)
        as_it_is = self.folded.state_as_it_is(moment.period, played)
        state = as_it_is if as_it_is.ice.over else if_play_resumed(as_it_is, rules)
        return Instant(self, moment, state, as_it_is)

    def strength_at(self, tenth: int) -> Strength:
        """Skaters on the ice from the played `tenth` on, extra attackers included; for whoever counts in tenths.

        The same as ``at`` the moment there, and quicker: it is looked up in `strength_segments`. At the end of a period
        that is the start of the next. Ahead of the record it is what follows if nothing else happens.

        Args:
            tenth: tenths of a second of played time since the opening faceoff.

        Raises:
            ValueError: `tenth` is negative.
        """
        if tenth < 0:
            raise ValueError(f"Expected tenths played since the opening faceoff, from 0 up, found {tenth}.")
        if tenth >= self.folded.last.now:
            return self._strength_ahead(tenth)
        return self.strength_segments[bisect_right(self._segment_starts, tenth) - 1].strength

    def _strength_ahead(self, tenth: int) -> Strength:
        """The strength at a tenth that the record has not reached, or ends at."""
        ice = self.folded.last.ice
        period, played = ice.period, tenth - ice.period_start
        length = self.folded.last.now - ice.period_start if ice.ended else self.rules.period_length(period)
        while played >= length and not ice.over:
            period, played = period + 1, played - length
            length = self.rules.period_length(period)
        return strength_of(self.folded.state_at(period, played))

    def _before(self, state: GameState) -> Strength:
        """The strength that lasted up to the tenth of `state`."""
        played = state.now - state.ice.period_start
        if state.now > self.folded.last.now and played > 0:  # it lies ahead
            return strength_of(self.folded.state_at(state.ice.period, played - 1))
        index = bisect_left(self._segment_starts, state.now) - 1
        return self.strength_segments[index].strength if index >= 0 else strength_of(state)

    @cached_property
    def _segment_starts(self) -> list[int]:
        return [segment.start for segment in self.strength_segments]

    @cached_property
    def now(self) -> Instant:
        """The game after its last event; in a stoppage what the board shows."""
        return self._last(self.folded.standing)

    @property
    def in_play(self) -> bool:
        """Whether play is on after the last event."""
        return self.folded.last.in_play

    @property
    def over(self) -> bool:
        """Whether the game was decided or its record closed."""
        return self.folded.last.ice.over

    @property
    def if_play_resumed(self) -> Instant | None:
        """In a stoppage of a game that goes on: the game if play resumed now."""
        return None if self.in_play or self.over else self.now

    def _last(self, state: GameState) -> Instant:
        last = self.folded.last
        return Instant(self, self.folded.moment(last.ice.period, last.now), state, last)

    @cached_property
    def strength_segments(self) -> tuple[Segment, ...]:
        """All played time in stretches of one strength: cut at period ends, without gaps, none of length zero."""
        return self.folded.segments

    @property
    def periods(self) -> tuple[PeriodSpan, ...]:
        """The periods as far as they were played."""
        return self.folded.periods

    @cached_property
    def penalties(self) -> tuple[PenaltyLife, ...]:
        """The life of every penalty that counts, in game order."""
        from .views.penalties import penalty_lives

        return penalty_lives(self.folded)

    @property
    def goals(self) -> tuple[GoalLine, ...]:
        """Every goal that counts with its strength, in game order; a scored penalty shot is one."""
        return self.summary.goals

    @property
    def goalies(self) -> tuple[GoalieLine, ...]:
        """Every goalkeeper's line."""
        return self.summary.goalies

    @cached_property
    def summary(self) -> Summary:
        """The totals."""
        from .views.summary import summarize

        return summarize(self.folded)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What in the record cannot be right, is missing or looks wrong; errors, warnings, notes."""
        from .views.findings import findings

        return findings(self)

    @property
    def changes(self) -> tuple[tuple[Change, ...], ...]:
        """What each event that counts changed, in game order, each with its reason; one tuple an event."""
        return self.folded.changes


def replay(log: RecordedGame, rules: Ruleset | None = None) -> Game:
    """Fold `log` by `rules`, or by the ruleset pinned in the log.

    The time it takes grows with the number of events.

    >>> from rinkfold import rulesets
    >>> from rinkfold.timeline import parse_log
    >>> log = parse_log(
    ...     b'{"seq":1,"kind":"game_opened","format":1,"game":"a","ruleset":"adult",'
    ...     b'"home":{"name":"Larks"},"away":{"name":"Herons"}}'
    ... )
    >>> replay(log, rulesets.of(log)).now.strength.label
    '5 on 5'

    Raises:
        ProblemsFound: with the code ``ruleset_needed``, if neither is there; or the rules are not right.
    """
    chosen = _right(rules) if rules is not None else pinned_rules(log.events)
    if chosen is None:
        raise ProblemsFound([ruleset_needed(log.header)])
    return _game_of(tuple(log.events), chosen)


def _game_of(events: tuple[Event, ...], rules: Ruleset) -> Game:
    script = Script.build(events, rules)
    return Game(fold(effective_header(events), script.placed, rules), events)


def _asked(game: Game, at: Moment | None) -> Instant:
    return game.now if at is None else game.at(at)


def told_briefly(kind: str, game: Game) -> str:
    """A game in one short line, for whoever looks at it in a debugger."""
    last = game.folded.last
    how = "over" if game.over else "in play" if game.in_play else "stopped"
    count = f"{len(game.events)} event{'' if len(game.events) == 1 else 's'}"
    return f"<{kind} {game.header.game!r}: {count}, {game.now.at} {how}, {last.home.score} to {last.away.score}>"


def _right(rules: Ruleset) -> Ruleset:
    from .knobs.checking import right_rules  # here: a log with its ruleset pinned needs it checked once, as it is read

    return right_rules(rules)


def ruleset_needed(header: GameOpened) -> Problem:
    return Problem(
        code="ruleset_needed",
        message=f"The log names the ruleset {header.ruleset!r} but has no pinned copy of it.",
        fix="Give the rules: replay(log, rulesets.of(log)).",
        seq=1,
        field="pinned",
    )
