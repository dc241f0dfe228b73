"""Free text in an entry: quoted, or plain as far as nothing else begins.

A *label* (what a penalty is for, a name, a source) ends where any option of its entry begins. A *sentence* (a reason, a
remark) goes on to the end: words such as ``by`` and ``after`` are part of it unless their value is quoted or numbered
with ``#``.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from .tokens import Cursor, quote

__all__ = ["read_text", "write_text"]

_PLAIN = re.compile(r"(?![\"“#\[{])\S+")


def read_text(cursor: Cursor, *, sentence: bool, ends: Callable[[Cursor], bool] = lambda here: False) -> str:
    """The text that stands here, to where an option begins or `ends` says so."""
    token = cursor.peek()
    if token is None:
        cursor.fail("a text")
    if token.unclosed:
        cursor.fail('a text whose quote is closed, such as "hit the post"', code="entry_quote")
    if token.quoted:
        cursor.skip()
        return token.text
    if cursor.text_ends(cursor, sentence) or ends(cursor):
        cursor.fail("a text")
    start = end = token.start
    while (token := cursor.peek()) and not (cursor.text_ends(cursor, sentence) or ends(cursor)):
        if token.quoted and not sentence:
            break
        end = token.end
        cursor.skip()
    return cursor.source[start:end]


def write_text(text: str, reserved: frozenset[str] = frozenset()) -> str:
    """`text` as it is, where it can be read back so, else quoted; no plain text has a word of `reserved`."""
    words = text.split()
    plain = text.isprintable() and text == " ".join(words) and all(map(_PLAIN.fullmatch, words)) and words
    return text if plain and reserved.isdisjoint(word.casefold() for word in words) else quote(text)
