"""The schema and the reader agree on single lines, right and broken."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from schema.reading import VALIDATOR, fits, is_read
from strategies import of_kind

from rinkfold import rulesets
from rinkfold.timeline.events import EVENT_CLASSES, KINDS, WHEN
from rinkfold.timeline.record import event_to_dict
from rinkfold.timeline.rules import KNOBS, Knob

ROOT = Path(__file__).resolve().parents[2]
HEADER = {
    "seq": 1,
    "kind": "game_opened",
    "format": 1,
    "game": "g",
    "ruleset": "adult",
    "home": {"name": "Larks"},
    "away": {"name": "Otters"},
}
ODD: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 2, 10, 10**30, 3.7, -0.5, "", "x", "7", "home", "ice", "C", "minor", "released",
    "scored",
    "9:15", "9:15\n", "\n9:15", "09:15", "0009:15", "9:5", "9:60", "9.15", "0:00", "0:00.0", "0:00.1", "0:01", "0:45.3",
    "0:45.33", "٩:15", "2026-01-10T18:30:05Z", "2026-01-10T18:30:05Z\n", "2026-01-10T18:30:05.25+00:00",
    "2026-01-10T18:30:05", "2026-13-10T18:30:05Z", "2026-04-31T18:30:05Z", "2026-01-10T24:00:00Z",
    "2026-01-10 18:30:05Z",
    [], ["minor"], ["7", "7"], [None], [["minor"]], {}, {"name": "x"}, {"number": "7"}, {"x": {"x": 1}},
)  # fmt: skip
UNKNOWN = ("x", "Seq", "kind ", "goalie", "player", "team", "period", "clock", "count", "home", "name", "knobs", "")


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Each container inside `value` with each of its keys or indices."""
    inner = list(value.items()) if isinstance(value, dict) else list(enumerate(value))
    for key, each in inner:
        yield value, key
        if isinstance(each, dict | list):
            yield from places(each)


def objects(value: Any) -> Iterator[dict[str, Any]]:
    """Each object in `value`, itself first."""
    if isinstance(value, dict):
        yield value
    if isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from objects(each)


@st.composite
def broken(draw: st.DrawFn, kind: str) -> Any:
    """A line of `kind` with one to three things done to it; perhaps it is still right."""
    line = plain(draw(of_kind(kind)))
    if kind == "game_opened":
        rules = draw(st.sampled_from(["as drawn", "knobs", "right"]))
        if rules == "knobs":
            line |= draw(st.fixed_dictionaries({}, optional={"settings": settings_, "pinned": pinned}))
        elif rules == "right":
            line |= {"settings": {"lengths.minor": "1:30"}, "pinned": None}
    for _ in range(draw(st.integers(1, 3))):
        damage(draw, line)
    return line


def plain(event: Any) -> dict[str, Any]:
    """The event as a parsed line."""
    line: dict[str, Any] = json.loads(json.dumps(event_to_dict(event)))
    return line


def damage(draw: st.DrawFn, line: dict[str, Any]) -> None:
    """Drop a field, put another value in, add a field, or nest one deeper."""
    where = list(places(line))
    what = draw(st.sampled_from(["drop", "replace", "add", "list", "object"])) if where else "add"
    if what == "add":
        draw(st.sampled_from(list(objects(line))))[draw(st.sampled_from(UNKNOWN))] = copy.deepcopy(
            draw(st.sampled_from(ODD))
        )
        return
    container, key = draw(st.sampled_from(where))
    if what == "drop":
        del container[key]
    elif what == "replace":
        container[key] = copy.deepcopy(draw(st.sampled_from(ODD)))
    else:
        container[key] = [container[key]] if what == "list" else {"x": container[key]}


def knob_values(knob: Knob) -> st.SearchStrategy[Any]:
    """Values of a knob, right ones and wrong ones."""
    near = [knob.least, knob.least - 1, knob.most, (knob.most or 0) + 1]
    return st.sampled_from([*knob.values, "2:00", "0:00.9", "0:01", 5, True, *near, *ODD])


settings_ = st.sampled_from(list(KNOBS.values())).flatmap(
    lambda knob: st.dictionaries(st.just(knob.name), knob_values(knob), max_size=1)
)
pinned = st.fixed_dictionaries(
    {"name": st.just("adult"), "knobs": settings_},
    optional={
        "title": st.sampled_from(["", "x"]),
        "sources": st.dictionaries(st.text(max_size=3), st.text(max_size=3), max_size=2),
        "infractions": st.lists(st.text(max_size=3), max_size=2),
    },
)


