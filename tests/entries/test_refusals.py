"""What people read about an entry that is not understood."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from entries.common import GAME, entered, refused

from rinkfold.cli.entries import Entry, parse_entry

DATA = Path(__file__).resolve().parents[1] / "data" / "broken_entries.toml"
BROKEN: dict[str, dict[str, Any]] = tomllib.loads(DATA.read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", BROKEN)
def test_the_words_of_each_refusal(name: str) -> None:
    """A refusal says what was understood, what was not, what was expected, and what could be written instead."""
    case = BROKEN[name]
    changes: dict[str, Any] = {
        key: tuple(value) if isinstance(value, list) else value for key, value in case.get("changes", {}).items()
    }
    problem = refused(case["entry"], **changes)
    assert (problem.code, problem.message, problem.fix) == (case["code"], case["message"], case["fix"])


def test_a_reading_that_is_past_is_offered_both_ways() -> None:
    """The new period and the late entry are offered, and each is filed where it says."""
    new_period, late = refused("14:40 away goal 17").offers
    assert (new_period, late) == ("3 14:40 away goal 17", "late 14:40 away goal 17")
    for offer, period, is_late in ((new_period, 3, False), (late, 2, True)):
        entry = parse_entry(offer, GAME)
        assert isinstance(entry, Entry)
        assert (entry.event.period, entry.event.clock, entry.late) == (period, "14:40", is_late)


def test_two_readings_are_both_offered() -> None:
    """A letter that begins the names of both teams is a question, not a guess; whole words settle it."""
    problem = refused("850 w goal 17", away=("Wolves",))
    assert problem.offers == ("2 8:50 home goal 17", "2 8:50 away goal 17")


def test_nothing_to_take_back() -> None:
    """Before the first entry `undo` and `void last` have nothing to mean."""
    for text in ("undo", "void last"):
        assert refused(text, last_seq=None).message == "There is no entry before this one."


def test_a_refusal_of_a_long_number_is_no_failure() -> None:
    """A cat on the keyboard is refused like any other slip."""
    assert refused("850 a shots " + "9" * 5000).code == "entry_number"
    assert refused("open " + "{" * 5000).code == "entry_json"


@pytest.mark.parametrize("when", ["p100", "p999999999", "period 300000000", "ot97", "late p100"])
def test_no_period_beyond_the_last_that_a_log_holds(when: str) -> None:
    """Answers go period by period, so a slip in the period's number is refused before anything is reckoned."""
    problem = refused(f"{when} 5:00 home goal 9")
    assert problem.code == "entry_value"
    assert "Expected: a period from 1 to 99." in problem.message
    assert entered("p99 5:00 home goal 9").period == entered("ot96 5:00 home goal 9").period == 99
