"""What a person reads about an entry that is not understood: what was, what was not, and what would be."""

from __future__ import annotations

import difflib

from ...timeline.clock import parse_reading
from ...timeline.events import Team
from .head import SHORT_FORM, Head, beginnings, read_when, teams_at
from .readings import is_written_out, typed_reading
from .tokens import Cursor, NotUnderstood, Refused
from .values import is_number
from .words import HORN, MEANT, OPTIONS, SAVES, VERBS

__all__ = ["fix_of", "message_of", "no_verb", "reading_first", "team_missing", "team_too_much"]

_EXAMPLE = "8:50 home goal 17 from 16 18"
_USUAL = ("goal", "shot", "penalty", "stop", "faceoff", "goalie", "timeout", "end period")


def message_of(text: str, wrong: NotUnderstood) -> str:
    """What of the entry `text` was understood, what was not, and what was expected."""
    if isinstance(wrong, Refused):
        return wrong.expected
    understood, rest = text[: wrong.offset].strip(), text[wrong.offset :].split()
    if not rest:
        return f"Understood: {understood or 'nothing'}. Then the entry ends. Expected: {wrong.expected}."
    before = f"Understood: {understood}. " if understood else ""
    return f"{before}Not understood: {rest[0]}. Expected: {wrong.expected}."


def fix_of(offers: tuple[str, ...], wrong: NotUnderstood) -> str:
    """What to write instead; an example of the kind where nothing likely can be read."""
    if offers:
        return f"Write: {', or: '.join(offers)}"
    remedy = wrong.remedy if isinstance(wrong, Refused) else ""
    return remedy or f"For example: {wrong.example or _EXAMPLE}"


def no_verb(cursor: Cursor, when: Head) -> NotUnderstood:
    """What stands at the cursor is no verb, after a team or without one; with words that it may be a slip of."""
    teams, typed = teams_at(cursor), cursor.word()
    cursor.skip(teams[0][1] if teams else 0)
    expected = "what happened, such as" if teams else "home, away or a team's name, and what happened, such as"
    usual = ", ".join(VERBS[verb][0] for verb in _USUAL)
    word = cursor.word()
    if word in SAVES:
        tries = _shot_of_the_other({team for team, _ in teams}, typed, cursor, when)
    elif teams and is_number(cursor):
        verb = VERBS["goal" if cursor.word(1) in OPTIONS["assists", ...] else "penalty"][0]
        tries = [cursor.with_here(verb)]
    elif word == HORN:
        tries = [cursor.with_here(VERBS["end period"][0] if _at_the_end(cursor, when) else f"stop {HORN}", 1)]
    else:
        known = [word for words in VERBS.values() for word in words if len(word) > SHORT_FORM]
        near = MEANT.get(word) or difflib.get_close_matches(word, known, 3)
        tries = [cursor.with_here(word, 1) for word in near]
    return NotUnderstood(cursor.offset, f"{expected} {usual}", tries)


def _shot_of_the_other(teams: set[Team], typed: str, cursor: Cursor, when: Head) -> list[str]:
    """A save is a shot by the other side; a number behind it is the goalkeeper's, or else whose shot was saved."""
    numbered = cursor.word() != "saved" and cursor.word(1).isdecimal() and cursor.peek(2) is None
    if len(teams) != 1 or (cursor.peek(1) and not numbered):
        return []
    shoots = "away" if "home" in teams else "home"
    return [f"{cursor.source[: when.when_ends]}{shoots[0] if len(typed) == 1 else shoots} {VERBS['shot'][0]}"]


def _at_the_end(cursor: Cursor, when: Head) -> bool:
    """Whether the horn is that of the end of the period."""
    context, period = cursor.context, when.period or cursor.context.period
    end = context.reading(period, context.length(period))
    return when.clock is None or parse_reading(when.clock) == parse_reading(end)


def reading_first(text: str, cursor: Cursor) -> str | None:
    """The entry with the reading at its end put before team and verb, or left out where it stands there already."""
    when = read_when(cursor)
    last = cursor.tokens[-1] if len(cursor.tokens) > cursor.position else None
    if last is None or not is_written_out(last):
        return None
    lead, rest = text[: when.when_ends].strip(), text[when.when_ends : last.start].strip()
    if when.clock is None:
        return " ".join(filter(None, (lead, last.text, rest)))
    return f"{lead} {rest}" if when.clock == typed_reading(last.text) else None


def team_missing(cursor: Cursor, head: Head) -> NotUnderstood:
    """The verb wants a team; the word that was read as the verb may have been the beginning of a team's name."""
    when, rest = cursor.source[: head.when_ends], cursor.source[head.when_ends :]
    cursor.position = head.verb_begins
    names = [name for _, name in beginnings(cursor.word(), cursor.context)]
    tries = [f"{when}{team} {rest}" for team in ("home", "away")] + [cursor.with_here(name, 1) for name in names]
    verb = VERBS[head.verb][0]
    return Refused(f"The team is missing: home, away or a team's name stands before {verb}.", "entry_team", tries)


def team_too_much(cursor: Cursor, head: Head) -> NotUnderstood:
    """The verb wants no team."""
    without = cursor.source[: head.when_ends] + cursor.source[cursor.tokens[head.verb_begins].start :]
    return Refused(f"No team stands before {VERBS[head.verb][0]}.", "entry_team", [without])