@pytest.mark.parametrize("kind", KINDS)
def test_made_events_are_accepted_by_both(kind: str) -> None:
    """What the classes can hold, the schema accepts; of a first line as far as its rules are right."""

    @settings(max_examples=20)
    @given(of_kind(kind))
    def check(event: Any) -> None:
        line = plain(event)
        if kind == "game_opened":
            line |= {"settings": {"lengths.minor": "1:30"}, "pinned": rulesets.pin(rulesets.load("adult"))}
        assert is_read(line)
        assert VALIDATOR.is_valid(line)
        assert not VALIDATOR.is_valid(line | {"x": 1})

    check()


@pytest.mark.parametrize("kind", KINDS)
def test_broken_events_are_judged_alike(kind: str) -> None:
    """A field dropped, another type, out of range, an unknown field, a bad reading, null, deeper nesting."""
    judged = set()

    @settings(max_examples=100)
    @given(broken(kind))
    def check(line: Any) -> None:
        read = is_read(line)
        assert fits(line) is read
        judged.add(read)

    check()
    assert False in judged


@pytest.mark.parametrize("kind", KINDS)
def test_each_field_with_each_odd_value(kind: str) -> None:
    """Every field of every kind, its value exchanged for each of many odd ones."""

    @settings(max_examples=1)
    @given(of_kind(kind))
    def check(event: Any) -> None:
        line = plain(event) | ({"settings": None, "pinned": None} if kind == "game_opened" else {})
        names = {attribute.name for attribute in type(event).__attrs_attrs__} | {"kind", *UNKNOWN}
        for name in names:
            for value in ODD:
                changed = line | {name: value}
                assert fits(changed) is is_read(changed), (name, value)

    check()


@pytest.mark.parametrize("knob", KNOBS.values(), ids=lambda knob: knob.name)
def test_each_knob_with_each_odd_value(knob: Knob) -> None:
    """In `settings` and in `pinned`."""
    near = [knob.least, knob.least - 1, knob.most, (knob.most or 0) + 1]
    judged = set()
    for value in [*knob.values, "2:00", "0:00.9", "0:01", *near, *ODD]:
        set_ = HEADER | {"settings": {knob.name: value}}
        pinned_ = HEADER | {"pinned": {"name": "x", "knobs": {knob.name: value}}}
        assert fits(set_) is fits(pinned_) is is_read(set_), value
        assert is_read(set_) is is_read(pinned_), value
        judged.add(is_read(set_))
    assert judged == {True, False}


@pytest.mark.parametrize(
    "value", [None, [], 7, "x", True, [HEADER], {}, {"kind": None}, {"kind": []}, {"kind": "gaol"}]
)
def test_what_is_no_event_at_all(value: Any) -> None:
    """Both refuse it."""
    assert (VALIDATOR.is_valid(value), is_read(value)) == (False, False)


@pytest.mark.parametrize("kind", [cls.kind for cls in EVENT_CLASSES])
@pytest.mark.parametrize("period", [None, "absent", 2])
@pytest.mark.parametrize("clock", [None, "absent", "9:15"])
def test_period_and_reading_by_kind(kind: str, period: Any, clock: Any) -> None:
    """Never, both or neither, a period without a reading, or both always: null is as good as absent."""
    line = plain(of_kind_once(kind)) | {"period": period, "clock": clock}
    line = {name: value for name, value in line.items() if value != "absent"}
    if kind == "game_opened":
        line |= {"settings": None, "pinned": None}
    have = (line.get("period") is not None, line.get("clock") is not None)
    right = {
        "never": {(False, False)},
        "optional": {(False, False), (True, True)},
        "no reading": {(True, False), (True, True)},
        "required": {(True, True)},
    }[WHEN[kind]]
    assert fits(line) is is_read(line) is (have in right)


def of_kind_once(kind: str) -> Any:
    """One event of `kind`."""
    found = []

    @settings(max_examples=1, database=None)
    @given(of_kind(kind))
    def take(event: Any) -> None:
        found.append(event)

    take()
    return found[0]


@pytest.mark.parametrize("name", ["game.jsonl", "sparse.jsonl"])
def test_the_example_games(name: str) -> None:
    """Every line is accepted."""
    for line in (ROOT / "examples" / name).read_text("utf-8").splitlines():
        assert VALIDATOR.is_valid(json.loads(line)), line
