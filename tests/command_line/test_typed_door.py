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


def looks_again(rinkfold: Rinkfold, path: Path, entry: str) -> list[str]:
    """What is said under the reply to an entry that is written."""
    run = rinkfold("record", path, entry)
    assert run.code == 0, run.err
    lead = "  Look again: "
    return [line.removeprefix(lead) for line in run.out.splitlines() if line.startswith(lead)]


@pytest.mark.parametrize("entry", ["3 12:00 away goal 17", "OT 3:00 away timeout"])
def test_a_period_that_skips_one(rinkfold: Rinkfold, playing: Path, entry: str) -> None:
    """It is written, and its writer looks again: nothing may have happened in between."""
    found = looks_again(rinkfold, playing, entry)
    assert any(line.startswith("Nothing is recorded in period") for line in found)


def test_a_game_that_begins_in_the_second_period(rinkfold: Rinkfold, fresh: Path) -> None:
    """The first entry likewise: played time that nobody wrote does not count."""
    found = looks_again(rinkfold, fresh, "2 12:00 away goal 17")
    assert any(line.startswith("Nothing is recorded in period 1, so none of it counts as played; ") for line in found)


def test_the_next_period_needs_no_word(rinkfold: Rinkfold, playing: Path) -> None:
    """A period without its end written is common."""
    assert rinkfold("record", playing, "2 14:00 away goal 17").code == 0


def test_a_log_that_has_such_an_entry_is_gone_on_with(rinkfold: Rinkfold, playing: Path) -> None:
    """What another program wrote is not asked about again."""
    append(playing, [Timeout(seq=3, period=7, clock="4:00", team="away")], expected_seq=2)
    assert rinkfold("record", playing, "3:00 away goal 17").code == 0
    assert read_log(playing).events[-1].period == 7


def test_an_entry_is_taken_back_once(rinkfold: Rinkfold, playing: Path) -> None:
    """What does not count any more is neither taken back again nor changed; what is named lets it count again."""
    assert rinkfold("record", playing, "void 2 wrong side").code == 0
    taken_back = "Event 2 was taken back by event 3 already, and does not count. To have it count again, write: void 3"
    assert refusal(rinkfold, playing, "void 2") == taken_back
    assert refusal(rinkfold, playing, "amend 2 player 9") == f"{taken_back}. Then it can be changed."
    assert rinkfold("record", playing, "void 3", "amend 2 player 9", "void 2", "void 6", "void 2").code == 0


OVER = ("1 0:00 end period", "2 0:00 end period", "3 0:00 end period")


@pytest.mark.parametrize("entry", ["12:00 h so 9 scored", "h so 9 scored"])
def test_a_shootout_in_the_first_period(rinkfold: Rinkfold, fresh: Path, entry: str) -> None:
    """A shootout has no place before the last period: its writer looks again."""
    assert rinkfold("record", fresh, "12:00 go").code == 0
    (said,) = [line for line in looks_again(rinkfold, fresh, entry) if "shootout" in line]
    assert said.startswith("A shootout follows the last period, and this is at ")
    assert said.endswith("Write what happened before it first.")


def test_a_shootout_during_overtime(rinkfold: Rinkfold, fresh: Path) -> None:
    """It may be that the end is not written yet: the attempt is offered there."""
    assert rinkfold("record", fresh, *OVER, "OT 3:00 go").code == 0
    (said,) = [line for line in looks_again(rinkfold, fresh, "h so 7 missed") if "shootout" in line]
    assert said.endswith("this is at 3:00 of period 4. Write: 4 0:00 home shootout 7 missed")
    assert rinkfold("record", fresh, "4 0:00 home shootout 7 missed", "a so 8 scored").code == 0


@pytest.mark.parametrize("end", ["OT 0:00 end period", "OT 2:10 end period", "OT 5:00 home shootout 8 missed", "stop"])
def test_a_shootout_where_one_may_be(rinkfold: Rinkfold, fresh: Path, end: str) -> None:
    """After the overtime, also one that was cut short, or after regulation where no overtime is played."""
    end = end if end != "stop" else "3 0:00 stop"
    assert rinkfold("record", fresh, *OVER, end).code == 0
    ran = rinkfold("record", fresh, "h so 10 scored")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0].endswith(" → 1-0 in the shootout · home 5 on 5")


def test_a_shootout_in_a_game_that_is_decided(rinkfold: Rinkfold, fresh: Path) -> None:
    """The goals have to be put right first."""
    assert rinkfold("record", fresh, "12:00 h g 9", *OVER[1:]).code == 0
    said = looks_again(rinkfold, fresh, "h so 9 scored")
    assert "A shootout follows a game that is level, and this one stands 1-0. Put the goals right first." in said
