"""A record without the names of people: numbers, teams and what happened, and every answer as before.

Names on rosters go. Staff and officials become ``staff 1``, ``referee 1`` and so on, the same person by the same word
all through. What people wrote freely goes too, since it may say anything: notes, remarks, reasons, who wrote it and who
signed. What the answers need stays: infractions, rules, and where figures came from; a name in them that the record
has in one of its places for names is taken out, and so is each longer word of it. An infraction that the ruleset lists
stays as it is, whatever anybody is called.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any

from attrs import define, evolve, field

from ...timeline.events import Event, Remark
from ...timeline.record import event_from_dict, event_to_dict
from ..names import FREE, NAMES, STAFF, WORDS

__all__ = ["without_names"]

LEFT_OUT = "(left out)"
"""What stands where a text has to be."""
IN_A_TEXT = "(name)"
_GONE = NAMES | {"note"}
_FREE = FREE - _GONE
_ALWAYS_SAID = frozenset({("remark", "text"), ("void", "reason"), ("amend", "reason")})
_SHORTEST = 3
"""Letters of a name that is looked for in other texts; a shorter one would be found everywhere."""
_SHORTEST_WORD = 4
"""Letters of a single word of a name that is."""
_ROLES = {
    "referees": "referee",
    "linespersons": "linesperson",
    "scorekeeper": "scorekeeper",
    "timekeeper": "timekeeper",
    "penalty_box": "penalty box",
}
_NO_NAMES = frozenset({STAFF, *(word for role in _ROLES.values() for word in role.split())})
"""Words that stand where a name could: what such a copy itself says, and roles that signed."""


def without_names(events: Sequence[Event], head_code: str, infractions: Collection[str] = ()) -> tuple[Event, ...]:
    """The record `events` without names, and a remark that says which record it was made from.

    Args:
        events: a log, in the order written.
        head_code: the head code of that log.
        infractions: words that are no names, those of the ruleset.
    """
    cleaner = _Cleaner(events, infractions)
    text = f"A copy without names. Head code of the record that it was made from: {head_code}."
    return (*map(cleaner.event, events), Remark(seq=len(events) + 1, text=text))


@define
class _Cleaner:
    """Takes names out, event by event.

    Attributes:
        events: the whole record, where the names are found.
        infractions: what stays as it is in any text.
        words: the word for each member of staff.
        names: finds a name in a text, or an infraction that stays; ``None`` where the record has no names.
    """

    events: Sequence[Event]
    infractions: Collection[str]
    words: dict[str, str] = field(factory=dict, init=False)
    names: re.Pattern[str] | None = field(default=None, init=False)

    def __attrs_post_init__(self) -> None:
        names = {name for name in _names(self.events) if len(name) >= _SHORTEST and not _is_a_role(name)}
        words = {word for name in names for word in _words(name)}
        if names:
            stays, whole, single = map(_any_of, (self.infractions, names, words))
            patterns = rf"(?P<stays>\b(?:{stays})\b)|{whole}|\b(?:{single})(?:['\u2019]?s)?\b"
            self.names = re.compile(patterns, re.IGNORECASE)

    def event(self, event: Event) -> Event:
        """`event` without names and without the chain of the old record."""
        fields = event_to_dict(evolve(event, prev=None))
        cleaned = {name: self._value(event.kind, name, value) for name, value in fields.items()}
        return event_from_dict({name: value for name, value in cleaned.items() if _stays(event, name, value)})

    def _value(self, kind: str, name: str, value: Any) -> Any:
        """The value of one field without names; ``None`` where nothing is left of it."""
        if value is None or name in _GONE:
            return None
        if name in _FREE:
            return LEFT_OUT if (kind, name) in _ALWAYS_SAID else None
        if name == "changes":
            return self._changes(value)
        if name == "staff" and isinstance(value, str):
            return self._staff_word(value)
        if name in ("home", "away") and isinstance(value, dict):
            return self._team(value)
        if name == "officials":
            return _officials(value)
        return self._text(value) if name in WORDS and isinstance(value, str) else value

    def _changes(self, changes: Any) -> Any:
        """The changes of an amendment, of whatever kind of event: a free text is changed to what stands for it."""
        if not isinstance(changes, dict):
            return changes
        return {name: self._change(name, value) for name, value in changes.items()}

    def _change(self, name: str, value: Any) -> Any:
        if name in _FREE:
            return LEFT_OUT if isinstance(value, str) else value
        return self._value("", name, value)

    def _staff_word(self, name: str) -> str:
        return self.words.setdefault(name, f"{STAFF} {len(self.words) + 1}")

    def _team(self, sheet: Mapping[str, Any]) -> dict[str, Any]:
        """A team with its own name, its numbers, and the roles of its staff."""
        cleaned = dict(sheet)
        if isinstance(roster := sheet.get("roster"), list | tuple):
            cleaned["roster"] = [_without(player, "name") for player in _objects(roster)]
        if isinstance(staff := sheet.get("staff"), list | tuple):
            cleaned["staff"] = [self._member(one) for one in _objects(staff)]
        return cleaned

    def _member(self, member: Mapping[str, Any]) -> dict[str, Any]:
        return {**_without(member, "credential"), "name": self._staff_word(str(member.get("name")))}

    def _text(self, text: str) -> str:
        return text if self.names is None else self.names.sub(lambda found: found["stays"] or IN_A_TEXT, text)


def _any_of(texts: Iterable[str]) -> str:
    """A pattern of any of `texts`, the longest first; of none of them one that finds nothing."""
    return "|".join(map(re.escape, sorted(texts, key=lambda text: (-len(text), text)))) or "(?!)"


def _words(name: str) -> list[str]:
    """The words of a name that are long enough to tell somebody by."""
    return [word for word in re.findall(r"[^\W\d_]+", name) if len(word) >= _SHORTEST_WORD and not _is_a_role(word)]


def _is_a_role(name: str) -> bool:
    return all(word in _NO_NAMES or word.isdecimal() for word in name.casefold().split())


def _stays(event: Event, name: str, value: Any) -> bool:
    return value is not None or (event.kind, name) == ("goalie_change", "goalie")


def _objects(values: Iterable[Any]) -> Iterator[dict[str, Any]]:
    """Those that are objects: what an amendment of an amendment would change to is not checked while it is voided."""
    return (value for value in values if isinstance(value, dict))


def _without(fields: Mapping[str, Any], name: str) -> dict[str, Any]:
    return {key: value for key, value in fields.items() if key != name}


def _officials(officials: Any) -> Any:
    """As many officials as there were, by what they are."""
    if not isinstance(officials, dict):
        return officials
    return {
        role: [f"{_ROLES.get(role, role)} {number}" for number, _ in enumerate(people, 1)]
        if isinstance(people, list | tuple)
        else role
        for role, people in officials.items()
        if people is not None
    }


def _names(events: Iterable[Event]) -> Iterator[str]:
    """Every name of a person that stands in a place for names, in corrections too."""
    for event in events:
        fields = event_to_dict(event)
        yield from _named_in(fields.get("changes") if event.kind == "amend" else fields)


def _named_in(fields: Any) -> Iterator[str]:
    if not isinstance(fields, dict):
        return
    for key, value in fields.items():
        if key in ("home", "away") and isinstance(value, dict):
            yield from _named_in(_without(value, "name"))  # which is the team's
        elif key in ("roster", "staff") and isinstance(value, list | tuple):
            yield from (name for one in _objects(value) if isinstance(name := one.get("name"), str))
        elif key in ("name", "staff", "signed", "officials"):
            yield from _texts(value)
        elif key == "changes":
            yield from _named_in(value)


def _texts(value: Any) -> Iterator[str]:
    """Each text in `value`, however deep."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list | tuple):
        for one in value.values() if isinstance(value, dict) else value:
            yield from _texts(one)
