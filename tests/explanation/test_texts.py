"""`rinkfold explain`: the exact words, each text read against the rules before it was kept."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
TELLING = tomllib.loads((EXAMPLES / "telling-moments.toml").read_text("utf-8"))["moment"]
GOLDEN = Path(__file__).with_name("golden")
OF_AN_EVENT = sorted(path.stem for path in GOLDEN.glob("[gp]*.txt"))
FOOTER = "Rules: youth-14u, with overtime.skaters 3. The league's own rules and the officials on the ice decide."


def named(at: str) -> str:
    """The file of a moment: ``"at_2_6_30"``."""
    return "at_" + re.sub("[ :]", "_", at)


@pytest.mark.parametrize("moment", TELLING, ids=lambda moment: moment["at"])
def test_each_telling_moment(moment: dict[str, Any], rinkfold: Any, example: Path, golden: Any) -> None:
    """Short, and every step of it."""
    at = moment["at"]
    assert rinkfold("explain", example, "--at", at).out == golden(named(at))
    assert rinkfold("explain", example, "--at", at, "--full").out == golden(f"{named(at)}_full")


@pytest.mark.parametrize("name", OF_AN_EVENT)
def test_the_penalties_and_goals_behind_them(name: str, rinkfold: Any, example: Path, golden: Any) -> None:
    """What became of a penalty, and what a goal ended and why."""
    kind, seq, *full = name.split("_")
    assert rinkfold("explain", example, f"--{kind}", seq, *(["--full"] if full else [])).out == golden(name)


@pytest.mark.parametrize("moment", TELLING, ids=lambda moment: moment["at"])
def test_the_answer_is_the_one_worked_out_by_hand(moment: dict[str, Any], rinkfold: Any, example: Path) -> None:
    """Skaters, and everybody in the box with the time left, stand in the first lines."""
    lines = rinkfold("explain", example, "--at", moment["at"]).out.splitlines()
    wrapped = [line.strip() for line in lines[1:] if line.startswith("  ") and not re.match(r" +(\d|OT) ", line)]
    answer = " ".join([lines[0], *wrapped])
    assert f": home {moment['home']} on {moment['away']} away;" in answer
    rows = moment["home_box"] + moment["away_box"]
    for row in rows:
        left = "time is up" if row["remaining"] == "0:00" else f"{row['remaining']} left"
        whom = row["sits"] if row["sits"] == row["player"] else f"{row['sits']} for {row['player']}"
        assert re.search(rf"\b{whom} \([^)]*{left}\)", answer)
    assert ("nobody sits" in answer) is not bool(rows)


@pytest.mark.parametrize("path", sorted(GOLDEN.glob("*.txt")), ids=lambda path: path.stem)
def test_short_is_short_and_whose_rules_is_always_said(path: Path) -> None:
    """At most two reasons below the answer; the last line names the rules and who decides; no name of a player."""
    text = path.read_text("utf-8")
    assert text.splitlines()[-1] == FOOTER
    assert "Merrywick" not in text
    assert all(len(line) <= 110 for line in text.splitlines())
    if not path.stem.endswith("full"):
        assert 1 <= len(re.findall(r"^ +(?:\d|OT) \d+:\d\d(?:\.\d)?  ", text, flags=re.MULTILINE)) <= 2


def test_names_only_where_they_are_wanted(rinkfold: Any, example: Path) -> None:
    """With --names the roster's names stand beside the numbers, in answer and steps."""
    text = rinkfold("explain", example, "--at", "3 9:00", "--names").out
    assert "home 21 Hugo Merrywick sits for 18 Viggo Stonebeck: 18 Viggo Stonebeck is out of the game" in text


def test_an_injured_player_is_not_told_to_go_back(rinkfold: Any, started: Path) -> None:
    """Where a player may leave the box, it is said that the record has the player as injured."""
    rinkfold("record", started, "h roster 9 injured", "2 8:00 go")
    text = rinkfold("explain", started, "--penalty", "115", "--full").out
    assert "  home 9 (recorded as injured) may leave the box" not in text
    assert "  home 9 may leave the box (recorded as injured)" in text


def test_a_game_that_goes_on_is_told_as_far_as_it_is_known(rinkfold: Any, started: Path) -> None:
    """What is supposed is called so."""
    text = rinkfold("explain", started, "--at", "2 8:00", "--full").out
    assert text.splitlines()[0] == "2 8:00: home 5 on 5 away, if nothing else happens; nobody sits"
    assert "2 8:20  time runs out\n  the second minor of home 9 is over, 2:00 served\n" in text


def test_a_call_in_a_stoppage_is_told_as_if_play_went_on(rinkfold: Any, started: Path) -> None:
    """Nobody has dropped the puck yet."""
    rinkfold("record", started, "11:00 a pen 24 2 holding")
    text = rinkfold("explain", started, "--at", "2 11:00", "--full").out
    assert "2 11:00  if play goes on and nothing else happens\n  away 24's minor begins and runs until 9:00" in text


def test_what_nobody_wrote_is_called_so(rinkfold: Any) -> None:
    """In a sparse record penalties start at faceoffs that follow from the next event."""
    text = rinkfold("explain", EXAMPLES / "sparse.jsonl", "--penalty", "4", "--full").out
    assert "1 13:10  play goes on, not written\n" in text
    assert "1 11:10  time runs out\n  home 12's minor is over, 2:00 served\n" in text
