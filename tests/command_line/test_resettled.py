"""What an entry changes for those who sit already is said with it: the first answer is on somebody's paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest


@pytest.fixture
def said(tmp_path: Path, rinkfold: Callable[..., Any]) -> Callable[..., str]:
    """What is said of the last of some entries in a new game."""

    def record(ruleset: str, *entries: str) -> str:
        path = tmp_path / f"{len(list(tmp_path.iterdir()))}.jsonl"
        assert rinkfold("new", path, "--ruleset", ruleset, "--home", "Ash", "--away", "Oak").code == 0
        run = rinkfold("record", path, *entries)
        assert run.code == 0, run.err
        *_, last = (line for line in run.out.splitlines() if line.startswith("#"))
        return str(last.partition(" → ")[2].rpartition(" · ")[0])

    return record


def test_majors_on_both_sides_bring_the_minor_of_one_forward(said: Callable[..., str]) -> None:
    """8 was to sit for seven minutes; the majors offset, so he sits for the minor alone and 5 sits longer himself."""
    effect = said("youth-12u", "1400 h p 5 5+2 fighting served 8", "1400 a p 6 5 fighting")
    assert effect.split("; ")[1:] == [
        "home 8 for 5: now out at 12:00 (before: 7:00)",
        "home 5: now not begun, time up at 7:00, out at the next whistle after",
    ]


def test_a_place_is_free_again(said: Callable[..., str]) -> None:
    """Majors with game misconducts on both sides: nobody is short, and who sat for one need not."""
    effect = said("youth-12u", "1215 h p 4 5+game fighting served 8", "1215 a p 6 5+game fighting served 9")
    assert effect.endswith("away 6 is out of the game; home 8 for 4 sits no longer")


def test_late_netting_sends_a_team_mate_in(said: Callable[..., str]) -> None:
    """Within five minutes of the end a major is netted with a double minor: somebody sits for the difference."""
    quiet = ("1 2000 go", "end period", "2 0:00 end period")
    effect = said("international", *quiet, "3 430 h p 5 5 fighting", "430 a p 6 2+2 roughing")
    assert "home a team-mate for 5: now out at 3:30" in effect


def test_a_third_penalty_keeps_the_first_two_in(said: Callable[..., str]) -> None:
    """Whoever was to leave on the board now waits for a place: the third takes it."""
    effect = said("youth-12u", "1400 h p 2 2 tripping", "1330 h p 3 2+2 roughing", "1300 h p 4 2 hooking")
    assert (
        "home 2: now time up at 12:00, out at 10:00 on the board or at a whistle in between (before: 12:00)" in effect
    )
    assert "home 3: now time up at 9:30, out at the next whistle after" in effect


def test_a_goal_lets_the_third_begin(said: Callable[..., str]) -> None:
    """It ends the first minor, so the one who waited begins at once and nobody waits for a place any more."""
    effect = said("youth-12u", "1400 h p 2 2 tripping", "1330 h p 3 2+2 roughing", "1300 h p 4 2 hooking", "1250 a g 7")
    assert effect.endswith("home 2 leaves the box; home 3: now out at 9:30; home 4: now out at 10:50 (before: 9:30)")


def test_more_for_the_same_player_sends_a_team_mate_in(said: Callable[..., str]) -> None:
    """Time on the clock and an offset minor cannot be served by one person at once: somebody else goes in."""
    effect = said("youth-12u", "1330 h p 7 2 tripping", "1330 a p 9 5 fighting", "1330 a p 9 2 slashing")
    assert effect.split("; ") == [
        "not begun, time up at 6:30, out at the next whistle after",
        "home 7: now offset, time up at 11:30, out at the next whistle after",
        "away a team-mate for 9: now out at 8:30",
    ]


def test_what_changes_nothing_for_others_says_nothing_of_them(said: Callable[..., str]) -> None:
    """A penalty of the other side, a whistle, a faceoff: each time told holds, and time going by is no change."""
    assert said("youth-12u", "1400 h p 2 2 tripping", "1330 a p 9 2 hooking") == "out at 11:30"
    assert said("youth-12u", "1400 h p 2 5 charging", "1330 stop") == "nobody leaves the box"
    assert said("youth-12u", "1400 h p 2 5 charging", "1330 stop", "1330 go") == "play is on"


def test_a_misconduct_with_a_minor_sends_a_team_mate_in(said: Callable[..., str]) -> None:
    """The player serves the misconduct, so somebody else sits for the minor that he was to serve himself."""
    effect = said("youth-12u", "1400 h p 2 2 hooking", "1400 h p 2 10 abuse")
    assert (
        effect == "not begun, time up at 2:00, out at the next whistle after; home a team-mate for 2: now out at 12:00"
    )
