"""The words inside an entry that give a field its value: ``served 8``, ``own goal``, ``note "..."``."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from attrs import frozen

from ...timeline.events import Event
from .texts import read_text
from .tokens import Cursor, quote
from .values import SEQ, Value
from .words import OPTIONS

__all__ = ["COMMON", "Option", "flag", "matching", "phrase_words", "text_option", "value_option"]


@frozen(kw_only=True)
class Option:
    """A phrase and the field it sets.

    Attributes:
        field: the event's field.
        phrases: what may be written; the first is printed.
        read: takes the value that follows the phrase.
        write: the value as text, empty where the phrase says it all.
        writes: whether a value is said by this option.
        begins: beyond the phrase, what must follow for it to be this option and not free text.
    """

    field: str
    phrases: tuple[str, ...]
    read: Callable[[Cursor], Any]
    write: Callable[[Any], str]
    writes: Callable[[Any], bool]
    begins: Callable[[Cursor], bool] = lambda after_phrase: True

    def stands(self, cursor: Cursor, *, in_sentence: bool) -> int:
        """How many words of this option's phrase stand here; 0 when it does not begin here.

        In a sentence only a common field begins, and only with its value quoted, or with ``#`` before a number: nobody
        writes that by chance.
        """
        if in_sentence and self not in COMMON:
            return 0
        length = cursor.phrase(self.phrases)
        if not length:
            return 0
        cursor.skip(length)
        token = cursor.peek()
        explicit = token is not None and (token.quoted or token.text[0] == "#")
        begins = explicit if in_sentence else self.begins(cursor)
        cursor.skip(-length)
        return length if begins else 0

    def of(self, event: Event) -> list[str]:
        """The option as it is printed for `event`; nothing when the field has nothing to say."""
        value = getattr(event, self.field)
        if not self.writes(value):
            return []
        return [self.phrases[0], text] if (text := self.write(value)) else [self.phrases[0]]


def value_option(field: str, value: Value, begins: Callable[[Cursor], bool] = lambda after_phrase: True) -> Option:
    """An option whose value follows its phrase."""
    return Option(
        field=field,
        phrases=OPTIONS[field, ...],
        read=value.read,
        write=value.write,
        writes=lambda found: found is not None,
        begins=begins,
    )


def text_option(field: str, *, sentence: bool = False) -> Option:
    """An option whose value is a text."""
    return value_option(field, Value(lambda cursor: read_text(cursor, sentence=sentence), quote))


def flag(field: str, constant: Any) -> Option:
    """An option that is its phrase alone."""
    return Option(
        field=field,
        phrases=OPTIONS[field, constant],
        read=lambda cursor: constant,
        write=lambda value: "",
        writes=lambda value: value is not None and value == constant,
    )


def matching(cursor: Cursor, options: Iterable[Option], *, in_sentence: bool) -> tuple[Option, int] | None:
    """The option whose phrase is the longest that stands here, and how many words the phrase has."""
    standing = [(option, option.stands(cursor, in_sentence=in_sentence)) for option in options]
    best = max(standing, key=lambda found: found[1], default=None)
    return best if best and best[1] else None


def phrase_words(options: Iterable[Option]) -> frozenset[str]:
    """Every word of the phrases of `options`."""
    return frozenset(word for option in options for phrase in option.phrases for word in phrase.split())


def _numbered(cursor: Cursor) -> bool:
    return cursor.word().removeprefix("#").isdecimal() or cursor.word() == "last"


COMMON: tuple[Option, ...] = (
    value_option("after", SEQ, begins=_numbered),
    text_option("by"),
    text_option("note", sentence=True),
    text_option("recorded_at"),
    text_option("prev"),
)
"""What any entry may carry."""
