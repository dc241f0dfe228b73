"""The schema itself: valid, made from the classes, and told by the command."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from typing import Any

import attrs
import pytest
from jsonschema import Draft202012Validator
from jsonschema.exceptions import best_match

from rinkfold.timeline import log_schema
from rinkfold.timeline.events import EVENT_CLASSES, Event, GameOpened
from rinkfold.timeline.rules import KNOBS

SCHEMA = log_schema()


def each_schema(value: Any) -> list[dict[str, Any]]:
    """Every object in the schema."""
    found = [value] if isinstance(value, dict) else []
    for each in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        found += each_schema(each)
    return found


def test_it_is_a_schema_of_2020_12() -> None:
    """The meta-schema accepts it, and it says which one that is."""
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


def test_a_schema_that_is_wrong_would_be_noticed() -> None:
    """The check above can fail."""
    with pytest.raises(Exception, match=r"is not valid under any of the given schemas|is not of type"):
        Draft202012Validator.check_schema({**SCHEMA, "type": "objekt"})


def test_every_kind_and_field_is_there_in_the_order_written() -> None:
    """One definition a kind; its properties are the fields of the class and `kind`."""
    kinds = [cls.kind for cls in EVENT_CLASSES]
    assert SCHEMA["properties"]["kind"]["enum"] == kinds
    assert [each["if"]["properties"]["kind"]["const"] for each in SCHEMA["allOf"]] == kinds
    assert [each["then"]["$ref"] for each in SCHEMA["allOf"]] == [f"#/$defs/{kind}" for kind in kinds]
    for cls in EVENT_CLASSES:
        names = list(SCHEMA["$defs"][cls.kind]["properties"])
        assert set(names) == {"kind", *(attribute.name for attribute in attrs.fields(cls))}
        assert names[:4] == ["seq", "kind", "period", "clock"]
        assert names[-1] == "prev"


def test_titles_and_descriptions_are_the_docstrings() -> None:
    """A program that makes types from the schema gets our names and our words."""
    for cls in EVENT_CLASSES:
        made = SCHEMA["$defs"][cls.kind]
        assert made["title"] == cls.__name__
        summary, _, attributes = " ".join((cls.__doc__ or "").split()).partition(" Attributes: ")
        assert made["description"]
        assert summary.startswith(made["description"])
        said = attributes + " ".join((Event.__doc__ or "").split())
        for name, of_field in made["properties"].items():
            if name != "kind" and of_field.get("type") != "null":
                assert re.search(rf"\b{name}(, \w+)*: {re.escape(of_field['description'])}", said)


def test_every_field_has_a_description() -> None:
    """Of every kind, of what stands inside one, of the settings and of the pinned ruleset; fields told together too."""
    fields = {
        f"{name}.{field}": described.get("description")
        for name, definition in SCHEMA["$defs"].items()
        for field, described in definition["properties"].items()
    }
    assert len(fields) > 250
    assert not [name for name, description in fields.items() if not description]
    assert fields["game_opened.home"] == fields["game_opened.away"] == "the teams."
    assert fields["Officials.referees"] == "their names, as many as there are."


def test_the_knobs_are_all_there() -> None:
    """With their meaning."""
    properties = SCHEMA["$defs"]["settings"]["properties"]
    assert {name: each["description"] for name, each in properties.items()} == {
        name: knob.meaning for name, knob in KNOBS.items()
    }


def test_patterns_are_plain_enough_for_every_language() -> None:
    """Nothing that only some engines know: no look-around, no named groups, no classes of their own."""
    patterns = [each["pattern"] for each in each_schema(SCHEMA) if isinstance(each.get("pattern"), str)]
    assert len(patterns) > 40
    for pattern in patterns:
        assert not re.search(r"\(\?[^:]|\\[dwsbAZpP]", pattern), pattern


def test_it_follows_a_class() -> None:
    """A field added to a class is in the schema without a further word."""
    from rinkfold.timeline.record import schema

    @attrs.frozen(kw_only=True)
    class Longer(GameOpened):
        """Longer."""

        crowd: int | None = None

    made = schema._event(Longer, {})
    assert made["properties"]["crowd"] == {"type": ["integer", "null"]}
    assert "crowd" not in made["required"]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            {"seq": 2, "kind": "penalty_assessed", "period": 1, "clock": "9:00", "team": "home"},
            "'parts' is a required property",
        ),
        ({"seq": 2, "kind": "timeout", "period": 1, "clock": "9:00", "team": "hoem"}, "'hoem' is not one of"),
        ({"seq": 2, "kind": "faceoff", "period": 1, "clock": "9:0"}, "'9:0' does not match"),
        ({"seq": 2, "kind": "remark", "txt": "x", "text": "y"}, "('txt' was unexpected)"),
        ({"seq": 2, "kind": "remark", "text": "y", "period": 1}, "'clock' is a required property"),
        ({"seq": 2, "kind": "remark", "text": "y", "clock": "9:00", "period": None}, "None is not of type 'integer'"),
        ({"seq": 2, "kind": "gaol"}, "'gaol' is not one of"),
        ({"seq": 2}, "'kind' is a required property"),
    ],
)
def test_what_is_wrong_is_told_of_the_kind_that_was_meant(line: dict[str, Any], said: str) -> None:
    """A validator's best guess names the field at fault, not one of another kind."""
    best = best_match(Draft202012Validator(SCHEMA).iter_errors(line))
    assert best is not None
    assert said in best.message


def test_each_caller_has_one_of_his_own() -> None:
    """Changing it changes nobody else's."""
    log_schema()["$defs"]["goal"]["properties"]["seq"].clear()
    log_schema()["$defs"]["remark"]["allOf"][0]["if"].clear()
    log_schema()["$defs"].clear()
    assert log_schema() == SCHEMA


def test_the_command_prints_it() -> None:
    """As JSON and nothing else."""
    command = [sys.executable, "-m", "rinkfold.cli.main", "schema"]
    ran = subprocess.run(command, capture_output=True, text=True, check=True)
    assert (json.loads(ran.stdout), ran.stderr) == (SCHEMA, "")
    assert ran.stdout.isascii()


def test_the_command_takes_nothing() -> None:
    """Exit code 2 for what it does not understand, and nothing that could be taken for a schema."""
    command = [sys.executable, "-m", "rinkfold.cli.main", "schema", "goal"]
    ran = subprocess.run(command, capture_output=True, text=True)
    assert (ran.returncode, ran.stdout) == (2, "")
    assert "goal" in ran.stderr
