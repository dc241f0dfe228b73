"""Problems: what is wrong with outside data, as values with a place, an expectation and a remedy.

Doors collect every problem of a file and raise `ProblemsFound` once; one function, `render`, writes them for people.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal

from attrs import frozen

__all__ = ["Problem", "ProblemsFound", "Severity", "render"]

Severity = Literal["error", "warning", "note"]


@frozen(kw_only=True)
class Problem:
    """One thing that is wrong, where it is, and what to do.

    Attributes:
        severity: ``"error"``, ``"warning"`` or ``"note"``.
        code: a stable word for programs, for example ``"unknown_field"``.
        message: a sentence that says what is wrong, what was found and what was expected.
        fix: what to do or to write instead; empty when the message says it.
        file, line, seq, field: the place, as far as it is known. `line` counts from 1.
    """

    code: str
    message: str
    fix: str = ""
    severity: Severity = "error"
    file: str | None = None
    line: int | None = None
    seq: int | None = None
    field: str | None = None


class ProblemsFound(Exception):
    """Raised at the edge of the API, with everything that was wrong; as text one problem a line.

    Attributes:
        problems: every problem that was found, in the order of the file.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("\n".join(render(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[Any, ...]:
        """Made again from its problems, with the notes that were added: a copy, or the same in another process."""
        added = {name: value for name, value in vars(self).items() if name != "problems"}
        return type(self), (self.problems,), added or None


def render(problem: Problem) -> str:
    """`problem` as people read it: ``FILE:LINE: field: message`` and the remedy.

    >>> render(Problem(code="x", message="The line is empty.", fix="Delete it.", file="g.jsonl", line=3))
    'g.jsonl:3: The line is empty. Delete it.'
    """
    place = problem.file or ""
    if problem.line is not None:
        place = f"{place}:{problem.line}" if place else f"line {problem.line}"
    elif problem.seq is not None:
        place = f"{place}: event {problem.seq}" if place else f"event {problem.seq}"
    parts = [place] if place else []
    if problem.severity != "error":
        parts.append(problem.severity)
    if problem.field:
        parts.append(problem.field)
    text = f"{problem.message} {problem.fix}".strip()
    return ": ".join([*parts, text])
