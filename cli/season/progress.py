"""How far it is, on standard error; only where somebody looks at it."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterable, Iterator
from typing import TextIO, TypeVar

__all__ = ["progress_line", "shown_progress", "watched"]

T = TypeVar("T")
WIDTH = 24
EVERY = 0.1
"""Seconds between two lines."""


def watched(wanted: bool) -> bool:
    """Whether progress is to be shown: it is wanted, and standard error is a terminal."""
    try:
        return wanted and sys.stderr is not None and sys.stderr.isatty()
    except ValueError:  # closed
        return False


def shown_progress(
    items: Iterable[T], total: int, stream: TextIO, clock: Callable[[], float] = time.monotonic
) -> Iterator[T]:
    """`items`, with a line on `stream` that says how many of `total` came; it is wiped at the end."""
    began = last = clock()
    length = 0
    try:
        for count, item in enumerate(items, 1):
            yield item
            now = clock()
            if now - last >= EVERY:
                last = now
                line = progress_line(count, total, now - began)
                stream.write(f"\r{line.ljust(length)}")
                stream.flush()
                length = len(line)
    finally:
        if length:
            stream.write(f"\r{' ' * length}\r")
            stream.flush()


def progress_line(count: int, total: int, seconds: float) -> str:
    """``"[######------------------]  1,250 of 5,000 games, 410 a second, 9 s left"``."""
    done = WIDTH * count // total
    rate = count / seconds if seconds > 0 else 0.0
    left = f", {(total - count) / rate:.0f} s left" if rate else ""
    bar = "#" * done + "-" * (WIDTH - done)
    return f"[{bar}] {count:>{len(f'{total:,}')},} of {total:,} games, {rate:.0f} a second{left}"
