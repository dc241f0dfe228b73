"""How rulesets are spoken about in messages: what was found, and what was perhaps meant."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

__all__ = ["choices", "did_you_mean", "show"]

_MOST = 60


def show(value: Any) -> str:
    """`value` as it stands in a file, shortened."""
    import json

    text = json.dumps(value, ensure_ascii=False, default=str)
    return text if len(text) <= _MOST else f"{text[: _MOST - 1]}…"


def choices(words: Iterable[str]) -> str:
    """``'"stop" or "running"'``."""
    *before, last = (f'"{word}"' for word in words)
    return f"{', '.join(before)} or {last}" if before else last


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """``'Did you mean "youth-14u"?'``, or ``""`` where nothing is near."""
    import difflib

    close = difflib.get_close_matches(word.lower(), list(known), n=1)
    return f'Did you mean "{close[0]}"?' if close else ""
