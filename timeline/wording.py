"""How messages list words, show what was found, and say what was perhaps meant."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

__all__ = ["choices", "closest", "did_you_mean", "listed", "nearest", "show", "show_name"]

_MOST = 60


def listed(words: Iterable[str]) -> str:
    """``"a"``, ``"a and b"``, ``"a, b and c"``; ``""`` of none."""
    *before, last = [*words] or [""]
    return f"{', '.join(before)} and {last}" if before else last


def choices(words: Iterable[str]) -> str:
    """``'"stop" or "running"'``."""
    *before, last = (f'"{word}"' for word in words)
    return f"{', '.join(before)} or {last}" if before else last


def show(value: Any) -> str:
    """`value` as it stands in a file, shortened: what was found.

    Nothing from a file may move the cursor of a terminal, so what cannot be printed is escaped.
    """
    import json

    try:
        text = json.dumps(value, ensure_ascii=False, default=str)
        text.encode()
    except (ValueError, TypeError):
        text = ascii(value)
    text = show_name(text)
    return text if len(text) <= _MOST else f"{text[: _MOST - 1]}…"


def show_name(name: str) -> str:
    """A field's name as a message gives it: as it stands in the file, but for what cannot be printed in one line."""
    return "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in name)


def nearest(word: str, known: Iterable[str], most: int = 1) -> list[str]:
    """At most so many of `known` that are spelled like `word`, the likest first."""
    import difflib  # only where something is wrong already

    return difflib.get_close_matches(word.lower(), list(known), n=most)


def closest(word: str, known: Iterable[str]) -> str:
    """The one of `known` that is spelled most like `word`; ``""`` where none is near."""
    return next(iter(nearest(word, known)), "")


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """``'Did you mean "youth-14u"?'``, or ``""`` where nothing is near."""
    near = closest(word, known)
    return f'Did you mean "{near}"?' if near else ""
