"""Two records of one game side by side: first whether the events differ, then the answers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from ...timeline.game import Game
from ...timeline.moment import moment_at
from ...timeline.script.placed import Placed
from ..comparing import Comparison
from ..event_words import event_said
from ..matching import Matched
from ..names import FREE, NAMES
from ..paper import Style
from ..people import People
from ..times import period_name, shown
from ..words import footer, listed
from .differences import difference_lines
from .layout import columns

__all__ = ["compare_lines"]

MANY = frozenset({"faceoff", "stoppage", "shot"})
"""Kinds of which a game has very many, and which a sparse record leaves out: told by their number."""

HIDDEN = NAMES | FREE | {"staff"}
"""Fields that are shown only with names."""

NOTHING = "-"


def compare_lines(comparison: Comparison, people: People, style: Style, files: tuple[str, str]) -> list[str]:
    """What both are, what differs in rules and opening, the events, and the answers."""
    games = (comparison.one, comparison.other)
    lines = [
        f"{name}  {file}: {len(game.folded.placed)} events that count"
        for name, file, game in zip("AB", files, games, strict=True)
    ]
    lines += [style.strong(_verdict(comparison)), ""]
    lines += _pairs("Opened otherwise", comparison.opening, style)
    lines += _pairs("Answered by other rules", comparison.knobs, style)
    lines += _events(comparison, style, names=people.names)
    lines += difference_lines(comparison.answers, people, style)
    return [*lines, *(style.faint(line) for line in _footers(comparison))]


def _verdict(comparison: Comparison) -> str:
    if comparison.same:
        return "The same: events and answers."
    events = "The events differ" if comparison.events else "The events are the same"
    answers = comparison.answers
    if not answers.found:
        return f"{events}; the answers are the same."
    first = "" if answers.first is None else f" from {shown(answers.first, comparison.one.rules)} on"
    return f"{events}; the answers differ{first}."


def _footers(comparison: Comparison) -> list[str]:
    one, other = footer(comparison.one.header), footer(comparison.other.header)
    return [one] if one == other else [f"A: {one}", f"B: {other}"]


def _pairs(heading: str, pairs: Mapping[str, tuple[object, object]], style: Style) -> list[str]:
    if not pairs:
        return []
    rows = [(name, _value(one), _value(other)) for name, (one, other) in pairs.items()]
    return [*style.ruled(heading), *(f"  {line}" for line in columns(rows, "<<<", style, ("", "A", "B"))), ""]


def _value(value: object) -> str:
    if value is None:
        return NOTHING
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


# -- events


def _events(comparison: Comparison, style: Style, *, names: bool) -> list[str]:
    found = comparison.events
    if not found:
        return []
    rows = [_differing(pair, comparison, names=names) for pair in found.differing]
    for index, (game, only) in enumerate(zip((comparison.one, comparison.other), found.only, strict=True)):
        rows += [_only(game, placed, index, names=names) for placed in only if placed.event.kind not in MANY]
    rows.sort(key=lambda row: row[0])
    lines = columns([row[1:] for row in rows], "><<", style, ("", "A", "B")) if rows else []
    lines += [
        f"only in {name}: {_counted(only)}" for name, only in zip("AB", found.only, strict=True) if _counted(only)
    ]
    return [*style.ruled("Events"), *(f"  {line}" for line in lines), ""]


Row = tuple[tuple[int, int, int], str, str, str]


def _differing(pair: Matched, comparison: Comparison, *, names: bool) -> Row:
    one, other = _said(comparison.one, pair.one, names=names), _said(comparison.other, pair.other, names=names)
    if not names and pair.fields.keys() & HIDDEN:
        other += f" ({listed(sorted(pair.fields.keys() & HIDDEN))} not the same: --names)"
    return (_place(pair.one), _when(comparison.one, pair.one), one, other)


def _only(game: Game, placed: Placed, index: int, *, names: bool) -> Row:
    said = _said(game, placed, names=names)
    cells = (said, NOTHING) if index == 0 else (NOTHING, said)
    return (_place(placed), _when(game, placed), *cells)


def _place(placed: Placed) -> tuple[int, int, int]:
    return placed.period, -1 if placed.played is None else placed.played, placed.event.seq


def _when(game: Game, placed: Placed) -> str:
    if placed.played is None:
        return period_name(placed.period, game.rules)
    return shown(moment_at(game.rules, placed.period, placed.played), game.rules)


def _said(game: Game, placed: Placed, *, names: bool) -> str:
    """The event with its number, without the period, which stands before it."""
    entry = event_said(game, placed.event, names=names).removeprefix(f"{placed.event.period} ")
    return f"#{placed.event.seq} {entry}"


def _counted(only: Sequence[Placed]) -> str:
    """How many there are of the kinds that are not listed: ``"40 faceoffs and 2 shots"``."""
    counts = Counter(placed.event.kind for placed in only if placed.event.kind in MANY)
    words = {"faceoff": "faceoff", "stoppage": "whistle", "shot": "shot line"}
    return listed(f"{count} {words[kind]}{'s' if count > 1 else ''}" for kind, count in counts.items())
