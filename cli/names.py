"""What in a record names a person: the one place that decides it, for every answer and every copy.

A field of `NAMES` holds a name and nothing else; a field of `FREE` is text that people wrote freely, which may hold
one. Neither is shown where no names were asked for. The words of `WORDS` are answers themselves: they stay, and only
a copy that leaves the house is searched for names in them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import evolve, fields_dict

from ..timeline.events import Amend, Event, GameOpened, PenaltyAssessed, Remark, Void
from ..timeline.record import event_to_dict
from .entries import EntryContext, print_entry

__all__ = ["FREE", "NAMES", "STAFF", "WORDS", "plain_fields", "said", "staff_word"]

NAMES = frozenset({"name", "credential", "signed", "by"})
"""Fields that name somebody; `staff` and `officials` do too, and have words that stand for them."""
FREE = frozenset({"text", "reason", "note"})
"""Fields of free text."""
WORDS = frozenset({"infraction", "rule", "source"})
"""Fields of free text that say what an answer is about."""
STAFF = "staff"
"""What stands for the name of somebody on the bench."""


def staff_word(name: str | None, *, names: bool) -> str | None:
    """Somebody on the bench by name only where `names` are wanted; None where it is nobody."""
    return name if name is None or names else STAFF


def said(event: Event, context: EntryContext, *, names: bool) -> str:
    """`event` as a short entry, without when and by whom it was written.

    Without `names` what names people is left out; of a remark or a correction it is said only that there was one.
    """
    plain = evolve(event, recorded_at=None, by=None, note=None, prev=None)
    if not names and isinstance(plain, Void | Amend):
        return f"{plain.kind} #{plain.target}"
    if not names and isinstance(plain, Remark):
        return plain.kind
    return print_entry(plain if names else _without(plain), context).removeprefix("late ")


def _without(event: Event) -> Event:
    """`event` without names and free text; all of those are fields that may be empty."""
    gone: dict[str, Any] = {name: None for name in (NAMES | FREE) & fields_dict(type(event)).keys()}
    if isinstance(event, PenaltyAssessed):
        gone["staff"] = staff_word(event.staff, names=False)
    return evolve(event, **gone)


def plain_fields(event: Event, *, names: bool) -> dict[str, Any]:
    """The fields of `event` as the log has them, without those that name people unless `names` are wanted."""
    fields = event_to_dict(event)
    if names:
        return fields
    if isinstance(event, GameOpened):
        fields = {name: value for name, value in fields.items() if name != "officials"}
        return {name: _sheet(value) if name in ("home", "away") else value for name, value in _shown(fields).items()}
    return _shown(fields)


def _shown(fields: Mapping[str, Any]) -> dict[str, Any]:
    """`fields` without names and free text."""
    kept = {name: value for name, value in fields.items() if name not in NAMES | FREE | {"changes"}}
    return {**kept, "staff": STAFF} if kept.get("staff") is not None else kept


def _sheet(sheet: Mapping[str, Any]) -> dict[str, Any]:
    """A team with its own name, without those of its people."""
    roster = {"roster": [_shown(one) for one in sheet["roster"]]} if sheet.get("roster") else {}
    staff = {"staff": [_shown(one) for one in sheet["staff"]]} if sheet.get("staff") else {}
    return {**sheet, **roster, **staff}
