"""An entry tried on the game, before it is written: what it says, what it does, and what `check` would say."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from attrs import evolve, frozen

from ...timeline.events import Amend, Event
from ...timeline.game import Game
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record import event_to_dict, event_to_line
from ...timeline.views.findings import Finding
from ..answers.check import finding_answer
from ..corrected import is_correction
from ..entries import parse_entry
from ..recording import Recording, Taken, now
from ..standing import context_of
from ..typed_door import Typed, questions
from ..warned import Warned, new_findings
from .differing import differing
from .doors import signature
from .keys import Role
from .table import Table

__all__ = ["LONGEST", "Trial", "read", "signed", "tried"]

LONGEST = 4_000
"""Characters that an entry may have; the longest of the example game has 100."""


@frozen
class Trial:
    """An entry that was understood, the game with it, and what is newly found in that.

    Attributes:
        version: how many events the log has without it.
    """

    version: int
    taken: Taken
    game: Game
    findings: tuple[Finding, ...]
    warned: Warned

    @property
    def event(self) -> Event:
        """The event that it enters."""
        return self.taken.event

    @property
    def is_on_time(self) -> bool:
        """Whether it adds to the end of the game, and neither corrects it nor comes late."""
        return not is_correction(self.event, self.game)

    def unmet(self, overridden: Sequence[str]) -> tuple[Finding, ...]:
        """The warnings that nobody has overridden."""
        return tuple(one for one in self.warned.warnings if one.code not in overridden)

    def picture(self) -> dict[str, Any]:
        """The trial for the page."""
        event = self.event
        reading = None if event.clock is None else {"period": event.period, "clock": event.clock}
        return {
            "version": self.version,
            "understood": self.taken.understood,
            "kind": event.kind,
            "event": event_to_dict(event),
            "reading": reading,
            "effect": self.taken.effect,
            "different": differing(self.taken.different),
            "warnings": [finding_answer(one) for one in self.warned.warnings],
            "hints": [finding_answer(one) for one in self.warned.hints],
        }


def tried(table: Table, text: str, rulesets: Callable[[], Sequence[str]]) -> Trial | Sequence[Problem]:
    """`text` tried on the game at `table`; the problems where it is not understood or does not fit.

    `rulesets` gives those that a correction of the first line may name; looking for them takes its time.
    """
    log, game = table.log, table.game
    assert log is not None
    assert game is not None
    if len(text) > LONGEST:
        message = f"The entry has {len(text)} characters; {LONGEST} are the most."
        return [Problem(code="entry_too_long", message=message, fix="Write a shorter one.")]
    if _may_name_a_ruleset(text) and (problem := _names_a_file(read(text, game), rulesets())):
        return [problem]
    recording = Recording(log, game)
    taken = recording.take(text)
    if not isinstance(taken, Taken):
        return taken
    try:
        event_to_line(taken.event)
    except ProblemsFound as found:  # half a character cannot be written
        return [evolve(problem, seq=None) for problem in found.problems]
    after = recording.game.findings
    new = new_findings(table.findings, after, taken.event.seq)
    asked = questions(Typed(taken.event, game, recording.game, new))
    warned = new.unwritten(taken.event.seq)
    warned = evolve(warned, warnings=(*asked, *warned.warnings))
    return Trial(len(log.events), taken, recording.game, after, warned)


def read(text: str, game: Game) -> Event | Problem:
    """The event that `text` enters, not tried yet."""
    entry = parse_entry(text, context_of(game))
    return entry if isinstance(entry, Problem) else entry.event


def _may_name_a_ruleset(text: str) -> bool:
    """Whether it is worth while to look; within JSON a letter may be written as its number behind a backslash."""
    return "ruleset" in text.casefold() or "\\" in text


def _names_a_file(event: Event | Problem, rulesets: Sequence[str]) -> Problem | None:
    """What is wrong where a correction names a ruleset that is not known: a page never has a file read."""
    if not isinstance(event, Amend):
        return None
    named = list(_values_of(event.changes, "ruleset"))
    if all(name in rulesets for name in named):
        return None
    message = f"There is no ruleset {str(named[0])[:40]!r} to choose from here."
    fix = f"There are {', '.join(rulesets)}. A file of your own is named when the page is started: --ruleset FILE."
    return Problem(code="unknown_ruleset", message=message, fix=fix)


def _values_of(value: Any, name: str) -> Iterator[Any]:
    """Every value that stands under `name`, however deep."""
    if isinstance(value, Mapping):
        if name in value:
            yield value[name]
        for one in value.values():
            yield from _values_of(one, name)


def signed(taken: Taken, role: Role, overridden: Sequence[Finding]) -> Event:
    """The event of `taken` as it is written: when and by whom, and which warnings were overridden.

    Only the writer may sign with another name, or write down what was entered at another time.
    """
    event = taken.event
    said = [f"written although: {one.message} ({one.code})" for one in overridden]
    note = "; ".join([*([event.note] if event.note else []), *said]) or None
    return evolve(
        event,
        note=note,
        by=signature(role) or event.by,
        recorded_at=now() if taken.stamped or role.name != "write" else event.recorded_at,
    )
