"""How rulesets are spoken about in messages: what was found, and what was perhaps meant."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

__all__ = ["choices", "closest", "did_you_mean", "show"]

_MOST = 60


def show(value: Any) -> str:
    """`value` as it stands in a file, shortened; nothing in it steers a terminal."""
    import json

    text = json.dumps(value, ensure_ascii=False, default=str)
    text = "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in text)
    return text if len(text) <= _MOST else f"{text[: _MOST - 1]}…"


def choices(words: Iterable[str]) -> str:
    """``'"stop" or "running"'``."""
    *before, last = (f'"{word}"' for word in words)
    return f"{', '.join(before)} or {last}" if before else last


def closest(word: str, known: Iterable[str]) -> str:
    """The one of `known` that is spelled most like `word`; ``""`` where none is near."""
    import difflib

    return next(iter(difflib.get_close_matches(word.lower(), list(known), n=1)), "")


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """``'Did you mean "youth-14u"?'``, or ``""`` where nothing is near."""
    near = closest(word, known)
    return f'Did you mean "{near}"?' if near else ""
