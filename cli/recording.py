"""Entries taken in one after another, each read against the game that the ones before made."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from attrs import define, evolve, field, frozen

from ..timeline.events import Amend, Event
from ..timeline.game import Game
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.record import Log, append, check_events
from ..timeline.script.corrections import effective
from ..timeline.views.findings import Finding
from .corrected import corrected
from .effects import Entered, effect_line
from .entries import parse_entry
from .opening import replayed
from .standing import context_of
from .typed_door import Typed, questions, refusals
from .warned import NOTHING_NEW, Warned, new_findings

if TYPE_CHECKING:
    from .two_games import TwoGames

__all__ = ["Recording", "Taken", "entries_of", "now"]


@frozen
class Taken:
    """An entry that was understood: in whole words, as an event with its `seq`, and what it does.

    Attributes:
        different: for a correction or a late entry what it makes different in the rest of the game.
        stamped: its `recorded_at` is the time at which it was taken in, and was not typed.
        new: what is newly found with it; nothing where nobody types.
    """

    understood: str
    event: Event
    effect: str
    different: TwoGames | None = None
    stamped: bool = False
    new: Warned = NOTHING_NEW

    def warned(self, *, written: bool) -> Warned:
        """What is newly found with it, with remedies for an entry that is `written` or is not."""
        return self.new if written else self.new.unwritten(self.event.seq)


@define
class Recording:
    """A log and what is to be appended to it.

    Attributes:
        log: the log as it was read.
        game: the game with everything taken in so far.
        taken: what is to be appended.
        typed: whether somebody types, who is asked about what looks like a slip, and told what `check` would find.
    """

    log: Log
    game: Game
    names: bool = False
    taken: list[Taken] = field(factory=list)
    typed: bool = False
    _findings: tuple[Finding, ...] | None = None

    @classmethod
    def of(cls, log: Log, *, names: bool = False, typed: bool = False) -> Recording:
        """The recording that goes on with `log`."""
        return cls(log, replayed(log), names, typed=typed)

    def take(self, text: str) -> Taken | Sequence[Problem]:
        """Take in one entry; where it is not understood or does not fit, nothing changes and its problems are given."""
        entry = parse_entry(text, context_of(self.game))
        if isinstance(entry, Problem):
            return [entry]
        event = evolve(entry.event, seq=len(self.game.events) + 1, recorded_at=entry.event.recorded_at or now())
        try:
            event, game = self._with(event)
        except ProblemsFound as found:
            return [_unplaced(problem, event) for problem in found.problems]
        new, findings = self._looked_at(event, game) if self.typed else (NOTHING_NEW, None)
        if self.typed:
            typed = Typed(event, self.game, game, new)
            if refused := refusals(typed):
                return refused
            new = evolve(new, warnings=(*questions(typed), *new.warnings))
        counts = effective(game.events, event.seq) or event
        effect = effect_line(Entered(counts, self.game, game, self.names))
        stamped = entry.event.recorded_at is None
        one = Taken(entry.understood, event, effect, corrected(event, self.game, game), stamped, new)
        self.game, self._findings = game, findings
        self.taken.append(one)
        return one

    def _looked_at(self, event: Event, game: Game) -> tuple[Warned, tuple[Finding, ...]]:
        """What is newly found in `game`, which is this one with `event`; and everything that is."""
        before = self.game.findings if self._findings is None else self._findings
        findings = game.findings
        return new_findings(before, findings, event.seq), findings

    def _with(self, event: Event) -> tuple[Event, Game]:
        """The event as it is to be written, and the game with it.

        Raises:
            ProblemsFound: it does not fit the log, or names a ruleset that is not there.
        """
        if isinstance(event, Amend) and event.target == 1:
            from ..rulesets import pinned_anew

            event = evolve(event, changes=pinned_anew(self.game, event.changes))
        events = (*self.game.events, event)
        if problems := check_events(events):
            raise ProblemsFound(problems)
        return event, replayed(evolve(self.log, events=events))

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


def _unplaced(problem: Problem, event: Event) -> Problem:
    """`problem` without its place, where that is the entry itself."""
    return evolve(problem, seq=None, field=None) if problem.seq in (None, event.seq) else problem


def now() -> str:
    """The time as `recorded_at` has it."""
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
