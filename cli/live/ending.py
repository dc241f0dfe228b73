"""The server is told to end: by the system, or because its terminal was closed. Ctrl-C is uvicorn's own."""

from __future__ import annotations

import contextlib
import signal
from collections.abc import Callable, Iterator

__all__ = ["told_to_end"]

_NAMES = ("SIGTERM", "SIGHUP", "SIGBREAK")
"""Told to end; the terminal was closed; both on Windows. No system has them all."""


@contextlib.contextmanager
def told_to_end(end: Callable[[], None]) -> Iterator[None]:
    """Have `end` called where the program is told to end, instead of being ended on the spot.

    What it was started to ignore, as `nohup` does, it ignores.
    """
    numbers = [getattr(signal, name) for name in _NAMES if hasattr(signal, name)]
    before = {number: signal.getsignal(number) for number in numbers}
    heeded = [number for number in numbers if before[number] is not signal.SIG_IGN]
    for number in heeded:
        signal.signal(number, lambda number, frame: end())
    try:
        yield
    finally:
        for number in heeded:
            signal.signal(number, before[number])
