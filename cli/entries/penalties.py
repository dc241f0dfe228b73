"""The words of a penalty: who, the parts as they are announced, and what for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from ...timeline.events import PartKind, PenaltyAssessed
from .grammar import Rest, Slot
from .texts import read_text, write_text
from .tokens import Cursor, quote
from .values import NUMBER
from .words import FILLERS, PARTS

__all__ = ["INFRACTION", "PARTS_SLOT", "WHO_SLOT", "read_parts", "write_parts"]

Parts = tuple[PartKind, ...]
_PIECE = re.compile(r"\+|[^+]+")
_LONGEST = max(len(phrase.split()) for phrase in PARTS)
_PART_WORDS = frozenset(word for phrase in PARTS for word in phrase.split())
_EXPECTED = "the penalty as announced: 2, 2+2, 5, 5+game, 2+10, 10, match, or minor, major, misconduct …"
_SAME_LENGTH = {"bench_minor": "minor", "match": "major"}


def _pieces(cursor: Cursor) -> list[tuple[str, bool]]:
    """The next words cut at each ``+``, and whether each piece ends its word."""
    found: list[tuple[str, bool]] = []
    ahead = 0
    while word := cursor.word(ahead):
        pieces = _PIECE.findall(word)
        found += [(piece, place == len(pieces)) for place, piece in enumerate(pieces, 1)]
        ahead += 1
    return found


def _phrase(pieces: list[tuple[str, bool]], at: int) -> tuple[Parts, int]:
    """The parts that the longest phrase at `at` names, and how many pieces it has."""
    for length in range(_LONGEST, 0, -1):
        words = [piece for piece, _ in pieces[at : at + length]]
        parts = PARTS.get(" ".join(words))
        if parts is not None and len(words) == length:
            return parts, length
    return (), 0


def _term(pieces: list[tuple[str, bool]], at: int) -> tuple[Parts, int]:
    """The parts of one term; a number may have its word besides, as in ``2 minor`` or ``10 misconduct``."""
    parts, length = _phrase(pieces, at)
    if length and pieces[at][0].isdecimal():
        same, more = _phrase(pieces, at + length)
        if more and not pieces[at + length][0].isdecimal() and _lengths(same) == _lengths(parts):
            return same, length + more
    return parts, length


def _lengths(parts: Parts) -> list[str]:
    return [_SAME_LENGTH.get(part, part) for part in parts]


def read_parts(cursor: Cursor) -> Parts:
    """The parts that stand here, in their order."""
    pieces = _pieces(cursor)
    parts, end = _term(pieces, 0)
    while end and end < len(pieces) - 1 and pieces[end][0] == "+":
        more, length = _term(pieces, end + 1)
        if not length:
            end = 0
            break
        parts += more
        end += 1 + length
    if not end or not pieces[end - 1][1]:
        cursor.fail(_EXPECTED, [cursor.with_here("minor")], code="entry_parts")
    cursor.skip(sum(ends for _, ends in pieces[:end]))
    return parts


def write_parts(parts: Parts) -> str:
    """`parts` in whole words, as `read_parts` takes them."""
    return "+".join(part.replace("_", " ") for part in parts)


def _starts_parts(cursor: Cursor) -> bool:
    return cursor.word().partition("+")[0] in _PART_WORDS


def _read_who(cursor: Cursor) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if cursor.word() not in FILLERS["staff"]:
        found["player"] = NUMBER.read(cursor)
    if cursor.accept(FILLERS["staff"]):
        found["staff"] = read_text(cursor, sentence=False, ends=_starts_parts)
    return found


def _write_who(event: PenaltyAssessed) -> list[str]:
    staff = ["staff", quote(event.staff)] if event.staff is not None else []
    return staff if staff and event.player is None else [NUMBER.write(event.player), *staff]


def _read_infraction(cursor: Cursor) -> str:
    """What the penalty is for; a number or the name of a part in it is a slip, unless it is quoted."""
    start = cursor.position
    token = cursor.tokens[start]
    text = read_text(cursor, sentence=False)
    end, cursor.position = cursor.position, start
    if not token.quoted:
        _refuse_slips(cursor, end, text)
    cursor.position = end
    return text


def _refuse_slips(cursor: Cursor, end: int, text: str) -> None:
    if _phrase(_pieces(cursor), 0)[1]:
        tries = list(_joined(cursor))
        if not cursor.word().isdecimal():
            tries.append(cursor.with_here(quote(text), instead_of=end - cursor.position))
        cursor.fail("a further part joined by +, or in quotes what the penalty is for", tries, "entry_ambiguous")
    start = cursor.position
    while cursor.position < end:
        if cursor.word().isdecimal():
            tries = [*(_joined(cursor) if cursor.position == start else ()), cursor.with_here("served")]
            cursor.fail("what the penalty is for, in words; served stands before a number", tries, "entry_number")
        cursor.skip()


def _joined(cursor: Cursor) -> Iterator[str]:
    last = cursor.tokens[cursor.position - 1] if cursor.position else None
    if last:
        yield f"{cursor.source[: last.end]}+{cursor.source[cursor.offset :]}"


def _write_infraction(text: str, words: frozenset[str]) -> str:
    numbers = frozenset(word for word in text.split() if word.isdecimal())
    return write_text(text, words | _PART_WORDS | numbers)


WHO_SLOT = Slot(_read_who, _write_who)
"""A jersey number, ``?``, or ``staff`` and a name."""
PARTS_SLOT = Slot(lambda cursor: {"parts": read_parts(cursor)}, lambda event: [write_parts(event.parts)])
"""The parts."""
INFRACTION = Rest("infraction", _read_infraction, _write_infraction, sentence=False)
"""What the penalty is for: a label after the parts."""
