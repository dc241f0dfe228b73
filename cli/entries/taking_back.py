"""Why an entry is taken back: in words, since a number there is another entry, or how many."""

from __future__ import annotations

import re

from attrs import evolve

from .grammar import sentence
from .tokens import Cursor, quote

__all__ = ["UNDO_REASON", "VOID_REASON"]

_REASON = sentence("reason", usual="taken back")
_COUNTED = re.compile(r"[#x×-]?[0-9]", re.ASCII)
_ENTRY = re.compile(r"#?([0-9]+),?", re.ASCII)
_BETWEEN = frozenset({"and", "&", "+"})


def _words(cursor: Cursor) -> list[str]:
    return [token.word for token in cursor.tokens[cursor.position :]]


def _read_of_undo(cursor: Cursor) -> str:
    words = _words(cursor)
    first = words[1] if words[0] == "last" and len(words) > 1 else words[0]
    if _COUNTED.match(first) or words == ["all"]:
        meant = _ENTRY.fullmatch(words[0])
        tries = [f"void {meant[1]}"] if meant and int(meant[1]) != cursor.context.last_seq else []
        expected = "the end of the entry, or a reason in words, since undo takes back the entry before and no other"
        cursor.fail(expected, [*tries, "undo"], code="entry_target")
    return _REASON.read(cursor)


def _read_of_void(cursor: Cursor) -> str:
    if others := _entries(_words(cursor)):
        first = _ENTRY.fullmatch(cursor.word(-1))
        tries = [f"void {seq}" for seq in [*([first[1]] if first else []), *others]]
        expected = "the end of the entry, or a reason in words; each entry is taken back by itself"
        cursor.fail(expected, tries, code="entry_target")
    return _REASON.read(cursor)


def _entries(words: list[str]) -> list[str]:
    """The numbers of entries, where `words` are nothing else."""
    found = [_ENTRY.fullmatch(word) for word in words if word not in _BETWEEN]
    return [match[1] for match in found if match] if all(found) else []


def _write_of_void(text: str, words: frozenset[str]) -> str:
    return quote(text) if _entries(text.casefold().split()) else _REASON.write(text, words)


UNDO_REASON = evolve(_REASON, read=_read_of_undo)
VOID_REASON = evolve(_REASON, read=_read_of_void, write=_write_of_void)
