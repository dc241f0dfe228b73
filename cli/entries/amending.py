"""The changes of an ``amend``: a field and its new value, once or more, or one JSON object."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Mapping
from typing import Any

from ...timeline.events import Amend
from .context import EntryContext
from .grammar import Slot
from .penalties import read_parts, write_parts
from .texts import read_text, write_text
from .tokens import Cursor, NotUnderstood, quote
from .values import GOALIE, INT, JSON, LENGTH, MINUTES, NUMBER, NUMBERS, READING, SEQ, Value
from .words import FILLERS, NET_EMPTY, TEAMS, TO_COME

__all__ = ["CHANGES_SLOT"]

_EQUALS = re.compile(r"[a-z_]+=", re.ASCII)


def _read_team(cursor: Cursor) -> str:
    for team, words in TEAMS.items():
        if cursor.accept(words):
            return team
    cursor.fail("home or away")


def _read_yes_no(cursor: Cursor) -> bool:
    if cursor.accept(("yes", "true")):
        return True
    if not cursor.accept(("no", "false")):
        cursor.fail("yes or no")
    return False


def _read_unassisted(cursor: Cursor) -> list[str]:
    return [] if cursor.accept(("unassisted",)) else list(NUMBERS.read(cursor))


def _read_label(cursor: Cursor) -> str:
    """A text to ``because`` or the end; a field's name inside it may begin another change, so it must be quoted."""
    start = cursor.position
    token = cursor.peek()
    text = read_text(cursor, sentence=True, ends=lambda here: here.word() in FILLERS["because"])
    words = [word.word for word in cursor.tokens[start + 1 : cursor.position - 1]]
    if token and not token.quoted and not NAMES.isdisjoint(words):
        end, cursor.position = cursor.position, start
        tries = [_quoted(cursor, words.index(word) + 1) for word in words if word in NAMES]
        tries.append(_quoted(cursor, end - start))
        cursor.fail("the text in quotes, because it has the name of a field in it", tries, code="entry_quote")
    return text


def _quoted(cursor: Cursor, count: int) -> str:
    """The entry with the next `count` words in quotes."""
    last = cursor.tokens[cursor.position + count - 1]
    return cursor.with_here(quote(cursor.source[cursor.offset : last.end]), instead_of=count)


_TEXT = Value(_read_label, lambda text: write_text(text, NAMES | {"because", TO_COME}))
_TEAM = Value(_read_team, str)
_YES_NO = Value(_read_yes_no, lambda value: "yes" if value else "no")
_ASSISTS = Value(_read_unassisted, lambda numbers: NUMBERS.write(numbers) or "unassisted")
_PARTS = Value(lambda cursor: list(read_parts(cursor)), write_parts)

_VALUES: tuple[tuple[Value, str], ...] = (
    (READING, "clock to"),
    (LENGTH, "announced"),
    (INT, "period count home away goals shots saves"),
    (SEQ, "after ends penalty target"),
    (NUMBER, "player scorer served_by number was"),
    (GOALIE, "goalie"),
    (_ASSISTS, "assists"),
    (_PARTS, "parts"),
    (_TEAM, "team"),
    (_YES_NO, "own_goal awarded empty_net delayed_call on_clock penalty_shot"),
    (MINUTES, "minutes"),
    (
        _TEXT,
        "by note recorded_at reason infraction rule staff cause result name position letter status where "
        "source text outcome signed ruleset date start rink competition game",
    ),
    (JSON, "settings pinned officials format changes"),
)
FIELDS: Mapping[str, Value] = {name: value for value, names in _VALUES for name in names.split()}
"""How the value of each field that can be amended is written; a JSON value or ``?`` can stand for any."""


SYNONYMS: Mapping[str, str] = {"reading": "clock"}
"""What people call a field besides."""
NAMES: frozenset[str] = frozenset({*FIELDS, *SYNONYMS})


def _read_value(cursor: Cursor, value: Value) -> Any:
    word = cursor.word()
    if word == TO_COME:
        cursor.skip()
        return None
    return JSON.read(cursor) if word[:1] in ("{", "[") else value.read(cursor)


def _take_field(cursor: Cursor) -> str:
    """The name of a field, with or without an equals sign after it."""
    if match := _EQUALS.match(cursor.source, cursor.offset):
        cursor.continue_at(match.end())
        name = match.group()[:-1]
    else:
        name = cursor.word()
        cursor.skip()
    name = SYNONYMS.get(name, name)
    if name not in FIELDS:
        cursor.skip(-1) if match is None else cursor.continue_at(match.start())
        near = difflib.get_close_matches(name, [*FIELDS, *SYNONYMS], 1)
        cursor.fail("the name of a field, such as clock, scorer or parts", [cursor.with_here(word, 1) for word in near])
    return name


def _read_changes(cursor: Cursor) -> dict[str, Any]:
    if cursor.word()[:1] == "{":
        return {"changes": JSON.read(cursor)}
    changes: dict[str, Any] = {}
    while not changes or (cursor.peek() and cursor.word() not in FILLERS["because"]):
        name = _take_field(cursor)
        if name in changes:
            cursor.skip(-1)
            cursor.fail(f"{name} once only")
        changes[name] = _read_value(cursor, FIELDS[name])
    return {"changes": changes}


def _write_changes(event: Amend) -> list[str]:
    """The changes as people write them where they can be read back so, else as one JSON object."""
    words = [word for name, value in event.changes.items() for word in (name, _write_value(name, value))]
    text = " ".join(words)
    return [text] if _same(text, event.changes) else [JSON.write(dict(event.changes))]


def _write_value(name: str, value: Any) -> str:
    if value is None:
        return NET_EMPTY[0] if name == "goalie" else TO_COME
    try:
        return FIELDS[name].write(value)
    except (KeyError, TypeError, AttributeError):  # no field of an event, or no value of that field
        return JSON.write(value)


def _same(text: str, changes: Mapping[str, Any]) -> bool:
    """Whether `text` is read as `changes`, to the very type: ``1`` is not ``True``."""
    cursor = Cursor.over(text, EntryContext())
    try:
        read = _read_changes(cursor)["changes"]
    except NotUnderstood:
        return False
    return cursor.peek() is None and json.dumps(read) == json.dumps(dict(changes))


CHANGES_SLOT = Slot(_read_changes, _write_changes)
"""The changes, to ``because``."""
