"""How a command ends: the exit codes, and what stops one with a message instead of a traceback."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from ..timeline.problems import Problem

__all__ = ["ANSWER_IS_NO", "INTERRUPTED", "NOT_SHOWN", "WRONG_INPUT", "guarded", "once_written", "refuse", "told"]

ANSWER_IS_NO = 1
NOT_SHOWN = 1
"""It was written, and what is said about it could not be: never 2, or a script would write it again."""
WRONG_INPUT = 2
INTERRUPTED = 130

FEW = 5
"""Problems that are told of a file that is no log."""
NO_LOG = frozenset({"not_json", "not_utf8", "not_an_object", "missing_kind", "unknown_kind", "not_opened"})
"""What is wrong with the first line of such a file."""


def refuse(code: str, message: str, fix: str = "", *, file: str | None = None, line: int | None = None) -> NoReturn:
    """Stop because of what was typed or handed in.

    Raises:
        ProblemsFound: always, with one problem.
    """
    from ..timeline.problems import Problem, ProblemsFound

    raise ProblemsFound([Problem(code=code, message=message, fix=fix, file=file, line=line)])


@contextlib.contextmanager
def guarded() -> Iterator[None]:
    """Tell what goes wrong inside on standard error, and end the program with the exit code for it.

    What belongs to the command line itself, wrong usage and an exit that a command asks for, passes through.
    """
    from typer import Exit

    from .paper import complain

    try:
        yield
    except KeyboardInterrupt:
        complain("Interrupted.")
        raise Exit(INTERRUPTED) from None
    except Exception as error:
        said = _told(error)
        if said is None:
            raise
        complain(said)
        raise Exit(WRONG_INPUT) from None


@contextlib.contextmanager
def once_written(what: str) -> Iterator[None]:
    """For all that follows once `what` is in its file: what goes wrong there is told, and that it was written."""
    from typer import Exit

    from ..timeline.problems import ProblemsFound
    from .paper import complain

    try:
        yield
    except Exception as error:
        told = _told(error)
        if told is None:
            raise
        with contextlib.suppress(ProblemsFound):  # nothing can be said on standard error either
            complain(f"{what}; its answer could not be shown. {told}")
        raise Exit(NOT_SHOWN) from None


def _told(error: Exception) -> str | None:
    """What people read about `error`; None where the command line has its own words for it."""
    from typer import Abort, Exit

    from ..timeline.problems import ProblemsFound

    if isinstance(error, (Exit, Abort)) or hasattr(error, "exit_code"):
        return None
    if isinstance(error, ProblemsFound):
        return "\n".join(told(error.problems))
    if isinstance(error, OSError):
        return f"{error.filename or 'A file'}: {error.strerror or error}."
    if os.environ.get("RINKFOLD_TRACEBACK"):
        return None
    return (
        f"A fault in rinkfold itself: {type(error).__name__}: {error}. Please report it with the log and the command; "
        "with RINKFOLD_TRACEBACK=1 set, the next run says where it is."
    )


def told(problems: Sequence[Problem]) -> list[str]:
    """The problems as people read them, all of them; of a file that is no log only the first `FEW`."""
    from ..timeline.problems import render

    no_logs = {one.file for one in problems if one.line == 1 and one.code in NO_LOG}
    shown: list[str] = []
    for file in dict.fromkeys(one.file for one in problems):
        lines = [render(one) for one in problems if one.file == file]
        more = len(lines) - FEW if file in no_logs else 0
        shown += [*lines[:FEW], f"{file}: and {more} more. It is no game log."] if more > 0 else lines
    return shown


def leave(code: int) -> NoReturn:
    """End the program; what is still to be written to a closed pipe is let go."""
    with contextlib.suppress(OSError, ValueError):
        sys.stdout.flush()
    raise SystemExit(code)
