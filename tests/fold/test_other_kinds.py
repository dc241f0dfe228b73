"""Kinds that change nothing on the ice, the shootout, the end of the record, and a late goalkeeper."""

from __future__ import annotations

from typing import Any

import pytest

from rinkfold.timeline.fold.changes import GameEnded, PlayResumed, PlayStopped

from .short_games import game_of, parts_of, told

SILENT: list[dict[str, Any]] = [
    {"kind": "remark", "period": 1, "clock": "16:00", "text": "Ice repaired."},
    {"kind": "shot", "period": 1, "team": "away"},
    {"kind": "figures", "team": "away", "shots": 9, "source": "scoreboard"},
]


@pytest.mark.parametrize("event", SILENT, ids=lambda event: event["kind"])
@pytest.mark.parametrize("before", [(), ("1 18:00 faceoff",)], ids=["in a stoppage", "in play"])
def test_what_lets_no_time_pass(event: dict[str, Any], before: tuple[str, ...]) -> None:
    """A remark, figures, or a shot without a reading do not say that play went on."""
    game = game_of("1 18:00 penalty home 4 minor", *before, event)
    assert game.folded.states[-1] == game.folded.states[-2]
    assert game.folded.changes[-1] == ()


def test_what_somebody_saw_lets_time_pass() -> None:
    """Five on four seen at 15:00: play has been on, and the minor has run out since."""
    seen = {"kind": "observed_strength", "period": 1, "clock": "15:00", "home": 5, "away": 5}
    game = game_of("1 18:00 penalty home 4 minor", seen)
    assert told(PlayResumed, game) == [("1 20:00", False), ("1 18:00", False)]
    assert parts_of(game)["2.0"] == ("1 18:00", "1 16:00", "served")


def test_a_shot_with_a_reading_lets_time_pass() -> None:
    """A shot at 15:00: play has been on, and the minor has run out since."""
    game = game_of("1 18:00 penalty home 4 minor", {"kind": "shot", "period": 1, "clock": "15:00", "team": "away"})
    assert told(PlayResumed, game) == [("1 20:00", False), ("1 18:00", False)]
    assert parts_of(game)["2.0"] == ("1 18:00", "1 16:00", "served")


@pytest.mark.parametrize("reading", [{}, {"clock": "15:00"}], ids=["without a reading", "with a reading"])
def test_a_period_of_nothing_but_shots_was_played(reading: dict[str, Any]) -> None:
    """The second period begins after the twenty minutes of the first (R24)."""
    shot = {"kind": "shot", "period": 1, "team": "away", **reading}
    game = game_of(shot, "2 18:00 penalty home 4 minor", "2 18:00 faceoff")
    assert game.folded.last.now == 12000 + 1200


def attempt(team: str, result: str) -> dict[str, Any]:
    """An attempt of the shootout."""
    return {"kind": "shootout_attempt", "period": 5, "clock": "0:00", "team": team, "result": result}


RUNNING: dict[str, Any] = {"game.clock": "running"}
OVERTIME = ("3 0:00 period_end", "4 5:00 faceoff", "4 1:00 penalty home 4 minor", "4 1:00 faceoff")


def test_a_shootout_plays_out_the_overtime_that_nobody_ended() -> None:
    """The minor of 4:00 has run for its last minute, is unfinished, and the whistle at the horn is implied."""
    game = game_of(*OVERTIME, attempt("home", "missed"), attempt("away", "missed"))
    assert game.folded.last.now == 12000 + 3000
    assert told(PlayStopped, game)[-1] == ("4 0:00", True)
    assert game.folded.last.ice.ended
    assert not game.folded.last.in_play
    assert game.folded.last.period == 4
    assert parts_of(game)["4.0"] == ("4 1:00", None, "running")
    assert game.penalties[0].parts[0].served == 600


def test_a_shootout_plays_out_an_overtime_that_was_stopped() -> None:
    """The clock runs, and play is taken to have gone on at the last whistle."""
    game = game_of(*OVERTIME, "4 0:30 stoppage", attempt("home", "missed"), **RUNNING)
    assert told(PlayResumed, game)[-1] == ("4 0:30", True)
    assert game.folded.last.now == 12000 + 3000


def test_a_shootout_after_the_recorded_end_changes_nothing() -> None:
    """The overtime was cut short at 0:30, and so it stays."""
    game = game_of(*OVERTIME, "4 0:30 period_end", attempt("home", "scored"))
    assert game.folded.last.now == 12000 + 2700
    assert told(PlayStopped, game)[-1] == ("4 0:30", False)


def test_closing_ends_the_game() -> None:
    """What is unserved stays so; the state knows that the record is closed."""
    game = game_of("1 18:00 penalty home 4 minor", "1 18:00 faceoff", "1 17:00 stoppage", "closed abandoned")
    assert game.folded.last.ice.closed
    assert told(GameEnded, game) == [("1 17:00",)]
    assert parts_of(game)["2.0"][2] == "unserved"


def test_a_goalkeeper_named_late_is_one_from_then_on() -> None:
    """A penalty before is served by the player, one after by a stand-in."""
    late = {"kind": "roster_change", "period": 1, "clock": "15:00", "team": "home", "number": "31"}
    call = "1 14:00 penalty home 31 minor"
    for position, key in (("goalkeeper", 3), ("forward", "31")):
        game = game_of({**late, "position": position}, call, "1 14:00 faceoff")
        assert [chain.key for chain in game.folded.last.home.slots] == [key]
