"""Values as they are written and as they are held, side by side, and in one line."""

from __future__ import annotations

from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline.knobs.combinations import impossible_combinations
from rinkfold.timeline.knobs.values import BadValue, read_value, with_values
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.rules import KNOBS, Ruleset, knob_value

NAMES = rulesets.names()
CLOCK = "game.running_clock"


@pytest.mark.parametrize("name", KNOBS)
def test_writing_and_reading_a_knob_agree(name: str) -> None:
    """Whatever a shipped ruleset holds is written as something that reads as the same."""
    held = [knob_value(rulesets.load(each), name) for each in NAMES]
    assert [read_value(KNOBS[name], rulesets.written(value, name)) for value in held] == held


@pytest.mark.parametrize(
    ("name", "raw", "value"),
    [
        ("lengths.minor", "1:30", 900),
        ("lengths.minor", "0:45.5", 455),
        ("game.periods", 9, 9),
        ("ice.plays_short", False, False),
        ("goals.ends_minor", "none", "none"),
    ],
)
def test_values_are_read_in_the_engines_units(name: str, raw: Any, value: Any) -> None:
    """Lengths become tenths of a second; the rest stays as it is."""
    assert read_value(KNOBS[name], raw) == value


@pytest.mark.parametrize("name", KNOBS)
@pytest.mark.parametrize("raw", [None, 1.0, 0.5, float("nan"), float("inf"), "", "yes", [], {}, -1], ids=str)
def test_no_knob_takes_what_is_not_its_own(name: str, raw: Any) -> None:
    """Nothing is bent into shape: a decimal is no count, a word no yes, an empty string no choice."""
    with pytest.raises(BadValue) as caught:
        read_value(KNOBS[name], raw)
    assert caught.value.problem.field == name
    assert caught.value.problem.code in {"wrong_type", "bad_reading", "unknown_value", "out_of_range"}


def test_a_number_is_no_yes_and_a_yes_is_no_number() -> None:
    """Python takes True for 1; a ruleset does not."""
    for name, raw in (("ice.plays_short", 1), ("ice.skaters", True), ("lengths.minor", True)):
        with pytest.raises(BadValue):
            read_value(KNOBS[name], raw)


def test_setting_knobs_leaves_the_others() -> None:
    """Knobs of one table and of a table in a table are set together."""
    values = {"game.periods": 2, "game.running_clock.starts_at_lead": 6, "lengths.minor": 600}
    rules = with_values(Ruleset(), values)
    changed = {name for name in KNOBS if knob_value(rules, name) != knob_value(Ruleset(), name)}
    assert changed == set(values)
    assert {name: knob_value(rules, name) for name in values} == values


@pytest.mark.parametrize(
    ("settings", "fields"),
    [
        ({"ice.min_skaters": 6}, ["ice.min_skaters", "ice.min_skaters"]),
        ({"overtime.skaters": 2}, ["ice.min_skaters"]),
        ({"overtime.skaters": 6}, ["overtime.skaters"]),
        ({"ice.skaters": 4}, ["overtime.skaters"]),
        ({"ice.skaters": 4, "overtime.skaters": 4}, []),
        ({f"{CLOCK}.starts_at_lead": 5, f"{CLOCK}.stops_below": 5}, []),
        ({f"{CLOCK}.starts_at_lead": 5, f"{CLOCK}.stops_below": 6}, [f"{CLOCK}.stops_below"]),
        ({"game.running_clock.stops_below": 1}, ["game.running_clock.stops_below"]),
        ({"game.periods": 2}, []),
        ({"game.periods": 2, "game.running_clock.starts_at_lead": 5}, ["game.running_clock.from_period"]),
        ({"lengths.major": "1:00", "coincident.late_netting": True}, []),
    ],
    ids=str,
)
def test_what_does_not_go_together(settings: dict[str, Any], fields: list[str]) -> None:
    """Each value is possible, and together they are not; a major no longer than a minor is allowed."""
    base = rulesets.load("youth-14u")
    values = {name: read_value(KNOBS[name], raw) for name, raw in settings.items()}
    found = list(impossible_combinations(with_values(base, values)))
    assert [(problem.code, problem.field) for problem in found] == [
        ("impossible_combination", field) for field in fields
    ]
    if found:
        with pytest.raises(ProblemsFound) as caught:
            rulesets.with_settings(base, settings)
        assert caught.value.problems == tuple(found)


def test_differences_are_written_as_in_files() -> None:
    """Dotted name, one value, the other; nothing for the same ruleset."""
    young, old = rulesets.load("youth-10u"), rulesets.load("youth-12u")
    assert rulesets.diff(young, old) == (
        ("game.period_length", "12:00", "15:00"),
        ("lengths.minor", "1:30", "2:00"),
    )
    assert rulesets.diff(young, young) == ()


def test_overrides_are_what_the_settings_change() -> None:
    """A setting that says what the ruleset says anyway overrides nothing."""
    settings = {"lengths.minor": "1:30", "overtime.skaters": 3, "ice.plays_short": True}
    assert rulesets.overrides(rulesets.load("youth-10u"), settings) == (("overtime.skaters", 5, 3),)
    assert rulesets.overrides(rulesets.load("youth-10u"), None) == ()


@pytest.mark.parametrize(
    ("settings", "line"),
    [
        ({}, "minor 1:30 · period 12:00 · board counts down · overtime 5:00, 5 on 5"),
        (
            {"overtime.skaters": 3, "game.reading": "elapsed", "game.clock": "running"},
            "minor 1:30 · period 12:00 · board counts up · running clock · overtime 5:00, 3 on 3",
        ),
        (
            {"game.running_clock.starts_at_lead": 6, "ice.plays_short": False},
            "minor 1:30 · period 12:00 · board counts down · no side plays short · "
            "running clock from period 3 at a lead of 6 · overtime 5:00, 5 on 5",
        ),
    ],
    ids=["as shipped", "up and running", "by lead"],
)
def test_the_line_that_the_table_checks_first(settings: dict[str, Any], line: str) -> None:
    """What is applied, in one line."""
    assert rulesets.applied_line(rulesets.with_settings(rulesets.load("youth-10u"), settings)) == line
