"""An entry as it was typed becomes an event, or a problem that says what could be written instead."""

from __future__ import annotations

from collections.abc import Iterable

from ...timeline.events import KINDS, WHEN, Event
from .context import Entry, EntryContext, EntryProblem
from .door import checked
from .grammar import Grammar, read_fields
from .head import Head, heads, read_when
from .kinds import find_grammars
from .printing import print_entry
from .refusals import fix_of, message_of, no_verb, reading_first, team_missing, team_too_much
from .tokens import Cursor, NotUnderstood, Refused
from .when import check_not_past, check_one_reading, when_of

__all__ = ["parse_entry"]


def parse_entry(text: str, context: EntryContext) -> Entry | EntryProblem:
    """The event that `text` enters where the game stands as `context` says, or why there is none.

    >>> entry = parse_entry("915 h pen 12 2 tripping", EntryContext(period=2))
    >>> entry.understood
    '2 9:15 home penalty 12 minor tripping'
    """
    try:
        return _read(text, context)
    except NotUnderstood as wrong:
        offers = tuple(_reading_first(text, context) or _that_can_be_read(wrong.tries, context))
        return EntryProblem(code=wrong.code, message=message_of(text, wrong), fix=fix_of(offers, wrong), offers=offers)


def _read(text: str, context: EntryContext) -> Entry:
    cursor = Cursor.over(text, context)
    when = read_when(cursor)
    events, failures = _every_reading(cursor, when)
    if not events:
        raise max(failures, key=_how_far) if failures else no_verb(cursor, when)
    check_one_reading(text, when, context)
    check_not_past(text, events[0], when, context)
    if len(events) > 1:
        tries = [print_entry(event, context) for event in events]
        raise Refused("The entry can be read in two ways.", "entry_ambiguous", tries)
    return Entry(event=events[0], late=when.late, understood=print_entry(events[0], context))


def _every_reading(cursor: Cursor, when: Head) -> tuple[list[Event], list[NotUnderstood]]:
    """The different events that the entry may be, and where each other attempt failed."""
    events: list[Event] = []
    failures: list[NotUnderstood] = []
    for head in list(heads(cursor, when)):
        try:
            event = _event(Cursor.over(cursor.source, cursor.context), head)
        except NotUnderstood as failure:
            failures.append(failure)
        else:
            events += [] if event in events else [event]
    return events, failures


def _how_far(failure: NotUnderstood) -> tuple[bool, int]:
    return isinstance(failure, Refused), failure.offset


def _event(cursor: Cursor, head: Head) -> Event:
    cursor.position, cursor.team = head.fields_begin, head.team
    grammar = _grammar(cursor, head)
    try:
        return checked(_built(cursor, head, grammar))
    except NotUnderstood as failure:
        failure.example = grammar.example
        raise


def _built(cursor: Cursor, head: Head, grammar: Grammar) -> Event:
    fields = read_fields(cursor, grammar)
    period, clock = when_of(cursor.source, head, grammar.kind, cursor.context)
    if grammar.team:
        fields["team"] = head.team
    if period is not None:
        fields.update(period=period, clock=clock)
    return KINDS[grammar.kind](seq=0, **fields)


def _grammar(cursor: Cursor, head: Head) -> Grammar:
    """The grammar of the verb, with or without a team as it was written."""
    grammars = find_grammars(head.verb)
    for grammar in grammars:
        if grammar.team is (head.team is not None):
            return grammar
    failure = team_missing(cursor, head) if head.team is None else team_too_much(cursor, head)
    failure.example = grammars[0].example
    raise failure


def _reading_first(text: str, context: EntryContext) -> list[str]:
    """What is most likely meant where a reading stands at the end of what happened in the game."""
    try:
        entry = reading_first(text, Cursor.over(text, context))
        return [entry] if entry and WHEN[_read(entry, context).event.kind] != "optional" else []
    except NotUnderstood:
        return []


def _that_can_be_read(tries: Iterable[str], context: EntryContext) -> Iterable[str]:
    for entry in dict.fromkeys(tries):
        try:
            _read(entry, context)
        except NotUnderstood as wrong:
            if wrong.code != "entry_ambiguous":
                continue
        yield entry
