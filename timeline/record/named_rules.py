"""Check that the rules that a first line names are those that the game is played by.

Answers say "adult, with lengths.minor 1:00" by `ruleset` and `settings`, and the engine computes by what is `pinned`.
So the two must agree, as written and after every correction.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from attrs import evolve

from ..events import Amend, Event, GameOpened, Void
from ..problems import Problem, ProblemsFound
from ..wording import show

__all__ = ["check_effective_rules", "check_named_rules"]

_CORRECTIONS = (Void, Amend)


def check_named_rules(header: GameOpened, *, whole: bool = False) -> list[Problem]:
    """What is wrong with the rules that `header` names, each problem with a field such as ``settings.lengths.minor``.

    Args:
        header: the first line, as written or as it counts.
        whole: look at the whole of what is pinned too, which else is left to whoever makes a ruleset of it.
    """
    if header.pinned is None and not header.settings:
        return []
    return list(_problems(header, whole))


def _problems(header: GameOpened, whole: bool) -> Iterator[Problem]:
    from ..knobs.pinning import unpin  # here: most logs have no settings, and reading them needs no knobs
    from ..knobs.values import read_values

    values, wrong = read_values(header.settings or {})
    yield from (evolve(problem, seq=header.seq, field=f"settings.{problem.field}") for problem in wrong)
    if header.pinned is None:
        return
    name = header.pinned.get("name")
    if type(name) is str and name != header.ruleset:
        yield _another_name(header, name)
    if not values and not whole:
        return
    try:
        rules = unpin(header.pinned)
    except ProblemsFound as found:
        yield from (evolve(problem, seq=header.seq) for problem in found.problems)
        return
    yield from _not_applied(header, values, rules)


def _not_applied(header: GameOpened, values: Mapping[str, Any], rules: Any) -> Iterator[Problem]:
    from ..knobs.values import written
    from ..rules import knob_value

    for name, value in values.items():
        applied = knob_value(rules, name)
        if applied != value:
            yield Problem(
                code="rules_disagree",
                message=f"The game is said to be played with {show(written(value, name))}, "
                f"and what is pinned has {show(written(applied, name))}.",
                fix="Pin the ruleset with its settings in it, or leave the setting out.",
                seq=header.seq,
                field=f"settings.{name}",
            )


def _another_name(header: GameOpened, pinned: Any) -> Problem:
    return Problem(
        code="rules_disagree",
        message=f"The game is said to be played by {show(header.ruleset)}, and what is pinned is {show(pinned)}.",
        fix="Name the ruleset that is pinned, or pin the one that is named.",
        seq=header.seq,
        field="ruleset",
    )


def check_effective_rules(events: Sequence[Event], *, before: int | None = None) -> list[Problem]:
    """What corrections make wrong with the rules of the log `events`, told of the last correction that does so.

    Args:
        events: the whole log.
        before: how many of the events were there before the others were entered, if they are to be checked as entries:
            what was pinned must not be lost by them, since the ruleset may not be found again.
    """
    last = next((event for event in reversed(events) if _bears_on_header(event, events)), None)
    if last is None:
        return []
    from ..pinned import effective_header

    header = effective_header(events)
    problems = [_of_correction(problem, last) for problem in check_named_rules(header, whole=True)]
    if not problems and before is not None and _is_lost(header, events, before):
        problems = [_not_pinned(last)]
    return problems


def _is_lost(header: GameOpened, events: Sequence[Event], before: int) -> bool:
    """Whether the rules are others than as written and than they were, and are pinned nowhere."""
    from ..pinned import effective_header

    known = (_rules_in(events[0]), _rules_in(effective_header(events[:before])))
    return header.pinned is None and _rules_in(header) not in known


def _rules_in(header: Event) -> tuple[Any, ...]:
    return tuple(getattr(header, name) for name in ("ruleset", "settings", "pinned"))


def _bears_on_header(event: Event, events: Sequence[Event]) -> bool:
    """Whether a correction leads to the first line, by what it corrects as that was written."""
    while isinstance(event, _CORRECTIONS) and 1 <= event.target < event.seq:
        if event.target == 1 or "target" in getattr(event, "changes", ()):
            return True
        event = events[event.target - 1]
    return False


def _of_correction(problem: Problem, last: Event) -> Problem:
    """`problem` of the first line as it counts, at the correction that made it so."""
    field = problem.field or ""
    by_changes = isinstance(last, Amend) and last.target == 1 and field.partition(".")[0] in last.changes
    return evolve(
        problem,
        message=problem.message if by_changes else f"It makes the first line wrong ({field}): {problem.message}",
        fix=problem.fix if by_changes else "Amend event 1 instead, with the ruleset pinned that is meant.",
        seq=last.seq,
        field=f"changes.{field}" if by_changes else "target",
    )


def _not_pinned(correction: Event) -> Problem:
    """The problem of a correction after which nobody knows whether the rules of the game are found again."""
    return Problem(
        code="ruleset_needed",
        message="The correction changes the rules of the game, and no copy of the new ones is pinned.",
        fix="Pin it in the amendment: changes=rulesets.pinned_anew(log, changes).",
        seq=correction.seq,
        field="changes.pinned" if isinstance(correction, Amend) else "target",
    )
