"""`rinkfold record`: what is understood and not written before it is said otherwise."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from rinkfold.timeline.events import Timeout
from rinkfold.timeline.record import append, read_log

Rinkfold = Any


@pytest.fixture
def playing(rinkfold: Rinkfold, fresh: Path) -> Path:
    """A game of 14-year-olds, one overtime at most, at 8:00 of the first period."""
    assert rinkfold("record", fresh, "8:00 h p 12 2 tripping").code == 0
    return fresh


def refusal(rinkfold: Rinkfold, path: Path, entry: str) -> str:
    """What is said to an entry that is refused, behind the entry itself; nothing is written."""
    before = path.read_bytes()
    ran = rinkfold("record", path, entry)
    assert (ran.code, ran.out, path.read_bytes()) == (2, "", before)
    said, nothing = ran.err.splitlines()
    assert nothing == "Nothing was written."
    return str(said).removeprefix(f"{entry}: ")


def test_a_blank_for_the_colon_is_no_period(rinkfold: Rinkfold, playing: Path) -> None:
    """`7 30` is 7:30 with a slip, and no seventh period; what is offered is written where it was meant."""
    said = refusal(rinkfold, playing, "7 30 away goal 17")
    assert said == "This may be 7:30 of period 1, or 0:30 of period 7. Write: 7:30 away goal 17"
    assert rinkfold("record", playing, "7:30 away goal 17", "7:20 go").code == 0
    assert [event.period for event in read_log(playing).events[2:]] == [1, 1]


@pytest.mark.parametrize("entry", ["7 0:30 away goal 17", "p7 030 away goal 17", "amend 2 period 7"])
def test_a_period_beyond_the_overtimes(rinkfold: Rinkfold, playing: Path, entry: str) -> None:
    """Nothing is typed into a period that the ruleset does not have."""
    expected = "By these rules there is no period 7; the last is 4, which is OT. Write the right period."
    assert refusal(rinkfold, playing, entry) == expected


@pytest.mark.parametrize("entry", ["3 12:00 away goal 17", "OT 3:00 away timeout"])
def test_a_period_that_skips_one(rinkfold: Rinkfold, playing: Path, entry: str) -> None:
    """Beyond the next period the writer is asked; what is named, written first, lets the entry in."""
    said = refusal(rinkfold, playing, entry)
    assert said.startswith("This would be in period ")
    expected = "and nothing is recorded in period 2. Write the right period. If nothing happened in period 2, "
    assert said.endswith(f"{expected}write first: 2 0:00 end period")
    assert rinkfold("record", playing, "2 0:00 end period", "3 12:00 away goal 17").code == 0


def test_a_game_that_begins_in_the_second_period(rinkfold: Rinkfold, fresh: Path) -> None:
    """The first entry is asked about like any other: played time that nobody wrote does not count."""
    said = refusal(rinkfold, fresh, "2 12:00 away goal 17")
    assert said.endswith("If nothing happened in period 1, write first: 1 0:00 end period")
    assert rinkfold("record", fresh, "1 0:00 end period", "2 12:00 away goal 17").code == 0


def test_the_next_period_needs_no_word(rinkfold: Rinkfold, playing: Path) -> None:
    """A period without its end written is common."""
    assert rinkfold("record", playing, "2 14:00 away goal 17").code == 0


def test_a_log_that_has_such_an_entry_is_gone_on_with(rinkfold: Rinkfold, playing: Path) -> None:
    """What another program wrote is not asked about again."""
    append(playing, [Timeout(seq=3, period=7, clock="4:00", team="away")], expected_seq=2)
    assert rinkfold("record", playing, "3:00 away goal 17").code == 0
    assert read_log(playing).events[-1].period == 7
