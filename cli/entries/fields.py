"""The places after a verb that are more than one value: shots, skaters, who sits, the opened game."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

import attrs

from ...timeline.events import GameOpened, Shot
from ...timeline.record import event_to_dict
from .door import event_of
from .grammar import Slot
from .texts import read_text
from .tokens import Cursor, quote, read_json
from .values import COUNT, INT, KNOWN_NUMBER, NUMBER, SEQ, SIGNED_LIST, Value, is_number, last_entry, write_seq
from .words import FILLERS

__all__ = ["LAST", "OPENING", "SHOTS", "SIDES", "SIGNED", "SITTING"]

_SIDES = re.compile(r"([0-9]{1,2})[v-]([0-9]{1,2})", re.ASCII)
_EVENT_NUMBER = re.compile(r"#[0-9]+", re.ASCII)


def _read_shot(cursor: Cursor) -> dict[str, Any]:
    found: dict[str, Any] = {"player": NUMBER.read(cursor)} if is_number(cursor) else {}
    if cursor.word()[:1] in ("x", "×"):
        found["count"] = COUNT.read(cursor)
    return found


def _write_shot(event: Shot) -> list[str]:
    player = [] if event.player is None else [NUMBER.write(event.player)]
    return player if event.count is None else [*player, COUNT.write(event.count)]


def _read_sides(cursor: Cursor) -> dict[str, Any]:
    if match := _SIDES.fullmatch(cursor.word()):
        cursor.skip()
        return {"home": int(match[1]), "away": int(match[2])}
    home = INT.read(cursor)
    cursor.accept(FILLERS["on"])
    return {"home": home, "away": INT.read(cursor)}


def _read_sitting(cursor: Cursor) -> dict[str, Any]:
    """The penalty of the player who sits, by the jersey number, or by the entry's own number with ``#``."""
    if _EVENT_NUMBER.fullmatch(cursor.word()) or cursor.word() == "last":
        seq = SEQ.read(cursor)
    else:
        seq = _sitting_with(cursor)
    cursor.accept(FILLERS["open"])
    return {"penalty": seq}


def _sitting_with(cursor: Cursor) -> int:
    assert cursor.team is not None
    here = cursor.position
    number = KNOWN_NUMBER.read(cursor)
    seqs = cursor.context.sitting.get((cursor.team, number), ())
    if len(seqs) == 1:
        return seqs[0]
    cursor.position = here
    if seqs:
        tries = [cursor.with_here(write_seq(seq), instead_of=1) for seq in seqs]
        cursor.fail(f"which penalty of {number}: {', '.join(map(write_seq, seqs))}", tries, code="entry_ambiguous")
    there = [sitting for team, sitting in cursor.context.sitting if team == cursor.team]
    who = f"of {cursor.team} sit {', '.join(there)}" if there else f"nobody of {cursor.team} sits"
    tries = [cursor.with_here(KNOWN_NUMBER.write(sitting), instead_of=1) for sitting in there]
    cursor.fail(f"a player who sits ({who}), or the penalty's entry with #", tries, code="entry_target")


def _read_opening(cursor: Cursor) -> Mapping[str, Any]:
    if cursor.word()[:1] != "{":
        cursor.fail("the game as a JSON object", code="entry_json")
    data = read_json(cursor, "the game as a JSON object")
    opened = event_of({**data, "kind": GameOpened.kind})
    fields = {attribute.name: getattr(opened, attribute.name) for attribute in attrs.fields(type(opened))}
    return {name: value for name, value in fields.items() if name != "seq" and value is not None}


def _write_opening(event: GameOpened) -> list[str]:
    outside = {"seq", "kind", "after", "recorded_at", "by", "note", "prev"}
    data = {name: value for name, value in event_to_dict(event).items() if name not in outside}
    return [json.dumps(data, ensure_ascii=False)]


def _read_signed(cursor: Cursor) -> str | tuple[str, ...]:
    if cursor.word()[:1] == "[":
        names: tuple[str, ...] = SIGNED_LIST.read(cursor)
        return names
    return read_text(cursor, sentence=False)


_OPEN: Mapping[str, tuple[str, ...]] = {"released": ("open",), "ruling": ()}

LAST = Slot(lambda cursor: {"target": last_entry(cursor)}, lambda event: [])
"""The entry before, without a word for it."""
OPENING = Slot(_read_opening, _write_opening)
"""The game as a JSON object."""
SHOTS = Slot(_read_shot, _write_shot)
"""Perhaps a jersey number, perhaps a count."""
SIDES = Slot(_read_sides, lambda event: [str(event.home), "on", str(event.away)])
"""Skaters of home and away."""
SITTING = Slot(_read_sitting, lambda event: [write_seq(event.penalty), *_OPEN[event.cause]])
"""A player who sits, or his penalty."""
SIGNED = Value(_read_signed, lambda names: quote(names) if isinstance(names, str) else SIGNED_LIST.write(names))
"""One name, or a JSON list of names."""
