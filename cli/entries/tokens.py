"""An entry cut into words and quoted texts, and a cursor that goes through them."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NoReturn

from attrs import define, field, frozen

from ...timeline.events import Team
from .context import EntryContext

__all__ = ["Cursor", "NotUnderstood", "Refused", "Token", "quote", "read_json"]

_WORD = re.compile(r"[0-9]{1,3}(?:\s+:\s*|:\s+)[0-9]{2}(?!\S)|\S+", re.ASCII)
"""A word; a reading with blanks about its colon is one."""
_STRING = json.JSONDecoder()


class NotUnderstood(Exception):
    """An entry cannot be read on at the character `offset`.

    Attributes:
        expected: what would have been understood there.
        tries: whole entries that the writer may have meant; they are offered when they can be read.
        code: the problem's code.
        example: an entry of the kind that was begun.
    """

    def __init__(self, offset: int, expected: str, tries: Iterable[str] = (), code: str = "entry_word") -> None:
        super().__init__(expected)
        self.offset = offset
        self.expected = expected
        self.tries = tuple(tries)
        self.code = code
        self.example = ""


class Refused(NotUnderstood):
    """An entry that was read to its end and cannot be filed; the message is a sentence, `remedy` says what to do."""

    def __init__(self, message: str, code: str, tries: Iterable[str] = (), remedy: str = "") -> None:
        super().__init__(0, message, tries, code)
        self.remedy = remedy


@frozen
class Token:
    """A word, or a quoted text without its quotes, and where it stands in the entry."""

    text: str
    start: int
    end: int
    quoted: bool = False

    @property
    def word(self) -> str:
        """The word as the tables have it; a quoted text is no word of theirs."""
        return "" if self.quoted else self.text.casefold()

    @property
    def unclosed(self) -> bool:
        """Whether a quote begins here that does not end."""
        return not self.quoted and self.text[0] in '"“'


def quote(text: str) -> str:
    """`text` as a quoted text; quotes and control characters in it are escaped as in JSON."""
    return json.dumps(text, ensure_ascii=False)


def _tokens(source: str, at: int) -> Iterator[Token]:
    while match := _WORD.search(source, at):
        token = _quoted(source, match.start()) or Token(match.group(), *match.span())
        yield token
        at = token.end


def _quoted(source: str, start: int) -> Token | None:
    if source[start] == '"':
        try:
            text, end = _STRING.raw_decode(source, start)
        except ValueError:
            return None
        return Token(text, start, end, quoted=True)
    if source[start] == "“" and (closing := source.find("”", start)) > 0:  # what telephones make of straight quotes
        return Token(source[start + 1 : closing], start, closing + 1, quoted=True)
    return None


@define
class Cursor:
    """The words of an entry from `position` on, with what readers need to know.

    Attributes:
        team: the team that was named.
        text_ends: whether an option begins here, so that plain text ends; and the same for a sentence.
    """

    source: str
    context: EntryContext
    team: Team | None = None
    position: int = 0
    tokens: list[Token] = field(factory=list)
    text_ends: Callable[[Cursor, bool], bool] = lambda here, in_sentence: False

    @classmethod
    def over(cls, source: str, context: EntryContext, start: int = 0) -> Cursor:
        """A cursor at the first word of `source` from the character `start` on."""
        return cls(source, context, tokens=list(_tokens(source, start)))

    def peek(self, ahead: int = 0) -> Token | None:
        """The word `ahead` of the next one, or None behind the last."""
        place = self.position + ahead
        return self.tokens[place] if place < len(self.tokens) else None

    def word(self, ahead: int = 0) -> str:
        """The same as the tables have it; empty for a quoted text and behind the last word."""
        token = self.peek(ahead)
        return token.word if token else ""

    def skip(self, count: int = 1) -> None:
        """Go on by `count` words."""
        self.position += count

    def phrase(self, phrases: Iterable[str]) -> int:
        """How many words the longest of `phrases` has that stands here; 0 for none."""
        return max((self._length(phrase.split()) for phrase in phrases), default=0)

    def accept(self, phrases: Iterable[str]) -> bool:
        """Go past the longest of `phrases` that stands here, if one does."""
        length = self.phrase(phrases)
        self.skip(length)
        return length > 0

    def continue_at(self, offset: int) -> None:
        """Cut the entry anew from the character `offset` on."""
        self.tokens[self.position :] = _tokens(self.source, offset)

    @property
    def offset(self) -> int:
        """The character at which the next word stands."""
        token = self.peek()
        return token.start if token else len(self.source)

    def fail(self, expected: str, tries: Iterable[str] = (), code: str = "entry_word") -> NoReturn:
        """What stands here is not what was expected."""
        raise NotUnderstood(self.offset, expected, tries, code)

    def with_here(self, text: str, instead_of: int = 0) -> str:
        """The entry with `text` put in here, in place of the next `instead_of` words."""
        last = self.peek(instead_of - 1) if instead_of else None
        rest = self.source[last.end if last else self.offset :].strip()
        return " ".join(part for part in (self.source[: self.offset].strip(), text, rest) if part)

    def _length(self, words: list[str]) -> int:
        return len(words) if all(self.word(ahead) == word for ahead, word in enumerate(words)) else 0


def read_json(cursor: Cursor, expected: str) -> Any:
    """The JSON value that begins here; duplicate keys, NaN and what is not JSON are not understood."""
    try:
        value, end = _strict_json().raw_decode(cursor.source, cursor.offset)
    except (ValueError, RecursionError):
        cursor.fail(expected, code="entry_json")
    cursor.continue_at(end)
    return value


def _strict_json() -> json.JSONDecoder:
    return json.JSONDecoder(object_pairs_hook=_unique, parse_constant=_no_constant)


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice")
    return found


def _no_constant(name: str) -> NoReturn:
    raise ValueError(f"{name} is no JSON")
