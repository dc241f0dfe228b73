"""All logs of a folder summarized, by several processes, in the order of their names."""

from __future__ import annotations

import contextlib
import gc
import itertools
import os
import signal
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

from ..errors import refuse
from .game_row import game_row
from .summaries import GameSummary

__all__ = ["logs_in", "number_of_jobs", "summaries"]

SUFFIX = ".jsonl"
AT_ONCE = 16
"""Games that a process is given in one go: few enough to share the work evenly, and to keep what waits small."""
AHEAD = 3
"""How many of these each process may be ahead of what was taken in."""
WORTH_A_PROCESS = 4 * AT_ONCE
_FIGURES = 9
MOST_JOBS = 60  # more than that Windows cannot wait for


def logs_in(folder: str) -> list[str]:
    """The logs in `folder` and the folders in it, as paths from there with ``/``, in the order of their names.

    Raises:
        ProblemsFound: there is no such folder, it cannot be read, or there is no log in it.
    """
    if not Path(folder).is_dir():
        what = "is a file, not a folder" if Path(folder).exists() else "is not there"
        refuse("no_folder", f"The folder {what}.", "Name the folder that the logs are in.", file=folder)
    found = sorted(_relative(folder, place, name) for place, name in _walk(folder) if name.endswith(SUFFIX))
    if not found:
        refuse("no_games", f"No game is in this folder: no file ends with {SUFFIX}.", file=folder)
    return found


def _walk(folder: str) -> Iterator[tuple[str, str]]:
    def stop(error: OSError) -> None:
        raise error

    for place, folders, names in os.walk(folder, onerror=stop):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from ((place, name) for name in names if not name.startswith("."))


def _relative(folder: str, place: str, name: str) -> str:
    return Path(place, name).relative_to(folder).as_posix()


def number_of_jobs(typed: str | None) -> int:
    """How many processes were asked for; as many as there are processors where nothing was.

    Raises:
        ProblemsFound: what was typed is no number from 1 up.
    """
    if typed is None:
        return _processors()
    figures = typed.isascii() and typed.isdigit() and len(typed) <= _FIGURES
    if not (figures and 0 < int(typed) <= MOST_JOBS):
        refuse("bad_jobs", f"--jobs {typed[:20]!r} is no number of processes.", f"Write one from 1 to {MOST_JOBS}.")
    return int(typed)


def _processors() -> int:
    """How many processors this process may use."""
    with contextlib.suppress(AttributeError):  # not on every system
        return len(os.sched_getaffinity(0)) or 1
    return os.cpu_count() or 1


def summaries(folder: str, files: Sequence[str], jobs: int, *, names: bool = False) -> Iterator[GameSummary]:
    """The summary of each of `files`, in their order.

    With more than one of `jobs` as many processes are started, if there are games enough to be worth it. However many
    games there are, only a few wait to be taken.

    Raises:
        ProblemsFound: a process was ended from outside.
    """
    jobs = min(jobs, -(-len(files) // WORTH_A_PROCESS))
    if jobs <= 1:
        yield from _rows(folder, files, names)
        return
    with ProcessPoolExecutor(jobs, initializer=_prepare) as pool:
        waiting: deque[Future[list[GameSummary]]] = deque()
        try:
            for some in _batches(files):
                waiting.append(pool.submit(_listed, folder, some, names))
                if len(waiting) > AHEAD * jobs:
                    yield from waiting.popleft().result()
            while waiting:
                yield from waiting.popleft().result()
        except BrokenProcessPool:
            refuse("process_lost", "A process that was reading games was ended from outside.", "Try --jobs 1.")
        finally:
            for future in waiting:
                future.cancel()


def _batches(files: Sequence[str]) -> Iterator[list[str]]:
    rest = iter(files)
    while some := list(itertools.islice(rest, AT_ONCE)):
        yield some


def _listed(folder: str, files: Sequence[str], names: bool) -> list[GameSummary]:
    made = list(_rows(folder, files, names))
    gc.collect()
    return made


def _rows(folder: str, files: Sequence[str], names: bool) -> Iterator[GameSummary]:
    """The summaries one by one; a file is called by its path in the folder, in what is wrong with it too."""
    for file in files:
        yield game_row(Path(folder, file), _legible(file), names=names)


def _legible(file: str) -> str:
    """The name of a file in characters that every table can hold; what of it is none is marked."""
    return file.encode("utf-8", "surrogateescape").decode("utf-8", "replace")


def _prepare() -> None:
    """In a process of the pool: an interrupt is for the first process alone.

    Games leave no garbage that counting does not find, so it is looked for only between two batches.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.freeze()
    gc.disable()
