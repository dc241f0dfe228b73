"""The answers of the live page's server as JSON, and what refuses a request."""

from __future__ import annotations

import contextlib
import json
import os
import traceback
from collections.abc import Iterable, Mapping
from typing import Any

from starlette.responses import Response

from ...timeline.problems import Problem, ProblemsFound
from ..entries.context import EntryProblem
from ..paper import complain

__all__ = ["Refusal", "answer", "fault", "json_bytes", "problem_answer", "problems_refusal", "refused", "tell_fault"]


class Refusal(Exception):
    """A request that is refused: the status, a word for programs, plain words for people, and what the page needs."""

    def __init__(self, status: int, error: str, message: str, fix: str = "", **more: Any) -> None:
        super().__init__(message)
        self.status, self.error, self.message, self.fix, self.more = status, error, message, fix, more

    def response(self) -> Response:
        """The answer."""
        body = {"ok": False, "error": self.error, "message": self.message, "fix": self.fix, **self.more}
        headers = {"retry-after": "1"} if self.status == 429 else {}
        return Response(json_bytes(body), self.status, headers, "application/json")


def refused(status: int, error: str, message: str) -> Response:
    """The answer to a request that is refused."""
    return Refusal(status, error, message).response()


def tell_fault(error: Exception) -> str:
    """Say in the terminal that the server itself is wrong, and where; the sentence for the page."""
    told = f"A fault in rinkfold itself: {type(error).__name__}: {error}."
    with contextlib.suppress(ProblemsFound):  # nobody reads the terminal any more, which is no reason to stop
        complain(f"{told} Please report it with the log; with RINKFOLD_TRACEBACK=1 set, the next run says where it is.")
    if os.environ.get("RINKFOLD_TRACEBACK"):
        traceback.print_exception(error)
    return told


def fault(error: Exception) -> Response:
    """The answer where the server itself is wrong."""
    message = f"{tell_fault(error)} What was acknowledged is in the log."
    return Refusal(500, "fault", message, "Reload the page, and look whether the entry is there.").response()


def answer(body: Mapping[str, Any]) -> Response:
    """The answer to a request that was granted."""
    return Response(json_bytes({"ok": True, **body}), media_type="application/json")


def json_bytes(value: Any) -> bytes:
    """`value` as JSON in UTF-8, in one line; half a character, which an entry may hold, becomes a question mark."""
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode(errors="replace")


def problem_answer(problem: Problem) -> dict[str, Any]:
    """A problem of what was typed; `offers` are whole entries that would be understood."""
    offers = list(problem.offers) if isinstance(problem, EntryProblem) else []
    found = {"code": problem.code, "message": problem.message, "fix": problem.fix, "offers": offers}
    return found if problem.field is None else {**found, "field": problem.field}


def problems_refusal(problems: Iterable[Problem] | ProblemsFound, error: str = "problems", **more: Any) -> Refusal:
    """The refusal of what is not right, all of it told."""
    found = tuple(problems.problems if isinstance(problems, ProblemsFound) else problems)
    return Refusal(422, error, found[0].message, found[0].fix, problems=[problem_answer(one) for one in found], **more)
