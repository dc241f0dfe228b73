"""Where answers are written: standard output for answers, standard error for everything else.

Colour and rules only on a terminal. A stream that cannot show a character gets a plain one. What a log says steers no
terminal: control characters and what turns the direction of a text are shown as a mark; data for programs stays as it
is. A pipe that was closed is silent, and the command runs on to its end.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import sys
from collections.abc import Iterable, Mapping
from typing import Any, TextIO

from attrs import frozen

from .errors import refuse
from .visible import visible

__all__ = ["PLAIN", "Style", "complain", "say", "say_data", "say_json", "say_json_line", "style_of"]

PLAIN: Mapping[int, str] = str.maketrans(
    {"→": "->", "·": "-", "–": "-", "—": "-", "…": "...", "─": "-", "×": "x", "’": "'", "“": '"', "”": '"'}
)
"""What stands in for the characters of our own texts where the stream's encoding has them not."""

_COLOURS = re.compile("(\x1b\\[[012]m)")
"""The sequences of `Style`: heading, faint, and back to plain."""
_IN_A_LINE = str.maketrans("\n\r", "\ufffd\ufffd")


@frozen
class Style:
    """How a text is set off: `colour` with the terminal's own sequences, `rules` with lines drawn under headings."""

    colour: bool = False
    rules: bool = False

    def strong(self, text: str) -> str:
        """`text` as a heading."""
        return f"\x1b[1m{text}\x1b[0m" if self.colour else text

    def faint(self, text: str) -> str:
        """`text` that may be passed over."""
        return f"\x1b[2m{text}\x1b[0m" if self.colour else text

    def ruled(self, heading: str) -> list[str]:
        """A heading, with a line drawn under it on a terminal."""
        return [self.strong(heading), *(["─" * len(heading)] if self.rules else [])]


def style_of(stream: TextIO | None = None) -> Style:
    """The style that `stream`, standard output if none is given, can show and its reader wants."""
    terminal = _is_terminal(stream or sys.stdout)
    wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return Style(colour=terminal and wanted and _understands_colour(), rules=terminal)


def _is_terminal(stream: TextIO | None) -> bool:
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def _understands_colour() -> bool:
    """Whether the terminal obeys colour sequences; the old Windows console shows them as rubbish."""
    return os.name != "nt" or bool(os.environ.get("WT_SESSION") or os.environ.get("TERM"))


def say(lines: Iterable[str]) -> None:
    """Write an answer, line by line, to standard output."""
    colour = style_of().colour
    _write(sys.stdout, "".join(f"{_legible(line, colour=colour).rstrip()}\n" for line in lines))


def say_data(text: str) -> None:
    """Write a table for programs to standard output as it is."""
    _write(sys.stdout, text)


def _legible(line: str, *, colour: bool) -> str:
    """A line in which nothing steers the terminal but our own colours, and those only where there are some."""
    parts = _COLOURS.split(line) if colour else [line]
    return "".join(part if index % 2 else visible(part).translate(_IN_A_LINE) for index, part in enumerate(parts))


def say_json(answer: Mapping[str, Any]) -> None:
    """Write an answer for programs to standard output; ASCII, so that it is the same under every code page."""
    import json

    _write(sys.stdout, json.dumps(answer, indent=2, allow_nan=False) + "\n")


def say_json_line(answer: Mapping[str, Any]) -> bool:
    """Write an answer as one line of JSON and have it on its way; whether anybody still reads."""
    import json

    return _write(sys.stdout, json.dumps(answer, allow_nan=False) + "\n")


def complain(text: str) -> None:
    """Write a problem or a note to standard error."""
    _write(sys.stderr, f"{visible(text).replace(chr(13), chr(0xFFFD))}\n")


def _write(stream: TextIO | None, text: str) -> bool:
    """Write `text` and flush it; False where nobody reads it any more."""
    if stream is None:  # started without it
        return False
    try:
        stream.write(_showable(text, stream.encoding or "ascii"))
        stream.flush()
    except OSError as error:
        _let_go(stream)
        if not _reader_has_gone(error):
            refuse("not_written", f"The answer cannot be written: {error.strerror}.")
        return False
    return True


def _reader_has_gone(error: OSError) -> bool:
    return isinstance(error, BrokenPipeError) or (os.name == "nt" and error.errno == errno.EINVAL)


def _showable(text: str, encoding: str) -> str:
    """`text` in characters that `encoding` has."""
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return text.translate(PLAIN).encode(encoding, "replace").decode(encoding)
    return text


def _let_go(stream: TextIO) -> None:
    """Have what is left, and what the interpreter flushes at its end, go nowhere."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
