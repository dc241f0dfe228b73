"""The beginning of an entry: when, which team, and what happened."""

from __future__ import annotations

import re
from collections.abc import Iterator

from attrs import evolve, frozen

from ...timeline.bounds import MOST_PERIOD
from ...timeline.events import Team
from .context import EntryContext
from .readings import is_full, looks_like_reading, read_reading
from .tokens import Cursor, NotUnderstood
from .words import TEAMS, VERBS, WHEN_WORDS

__all__ = ["SHORT_FORM", "Head", "beginnings", "heads", "read_moment", "read_when", "teams_at"]

_OVERTIME = re.compile(r"ot([1-9][0-9]?)?", re.ASCII)
_PERIOD = re.compile(r"p([1-9][0-9]{0,8})", re.ASCII)
_ORDINAL = re.compile(r"([1-9][0-9]?)(?:st|nd|rd|th)", re.ASCII)
_COUNTED = re.compile(r"[1-9][0-9]{0,8}", re.ASCII)
_SECONDS = re.compile(r"[0-9]{2}(\.[0-9])?", re.ASCII)
SHORT_FORM = 2  # letters; a longer word of the tables is a whole word


@frozen(kw_only=True)
class Head:
    """What stands before the fields of an entry.

    Attributes:
        period, clock: as far as they were written.
        in_full: the period was named and the reading written as on the board.
        two_figures: a bare figure and two others stand there, which may as well be minutes and seconds.
        when_ends: the character at which team and verb begin.
        team, verb: what was named; `verb` is a row of the table of verbs.
        verb_begins, fields_begin: the places of the verb's first word and of the first word after it.
    """

    late: bool = False
    period: int | None = None
    clock: str | None = None
    in_full: bool = False
    two_figures: bool = False
    when_ends: int = 0
    team: Team | None = None
    verb: str = ""
    verb_begins: int = 0
    fields_begin: int = 0


def read_when(cursor: Cursor) -> Head:
    """``late``, the period and the reading, as far as they stand at the beginning."""
    late = cursor.accept((WHEN_WORDS["late"],))
    two_figures = bool(_COUNTED.fullmatch(cursor.word()) and _SECONDS.fullmatch(cursor.word(1)))
    period = _read_period(cursor)
    clock, full = None, False
    if looks_like_reading(cursor.peek()):
        full = is_full(cursor.peek())
        clock = read_reading(cursor)
    return Head(
        late=late,
        period=period,
        clock=clock,
        in_full=full and period is not None,
        two_figures=two_figures,
        when_ends=cursor.offset,
    )


def read_moment(text: str, periods: int) -> tuple[int, str] | None:
    """Period and reading where `text` is both and nothing else: ``"2 742"``, ``"OT 3:10"``; None where it is not.

    Two bare figures are no reading here, since nothing says whether a colon is missing before them.
    """
    cursor = Cursor.over(text, EntryContext(periods=periods))
    try:
        when = read_when(cursor)
    except NotUnderstood:
        return None
    if when.late or when.period is None or when.clock is None or when.two_figures or cursor.peek():
        return None
    return when.period, when.clock


def _read_period(cursor: Cursor) -> int | None:
    """The period that stands here; None where none does."""
    begin = cursor.position
    period = _period(cursor)
    if period is not None and period > MOST_PERIOD:
        cursor.position = begin
        cursor.fail(f"a period from 1 to {MOST_PERIOD}", code="entry_value")
    return period


def _period(cursor: Cursor) -> int | None:
    word = cursor.word()
    if word == WHEN_WORDS["period"] and _COUNTED.fullmatch(cursor.word(1)):
        cursor.skip(2)
        return int(cursor.word(-1))
    if match := _OVERTIME.fullmatch(word):
        cursor.skip()
        return cursor.context.periods + int(match[1] or 1)
    if match := _PERIOD.fullmatch(word):
        cursor.skip()
        return int(match[1])
    if match := _ORDINAL.fullmatch(word):
        cursor.skip()
        cursor.accept((WHEN_WORDS["period"],))
        return int(match[1])
    if not (looks_like_reading(cursor.peek()) and looks_like_reading(cursor.peek(1))):
        return None
    if not re.fullmatch("[1-9][0-9]?", word, re.ASCII):
        cursor.fail("one reading, or a period before it, such as 2 9:15", code="entry_reading")
    cursor.skip()
    return int(word)


def heads(cursor: Cursor, when: Head) -> Iterator[Head]:
    """Every way to read team and verb at the cursor, which stands behind `when`."""
    start = cursor.position
    for team, length in [*teams_at(cursor), (None, 0)]:
        cursor.position = start + length
        verb, more = _verb(cursor)
        if verb:
            begin = cursor.position
            yield evolve(when, team=team, verb=verb, verb_begins=begin, fields_begin=begin + more)
    cursor.position = start


def _verb(cursor: Cursor) -> tuple[str | None, int]:
    lengths = {verb: cursor.phrase(words) for verb, words in VERBS.items()}
    verb = max(lengths, key=lambda found: lengths[found])
    return (verb, lengths[verb]) if lengths[verb] else (None, 0)


def teams_at(cursor: Cursor) -> list[tuple[Team, int]]:
    """The teams that may be meant here, with the length of the name.

    A whole word of the tables is that word. A short form and a team's whole name stand beside each other; the beginning
    of a name counts only where it is nothing else.
    """
    listed: list[tuple[Team, int]] = [(team, 1) for team, words in TEAMS.items() if cursor.word() in words]
    if listed and len(cursor.word()) > SHORT_FORM:
        return listed
    named = [(team, length) for team, names in _names(cursor.context) if (length := cursor.phrase(names))]
    found = listed + [each for each in named if each not in listed]
    if found or not cursor.word() or _verb(cursor)[0]:
        return found
    return [(team, 1) for team in dict.fromkeys(team for team, _ in beginnings(cursor.word(), cursor.context))]


def beginnings(word: str, context: EntryContext) -> list[tuple[Team, str]]:
    """The names that begin with `word`, and whose they are."""
    return [(team, name) for team, names in _names(context) for name in names if name.startswith(word)]


def _names(context: EntryContext) -> list[tuple[Team, list[str]]]:
    return [
        ("home", [name.casefold() for name in context.home]),
        ("away", [name.casefold() for name in context.away]),
    ]
