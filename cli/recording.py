"""Entries taken in one after another, each read against the game that the ones before made."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime

from attrs import define, evolve, field, frozen

from ..timeline.events import Event
from ..timeline.game import Game
from ..timeline.problems import Problem
from ..timeline.record import Log, append, check_events
from ..timeline.script.corrections import effective
from .effects import Entered, effect_line
from .entries import parse_entry
from .opening import replayed
from .standing import context_of

__all__ = ["Recording", "Taken", "entries_of"]


@frozen
class Taken:
    """An entry that was understood: in whole words, as an event with its `seq`, and what it does."""

    understood: str
    event: Event
    effect: str


@define
class Recording:
    """A log and what is to be appended to it.

    Attributes:
        log: the log as it was read.
        game: the game with everything taken in so far.
        taken: what is to be appended.
    """

    log: Log
    game: Game
    names: bool = False
    taken: list[Taken] = field(factory=list)

    @classmethod
    def of(cls, log: Log, *, names: bool = False) -> Recording:
        """The recording that goes on with `log`."""
        return cls(log, replayed(log), names)

    def take(self, text: str) -> Taken | Sequence[Problem]:
        """Take in one entry; where it is not understood or does not fit, nothing changes and its problems are given."""
        entry = parse_entry(text, context_of(self.game))
        if isinstance(entry, Problem):
            return [entry]
        event = evolve(entry.event, seq=len(self.game.events) + 1, recorded_at=entry.event.recorded_at or _now())
        events = (*self.game.events, event)
        if problems := [problem for problem in check_events(events) if problem.seq == event.seq]:
            return [evolve(problem, seq=None, field=None) for problem in problems]
        game = replayed(evolve(self.log, events=events))
        counts = effective(events, event.seq) or event
        one = Taken(entry.understood, event, effect_line(Entered(counts, self.game, game, self.names)))
        self.game = game
        self.taken.append(one)
        return one

    def write(self) -> tuple[Event, ...]:
        """Append what was taken in, all of it or nothing.

        Raises:
            ProblemsFound: the log has grown meanwhile, or cannot be written.
        """
        events = [one.event for one in self.taken]
        return append(
            self.log.name,
            events,
            expected_seq=len(self.log.events),
            expected_head=self.log.head,
            known=self.log.events,
        )


def _now() -> str:
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def entries_of(arguments: Sequence[str], recording: Recording) -> list[str]:
    """The entries that the arguments of a command are: each one, or all together one that the shell took apart.

    They are one entry only where the first is a single word, and not all are entries by themselves.
    """
    first, *rest = arguments
    if not rest or " " in first.strip():
        return list(arguments)
    trial = Recording(recording.log, recording.game)
    understood = [isinstance(trial.take(argument), Taken) for argument in arguments]
    if all(understood) or (understood[0] and any(" " in argument.strip() for argument in rest)):
        return list(arguments)
    return [" ".join(arguments)]
