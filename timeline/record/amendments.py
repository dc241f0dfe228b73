"""Check that corrections fit what they correct.

A correction counts unless it is voided itself, and with the amendments of it applied. Since corrections point backwards
only, one pass from the last to the first settles which of them count.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from attrs import Factory, define, evolve

from ..events import Amend, Event, Void
from ..problems import Problem, ProblemsFound
from .codec import amended

__all__ = ["check_amendments", "voided_by"]

_CORRECTIONS = (Void, Amend)
Look = Callable[[Event], Sequence[Problem]]


@define
class _InForce:
    """What the corrections come to.

    Attributes:
        events: each event by its seq.
        look: what an amended event is checked with, besides its shape.
        voided: the events that do not count.
        pending: for each event the amendments of it that count, the last one first.
    """

    events: Mapping[int, Event]
    look: Look
    voided: set[int] = Factory(set)
    pending: dict[int, list[Amend]] = Factory(dict)
    problems: list[Problem] = Factory(list)

    def settle(self, corrections: Sequence[Void | Amend]) -> None:
        """Go through `corrections` from the last to the first, then amend what is no correction."""
        for correction in reversed(corrections):
            if correction.seq not in self.voided:
                self._apply(self._as_amended(correction))
        for target in sorted(self.pending):
            if target in self.events and target not in self.voided:
                self._as_amended(self.events[target])

    def _apply(self, correction: Event) -> None:
        if isinstance(correction, Void):
            self.voided.add(correction.target)
        elif isinstance(correction, Amend):
            self.pending.setdefault(correction.target, []).append(correction)

    def _as_amended(self, event: Event) -> Event:
        for amendment in reversed(self.pending.pop(event.seq, [])):
            try:
                changed = amended(event, amendment.changes)
                wrong = [evolve(problem, field=f"changes.{problem.field}") for problem in self.look(changed)]
            except ProblemsFound as found:
                wrong = list(found.problems)
            self.problems.extend(self._placed(problem, amendment) for problem in wrong)
            event = event if wrong else changed
        return event

    def _placed(self, problem: Problem, amendment: Amend) -> Problem:
        """`problem` at the amendment, which may have got what is wrong by an amendment of its own."""
        as_written = self.events.get(amendment.seq) is amendment
        message = problem.message if as_written else f"As amended itself: {problem.message}"
        return evolve(problem, seq=amendment.seq, message=message)


def _nothing(_: Event) -> tuple[Problem, ...]:
    return ()


def _corrections(events: Iterable[Event]) -> list[Void | Amend]:
    return [event for event in events if isinstance(event, _CORRECTIONS)]


def voided_by(events: Sequence[Event]) -> set[int]:
    """The events that do not count, after all `events`."""
    state = _InForce({}, _nothing)
    state.settle(_corrections(events))
    return state.voided


def check_amendments(events: Sequence[Event], look: Look) -> Iterator[Problem]:
    """Check that each amendment fits its target by fields and types, and that what counts in the end is whole.

    Args:
        events: the log, in the order written.
        look: what every amended event is checked with besides.
    """
    corrections = _corrections(events)
    if not corrections:
        return
    by_seq = {event.seq: event for event in events}
    ill_fitting = [problem for each in corrections for problem in _fits(each, by_seq)]
    yield from ill_fitting
    reported = {problem.seq for problem in ill_fitting}
    state = _InForce(by_seq, look)
    state.settle([each for each in corrections if each.seq not in reported and not look(each)])
    yield from state.problems


def _fits(correction: Void | Amend, by_seq: Mapping[int, Event]) -> Iterator[Problem]:
    if isinstance(correction, Void):
        return
    target = by_seq.get(correction.target)
    if target is None:
        return
    try:
        amended(target, correction.changes, whole=False)
    except ProblemsFound as found:
        yield from (evolve(problem, seq=correction.seq) for problem in found.problems)
