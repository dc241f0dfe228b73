"""Lines of bytes from a stream, none longer than a bound."""

from __future__ import annotations

from collections.abc import Iterator
from typing import BinaryIO

__all__ = ["LONGEST", "lines_of"]

LONGEST = 1024 * 1024
"""The most bytes of a line, its newline not counted."""

_BLOCK = 65536


def lines_of(stream: BinaryIO, longest: int = LONGEST) -> Iterator[bytes | None]:
    """Each line without its newline, the last one also where it has none; None for one that is too long.

    Nothing is read ahead of the line that is asked for but what the stream's own buffer holds, and of a line that is
    too long nothing is kept.
    """
    while line := stream.readline(longest + 1):
        if line.endswith(b"\n"):
            yield line[:-1]
        elif len(line) <= longest:
            yield line
        else:
            _skip_the_rest(stream)
            yield None


def _skip_the_rest(stream: BinaryIO) -> None:
    """Read on to the end of the line."""
    while (block := stream.readline(_BLOCK)) and not block.endswith(b"\n"):
        pass
