"""The grammar of one kind of entry, and how it is read and printed.

After the team and the verb stand the *slots* in their order, then the *options* in any order; one field may be free
text, which stands directly after the slots, or between options where it is quoted.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import field, frozen

from ...timeline.events import Event
from .options import COMMON, Option, matching, phrase_words
from .texts import read_text, write_text
from .tokens import Cursor
from .values import Value
from .words import FILLERS, VERBS

__all__ = ["Grammar", "Rest", "Slot", "print_fields", "read_fields", "sentence", "slot"]


@frozen
class Slot:
    """A place after the verb: `read` gives fields and their values, `write` the words that it takes."""

    read: Callable[[Cursor], Mapping[str, Any]]
    write: Callable[[Any], list[str]]


def slot(name: str, value: Value) -> Slot:
    """A place for the field `name`."""
    return Slot(lambda cursor: {name: value.read(cursor)}, lambda event: [value.write(getattr(event, name))])


@frozen
class Rest:
    """The field that is free text, without a word before it."""

    field: str
    read: Callable[[Cursor], str]
    write: Callable[[str, frozenset[str]], str]
    sentence: bool
    usual: str | None = None
    required: bool = False
    intro: tuple[str, ...] = ()


def sentence(name: str, usual: str | None = None, *, required: bool = False, intro: tuple[str, ...] = ()) -> Rest:
    """Free text to the end of the entry, printed behind `intro`; `usual` where nothing is written."""

    def read(cursor: Cursor) -> str:
        cursor.accept(FILLERS["because"])
        return read_text(cursor, sentence=True)

    def write(text: str, words: frozenset[str]) -> str:
        return write_text(text, words.union(FILLERS["because"]))

    return Rest(name, read, write, sentence=True, usual=usual, required=required, intro=intro)


@frozen(kw_only=True)
class Grammar:
    """How one kind of event is entered.

    Attributes:
        kind: the event's kind.
        verb: the row of the table of verbs.
        team: whether a team is named.
        constants: fields that the verb sets.
        needed: options that must be there, each with what to add.
        prints: whether an event of the kind is printed with this grammar and not with another of the kind.
        example: an entry that is understood.
    """

    kind: str
    verb: str
    team: bool = False
    slots: tuple[Slot, ...] = ()
    own: tuple[Option, ...] = ()
    rest: Rest | None = None
    constants: Mapping[str, Any] = field(factory=dict)
    needed: Mapping[str, str] = field(factory=dict)
    prints: Callable[[Any], bool] = lambda event: True
    example: str

    @property
    def options(self) -> tuple[Option, ...]:
        """Its own options and the common ones."""
        return (*self.own, *COMMON)

    @property
    def free_text_is_sentence(self) -> bool:
        """Whether common options must be explicit, because a sentence may have their words."""
        return self.rest is not None and self.rest.sentence


def read_fields(cursor: Cursor, grammar: Grammar) -> dict[str, Any]:
    """The fields that the words after the verb give; fails at the first word that gives none."""
    found: dict[str, Any] = dict(grammar.constants)
    cursor.text_ends = lambda here, in_sentence: matching(here, grammar.options, in_sentence=in_sentence) is not None
    for place in grammar.slots:
        found.update(place.read(cursor))
    while cursor.peek():
        _read_one(cursor, grammar, found)
    for name, addition in grammar.needed.items():
        if name not in found:
            cursor.fail(f"{name}, such as {addition}", [cursor.with_here(addition)])
    return found if grammar.rest is None else _with_rest(found, cursor, grammar.rest)


def _with_rest(found: dict[str, Any], cursor: Cursor, rest: Rest) -> dict[str, Any]:
    """The fields with the usual text where none was written; a remark without a text is none."""
    if rest.usual is not None:
        found.setdefault(rest.field, rest.usual)
    if rest.required and rest.field not in found:
        cursor.fail("a text")
    return found


def _read_one(cursor: Cursor, grammar: Grammar, found: dict[str, Any]) -> None:
    option = _option_here(cursor, grammar)
    if option is None and grammar.rest and grammar.rest.field not in found:
        found[grammar.rest.field] = grammar.rest.read(cursor)
    elif option is None:
        cursor.fail(_what_may_follow(grammar), _fitting(cursor, grammar))
    else:
        chosen, length = option
        if chosen.field in found:
            cursor.fail(f"{chosen.phrases[0]} once only")
        cursor.skip(length)
        found[chosen.field] = chosen.read(cursor)


def _option_here(cursor: Cursor, grammar: Grammar) -> tuple[Option, int] | None:
    if not grammar.free_text_is_sentence:
        return matching(cursor, grammar.options, in_sentence=False)
    return matching(cursor, grammar.own, in_sentence=False) or matching(cursor, COMMON, in_sentence=True)


def _what_may_follow(grammar: Grammar) -> str:
    own = [option.phrases[0] for option in grammar.own]
    return f"the end of the entry, or one of: {', '.join([*own, 'after, by, note'])}"


def _fitting(cursor: Cursor, grammar: Grammar) -> list[str]:
    """The entry with each option's phrase put before the word that stands here."""
    return [cursor.with_here(option.phrases[0]) for option in grammar.own if option.phrases[0] != cursor.word()]


def print_fields(event: Event, grammar: Grammar) -> list[str]:
    """The verb and what follows it, in whole words, such that `read_fields` gives the event's fields."""
    words = [VERBS[grammar.verb][0]]
    for place in grammar.slots:
        words += place.write(event)
    own = [word for option in grammar.own for word in option.of(event)]
    common = [word for option in COMMON for word in option.of(event)]
    text = _print_rest(event, grammar)
    free = [*own, *text] if grammar.free_text_is_sentence else [*text, *own]
    return [word for word in [*words, *free, *common] if word]


def _print_rest(event: Event, grammar: Grammar) -> list[str]:
    """The free text with what introduces it; a label stands before the options, a sentence behind the kind's own."""
    rest = grammar.rest
    text = None if rest is None else getattr(event, rest.field)
    if rest is None or text is None:
        return []
    return [*rest.intro, rest.write(text, phrase_words(grammar.own if rest.sentence else grammar.options))]
