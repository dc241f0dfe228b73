"""Whether a log is whole: its lines, its chain, and its head code."""

from __future__ import annotations

from typing import Any

import attrs
from attrs import frozen

from ..timeline.problems import Problem, ProblemsFound
from ..timeline.record import Log, is_head_code_of, read_log
from .answers.common import ANSWER_FORMAT, problem_answer

__all__ = ["Verdict", "verified", "verify_answer", "verify_lines"]

CANNOT_BE_READ = frozenset({"no_file", "not_permitted", "file_trouble"})
"""Problems of the file and not of what is in it: there is nothing to give a verdict on."""


@frozen(kw_only=True)
class Verdict:
    """What was found.

    Attributes:
        log: the log, None for one that cannot be taken apart.
        against: the head code asked for, and `same` whether it is the log's.
        problems: what speaks against the log, and notes.
    """

    file: str
    log: Log | None
    against: str | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether nothing but notes was found."""
        return self.log is not None and all(problem.severity == "note" for problem in self.problems)


def verified(path: str, *, against: str | None = None, require_chain: bool = False) -> Verdict:
    """The verdict on the log at `path`.

    Raises:
        ProblemsFound: the file itself cannot be read.
    """
    try:
        log = read_log(path)
    except ProblemsFound as found:
        if any(problem.code in CANNOT_BE_READ for problem in found.problems):
            raise
        return Verdict(file=path, log=None, against=against, problems=found.problems)
    problems = [_weighed(note, require_chain) for note in log.notes]
    if against is not None and not is_head_code_of(against, log.head):
        problems.append(_other_code(path, against, log))
    return Verdict(file=path, log=log, against=against, problems=tuple(problems))


def _weighed(note: Problem, require_chain: bool) -> Problem:
    """A torn tail is a fault here; no chain is one only where it is required."""
    if note.code == "unchained" and not require_chain:
        return note
    return attrs.evolve(note, severity="error")


def _other_code(path: str, against: str, log: Log) -> Problem:
    message = f"Expected the head code {against}, found {log.head_code}."
    fix = "The log was changed or went on after the code was written down, or the code belongs to another log."
    return Problem(code="other_head_code", message=message, fix=fix, file=path)


def verify_lines(verdict: Verdict) -> list[str]:
    """The verdict for people; the problems are told apart from it."""
    log = verdict.log
    if log is None:
        return [f"{verdict.file}: not whole."]
    chain = "chain unbroken" if log.chained else "no chain"
    state = "whole" if verdict.whole else "not whole"
    lines = [f"{verdict.file}: {state}, {_events(len(log.events))}, {chain}.", f"Head code {log.head_code}"]
    return [*lines, "It is the code asked for."] if verdict.against is not None and verdict.whole else lines


def _events(count: int) -> str:
    return "1 event" if count == 1 else f"{count} events"


def verify_answer(verdict: Verdict) -> dict[str, Any]:
    """The verdict for programs.

    ``{"whole", "events", "chained", "head_code", "against", "problems": [problem]}``, a problem ``{"code", "severity",
    "file", "line", "seq", "field", "message", "fix"}``; what is not known of a broken log is null.
    """
    log = verdict.log
    return {
        "rinkfold": ANSWER_FORMAT,
        "game": log.header.game if log else None,
        "whole": verdict.whole,
        "events": len(log.events) if log else None,
        "chained": log.chained if log else None,
        "head_code": log.head_code if log else None,
        "against": verdict.against,
        "problems": [problem_answer(problem) for problem in verdict.problems],
    }
