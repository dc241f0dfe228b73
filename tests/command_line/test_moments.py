"""Game times as they are asked for with `--at`, where the game has no last overtime."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import BadReading, Moment, read_log, replay

OPENED = ("--ruleset", "adult", "--setting", "overtime.periods=0", "--home", "Elm", "--away", "Oak")


@pytest.fixture
def endless(tmp_path: Path, rinkfold: Any) -> Path:
    """A game that is played until it is decided, with one entry."""
    path = tmp_path / "endless.jsonl"
    assert rinkfold("new", path, *OPENED, "--date", "2026-01-10").code == 0
    assert rinkfold("record", path, "9:15 home penalty 12 minor tripping").code == 0
    return path


@pytest.mark.parametrize("command", ["box", "strength", "explain"])
@pytest.mark.parametrize("typed", ["OT99999999 1:00", "OT97 1:00", f"OT{'9' * 5000} 1:00", "999 1:00"])
def test_no_moment_beyond_the_last_period(command: str, typed: str, endless: Path, rinkfold: Any) -> None:
    """It is refused at once and in a few words, however many figures were typed."""
    begun = time.monotonic()
    ran = rinkfold(command, endless, "--at", typed)
    assert (ran.code, ran.out) == (2, "")
    assert "is not a game time. Write the period and what the board shows" in ran.err
    assert len(ran.err) < 300
    assert time.monotonic() - begun < 30


def test_the_last_period_is_answered(endless: Path, rinkfold: Any) -> None:
    """The ninety-ninth period is the last that a log can hold, and the last that can be asked for."""
    assert rinkfold("box", endless, "--at", "OT96 1:00").code == 0
    assert rinkfold("box", endless, "--at", "99 1:00").code == 0
    log = read_log(endless)
    game = replay(log, rulesets.of(log))
    assert game.at("OT96 1:00").at == game.at(Moment(99, "1:00")).at == Moment(99, "1:00")
    for beyond in ("OT97 1:00", Moment(100, "1:00"), Moment(10**9, "1:00")):
        with pytest.raises(BadReading):
            game.at(beyond)
