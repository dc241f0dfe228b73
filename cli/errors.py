"""How a command ends: the exit codes, and what stops one with a message instead of a traceback."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator
from typing import NoReturn

__all__ = ["ANSWER_IS_NO", "INTERRUPTED", "NOT_SHOWN", "WRONG_INPUT", "guarded", "once_written", "refuse"]

ANSWER_IS_NO = 1
NOT_SHOWN = 1
"""It was written, and what is said about it could not be: never 2, or a script would write it again."""
WRONG_INPUT = 2
INTERRUPTED = 130


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
        told = _told(error)
        if told is None:
            raise
        complain(told)
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
        return str(error)
    if isinstance(error, OSError):
        return f"{error.filename or 'A file'}: {error.strerror or error}."
    if os.environ.get("RINKFOLD_TRACEBACK"):
        return None
    return (
        f"A fault in rinkfold itself: {type(error).__name__}: {error}. Please report it with the log and the command; "
        "with RINKFOLD_TRACEBACK=1 set, the next run says where it is."
    )


def leave(code: int) -> NoReturn:
    """End the program; what is still to be written to a closed pipe is let go."""
    with contextlib.suppress(OSError, ValueError):
        sys.stdout.flush()
    raise SystemExit(code)
