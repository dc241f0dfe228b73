"""The words of a penalty: who, the parts as they are announced, and what for."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from typing import Any

from ...timeline.events import PartKind, PenaltyAssessed
from .grammar import Rest, Slot
from .texts import read_text, write_text
from .tokens import Cursor, quote
from .values import NUMBER
from .words import FILLERS, JOINS, PARTS, STAFF, TO_COME, UNITS

__all__ = ["BENCH_LENGTH", "INFRACTION", "PARTS_SLOT", "WHO_SLOT", "read_parts", "write_parts"]

Parts = tuple[PartKind, ...]
_PIECE = re.compile(r"\+|[^+]+")
_WITH_UNIT = re.compile(rf"([0-9]+)-?(?:{'|'.join(map(re.escape, UNITS))})", re.ASCII)
_WHOLE_MINUTES = re.compile(r"([0-9]+):00", re.ASCII)
_MISCONDUCT = "10"
_BENCH_WORDS = frozenset(phrase.split()[0] for phrase, parts in PARTS.items() if parts == ("bench_minor",))
_LONGEST = max(len(phrase.split()) for phrase in PARTS)
_PART_WORDS = frozenset(word for phrase in PARTS for word in phrase.split())
_EXPECTED = "the penalty as announced: 2, 2+2, 5, 5+game, 2+10, 10, match, or minor, major, misconduct …"
_SLIP = 0.75
"""How near a word is to that of a part, where it is a slip of it."""
_A_REASON = 4
"""Letters of a word that may be what a penalty is for; shorter ones are somebody's abbreviations."""
_SAME_LENGTH = {"bench_minor": "minor", "match": "major"}


def _pieces(cursor: Cursor) -> list[tuple[str, bool]]:
    """The next words cut at each ``+``, without the unit of ``2min``, and whether each piece ends its word."""
    found: list[tuple[str, bool]] = []
    ahead = 0
    while word := cursor.word(ahead):
        pieces = _PIECE.findall(word)
        found += [(_WITH_UNIT.sub(r"\1", piece), place == len(pieces)) for place, piece in enumerate(pieces, 1)]
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
    """The parts of one term; a length and its name may both stand there: ``2 min minor``, ``bench 2``."""
    parts, length = _phrase(pieces, at)
    if not length:
        return (), 0
    numbered = pieces[at][0].isdecimal()
    length += _unit(pieces, at + length) if numbered else 0
    same, more = _phrase(pieces, at + length)
    if not more or pieces[at + length][0].isdecimal() is numbered or _lengths(same) != _lengths(parts):
        return parts, length
    return (same, length + more) if numbered else (parts, length + more + _unit(pieces, at + length + more))


def _unit(pieces: list[tuple[str, bool]], at: int) -> int:
    """1 where the word for minutes stands; ``minutes 4`` says how many were written."""
    word, following = [piece for piece, _ in [*pieces[at : at + 2], ("", True), ("", True)][:2]]
    return int(word in UNITS and not following.isdecimal())


def _lengths(parts: Parts) -> list[str]:
    return [_SAME_LENGTH.get(part, part) for part in parts]


def read_parts(cursor: Cursor) -> Parts:
    """The parts that stand here, in their order."""
    pieces = _pieces(cursor)
    parts, end = _term(pieces, 0)
    while end and end < len(pieces) - 1 and pieces[end][0] in JOINS:
        more, length = _term(pieces, end + 1)
        if not length:
            end = 0 if pieces[end][0] == "+" else end
            break
        parts += more
        end += 1 + length
    if not end or not pieces[end - 1][1]:
        cursor.fail(_EXPECTED, list(_likely_parts(cursor)), code="entry_parts")
    cursor.skip(sum(ends for _, ends in pieces[:end]))
    return parts


def _likely_parts(cursor: Cursor) -> Iterator[str]:
    """The word that stands here may be a slip of a part; a word of another kind is what a minor is for."""
    word = cursor.word()
    if minutes := _WHOLE_MINUTES.fullmatch(word):
        yield cursor.with_here(minutes[1], instead_of=1)
    elif near := difflib.get_close_matches(word, _PART_WORDS, 1, _SLIP):
        yield cursor.with_here(near[0], instead_of=1)
    elif word.replace("-", "").isalpha() and len(word) >= _A_REASON:
        if cursor.word(-1) in PARTS and cursor.position:
            cursor.skip(-1)
            yield cursor.with_here(TO_COME)
            cursor.skip()
        yield cursor.with_here("minor")


def write_parts(parts: Parts) -> str:
    """`parts` in whole words, as `read_parts` takes them."""
    return "+".join(part.replace("_", " ") for part in parts)


def _starts_parts(cursor: Cursor) -> bool:
    return cursor.word().partition("+")[0] in _PART_WORDS


def _read_who(cursor: Cursor) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if cursor.word().partition("+")[0] in _BENCH_WORDS:
        return found
    by_role = cursor.word() in STAFF
    if not by_role and cursor.word() not in FILLERS["staff"]:
        found["player"] = NUMBER.read(cursor)
    if by_role or cursor.accept(FILLERS["staff"]):
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
    if length := _phrase(_pieces(cursor), 0)[1]:
        tries = list(_joined(cursor))
        if not cursor.word().isdecimal() and len(text.split()) > length:
            tries.append(cursor.with_here(quote(text), instead_of=end - cursor.position))
        cursor.fail("a further part joined by +, or in quotes what the penalty is for", tries, "entry_ambiguous")
    start = cursor.position
    while cursor.position < end:
        if cursor.word().isdecimal():
            tries = list(_joined(cursor)) if cursor.position == start else [cursor.with_here("served")]
            cursor.fail("what the penalty is for, in words; served stands before a number", tries, "entry_number")
        cursor.skip()


def _joined(cursor: Cursor) -> Iterator[str]:
    """The entry with a further part: a length behind a name is hardly one, but for the ten minutes."""
    last = cursor.tokens[cursor.position - 1]
    named = not last.word[-1:].isdecimal()
    if not (named and cursor.word().isdecimal() and cursor.word() != _MISCONDUCT):
        yield f"{cursor.source[: last.end]}+{cursor.source[cursor.offset :]}"


def _write_infraction(text: str, words: frozenset[str]) -> str:
    numbers = frozenset(word for word in text.split() if word.isdecimal())
    return write_text(text, words | _PART_WORDS | numbers)


def _read_bench_length(cursor: Cursor) -> dict[str, Any]:
    """The length of a bench minor, which says nothing new."""
    pieces = _pieces(cursor)
    parts, length = _term(pieces, 0)
    if parts == ("minor",) and pieces[length - 1][1] and pieces[length : length + 1] != [("+", False)]:
        cursor.skip(sum(ends for _, ends in pieces[:length]))
    return {}


BENCH_LENGTH = Slot(_read_bench_length, lambda event: [])
"""The length behind a bench minor, which may be said."""
WHO_SLOT = Slot(_read_who, _write_who)
"""A jersey number, ``?``, ``staff`` and a name, or nobody where the penalty is the bench's."""
PARTS_SLOT = Slot(lambda cursor: {"parts": read_parts(cursor)}, lambda event: [write_parts(event.parts)])
"""The parts."""
INFRACTION = Rest("infraction", _read_infraction, _write_infraction, sentence=False)
"""What the penalty is for: a label after the parts."""
