"""What an official ends: who leaves, what starts, what has begun by it (R6, R12, R15)."""

from __future__ import annotations

from typing import Any

from rinkfold.timeline.fold.changes import Returned

from .short_games import game_of, parts_of, returns_of, told

RUNNING: dict[str, Any] = {"game.clock": "running"}


def test_a_ruling_gives_back_the_return_that_its_call_took() -> None:
    """4's time is up at the whistle, a call keeps him in, and the call is ruled away before play resumes."""
    before = ("1 18:00 penalty home 4 minor", "1 18:00 faceoff", "1 16:00 stoppage", "1 16:00 penalty home 4 minor")
    assert returns_of(game_of(*before, "1 16:00 faceoff")) == []
    game = game_of(*before, "1 16:00 ruling 5", "1 16:00 faceoff")
    assert returns_of(game) == [("1 16:00", "4", "on expiry")]


def test_one_ruling_of_two_calls_gives_nothing_back() -> None:
    """The other call keeps him in; ruled away too, he is back."""
    before = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 16:00 penalty home 4 minor",
        "1 16:00 penalty home 4 misconduct",
        "1 16:00 ruling 4",
    )
    assert returns_of(game_of(*before, "1 16:00 faceoff")) == []
    assert returns_of(game_of(*before, "1 16:00 ruling 5", "1 16:00 faceoff")) == [("1 16:00", "4", "on expiry")]


def test_what_is_given_back_is_given_back_once() -> None:
    """A later ruling on the same player, at another stoppage, brings back nothing of an earlier one."""
    game = game_of(
        "1 18:00 penalty home 4 minor",
        "1 18:00 penalty home 5 minor",
        "1 18:00 faceoff",
        "1 16:00 penalty home 4 minor",
        "1 16:00 ruling 5",
        "1 16:00 faceoff",
        "1 14:00 penalty home 4 minor",
        "1 14:00 ruling 8",
        "1 14:00 faceoff",
    )
    assert returns_of(game) == [("1 16:00", "4", "on expiry"), ("1 16:00", "5", "on expiry")]


def test_given_back_while_another_sits() -> None:
    """7's minor goes on; 4 may go all the same."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 17:00 penalty home 7 minor",
        "1 17:00 faceoff",
        "1 16:00 penalty home 4 minor",
        "1 16:00 ruling 6",
        "1 16:00 faceoff",
    )
    assert returns_of(game_of(*lines)) == [("1 16:00", "4", "on expiry")]


def test_what_is_given_back_may_be_taken_again() -> None:
    """Called again at the same stoppage, he sits after all."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 16:00 penalty home 4 minor",
        "1 16:00 ruling 4",
        "1 16:00 penalty home 4 minor",
        "1 16:00 faceoff",
    )
    assert returns_of(game_of(*lines)) == []


def test_nothing_is_given_back_to_another_player() -> None:
    """4 and 5 are kept in by calls at the whistle of their expiry; only 4's is ruled away."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 penalty home 5 minor",
        "1 18:00 faceoff",
        "1 16:00 penalty home 4 minor",
        "1 16:00 penalty home 5 minor",
        "1 16:00 ruling 5",
        "1 16:00 faceoff",
    )
    assert returns_of(game_of(*lines)) == [("1 16:00", "4", "on expiry")]


def test_an_ejected_stand_in_is_not_let_back() -> None:
    """60 sits for 5 and is thrown out at the stoppage at which 5's penalty is ruled away: he does not return."""
    before = ("1 18:00 penalty home 5 minor served_by=60", "1 18:00 faceoff", "1 17:00 stoppage")
    assert returns_of(game_of(*before, "1 17:00 ruling 2")) == [("1 17:00", "60", "on expiry")]
    assert returns_of(game_of(*before, "1 17:00 penalty home 60 game_misconduct", "1 17:00 ruling 2")) == []


WAITING = (
    "1 18:00 penalty home 4 minor",
    "1 18:00 penalty home 5 minor",
    "1 17:30 penalty home 6 minor",
    "1 17:30 penalty home 6 misconduct",
    "1 17:30 faceoff",
)


def test_ruling_on_one_who_waits_with_a_misconduct() -> None:
    """6's minor never ran: his misconduct starts at the ruling, and his stand-in leaves at the next stoppage."""
    game = game_of(*WAITING, "1 17:00 ruling 4", "1 16:30 stoppage")
    assert parts_of(game)["4.0"] == (None, None, "ended by ruling")
    assert parts_of(game)["5.0"] == ("1 17:00", None, "running")
    assert returns_of(game) == [("1 16:30", None, "at stoppage")]


def test_ruling_on_one_who_waits_with_nothing_else() -> None:
    """He leaves at the next stoppage, and nothing of his is left."""
    lines = (*WAITING[:3], "1 17:30 faceoff", "1 17:00 ruling 4", "1 16:30 stoppage")
    assert returns_of(game_of(*lines)) == [("1 16:30", "6", "at stoppage")]


def test_a_ruling_on_offset_time_before_a_misconduct() -> None:
    """The offset part that runs is ended, and the misconduct after it starts; ended itself, nothing is left."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 penalty away 8 minor",
        "1 18:00 penalty home 4 misconduct",
        "1 18:00 faceoff",
        "1 17:00 ruling 2",
    )
    game = game_of(*lines, ruleset="adult")
    assert parts_of(game)["2.0"] == ("1 18:00", "1 17:00", "ended by ruling")
    assert parts_of(game)["4.0"] == ("1 17:00", None, "running")
    over = game_of(*lines, "1 16:00 ruling 4", "1 15:00 stoppage", ruleset="adult")
    assert parts_of(over)["4.0"] == ("1 17:00", "1 16:00", "ended by ruling")
    assert ("1 15:00", "4", "at stoppage") in returns_of(over)


def test_a_ruling_on_one_of_two_offset_parts() -> None:
    """The part that runs is ended and the other one starts."""
    calls = ("home 4 minor", "home 4 minor", "away 8 minor", "away 9 minor")
    game = game_of(*(f"1 18:00 penalty {call}" for call in calls), "1 18:00 faceoff", "1 17:00 ruling 2")
    assert parts_of(game)["2.0"] == ("1 18:00", "1 17:00", "ended by ruling")
    assert parts_of(game)["3.0"] == ("1 17:00", None, "offset")


def test_the_player_sits_on_for_what_is_on_the_clock() -> None:
    """His misconduct is ruled away in play: the stand-in leaves for both minors, the player for the second only."""
    calls = ("1 18:00 penalty home 4 minor", "1 18:00 penalty home 4 minor", "1 18:00 penalty home 4 misconduct")
    game = game_of(*calls, "1 18:00 faceoff", "1 15:30 ruling 4", "1 15:00 stoppage", "1 13:00 stoppage")
    assert told(Returned, game) == [
        ("1 15:00", "home", None, "stand-in", "4", (2, 3), "at stoppage"),
        ("1 14:00", "home", "4", "player", "4", (3, 4), "on expiry"),
    ]


def starts(*lines: str, **settings: Any) -> list[str]:
    """The readings at which the parts of the last penalty started."""
    game = game_of(*lines, **settings)
    last = game.penalties[-1]
    return [str(part.start) for part in last.parts]


def test_what_a_run_out_starts_in_a_stoppage_has_not_begun() -> None:
    """The clock runs: the first half is up while play is stopped, play resumes at that very tenth.

    The second half has run for no time, so a major called then goes before it.
    """
    lines = ("1 18:00 penalty home 4 minor+minor", "1 18:00 faceoff", "1 16:30 stoppage", "1 16:00 faceoff")
    assert starts(*lines, "1 16:00 penalty home 4 major", "1 16:00 faceoff", **RUNNING) == ["1 16:00"]


def test_what_a_ruling_starts_in_play_has_not_begun() -> None:
    """A major called at the reading of the ruling goes before what the ruling started."""
    lines = ("1 18:00 penalty home 4 minor", "1 18:00 penalty home 4 minor", "1 18:00 faceoff", "1 17:00 ruling 2")
    assert starts(*lines, "1 17:00 penalty home 4 major", "1 17:00 faceoff") == ["1 17:00"]


def test_what_a_ruling_starts_in_a_stoppage_has_begun() -> None:
    """It is finished before a major that is called at the same stoppage."""
    lines = (
        "1 18:00 penalty home 4 minor",
        "1 18:00 penalty home 4 minor",
        "1 18:00 faceoff",
        "1 17:00 stoppage",
        "1 17:00 ruling 2",
    )
    assert starts(*lines, "1 17:00 penalty home 4 major", "1 17:00 faceoff", "1 14:00 stoppage") == ["1 15:00"]


def test_what_ran_a_tenth_has_begun() -> None:
    """A minor that was served for a tenth of a second is finished before a new major."""
    lines = ("1 0:45.3 penalty home 4 minor", "1 0:45.3 faceoff", "1 0:45.2 penalty home 4 major", "1 0:45.2 faceoff")
    game = game_of(*lines, "2 15:00 stoppage")
    assert parts_of(game)["2.0"] == ("1 0:45.3", "2 18:45.3", "served")
    assert parts_of(game)["4.0"][0] == "2 18:45.3"


MAJORS = ("1 16:00 penalty home 4 major", "1 16:00 penalty away 9 major", "1 16:00 faceoff")


def test_offset_time_that_a_run_out_starts_in_a_stoppage_has_not_begun() -> None:
    """The clock runs: 4's minor on the clock is up while play is stopped, and his offset minor starts at that tenth.

    Play resumes there, and an offset major called at the same reading goes before it.
    """
    calls = ("1 18:00 penalty home 4 minor", "1 18:00 penalty home 4 minor", "1 18:00 penalty away 8 minor")
    game = game_of(*calls, "1 18:00 faceoff", "1 16:30 stoppage", "1 16:00 faceoff", *MAJORS, **RUNNING)
    assert parts_of(game)["8.0"] == ("1 16:00", None, "offset")
    assert parts_of(game)["2.0"] == (None, None, "waiting")


EARLIER_MAJORS = tuple(line.replace("16:00", "17:00") for line in MAJORS)
TWO_OFFSET = tuple(
    f"1 18:00 penalty {call}" for call in ("home 4 minor", "home 4 minor", "away 8 minor", "away 7 minor")
)


def test_offset_time_that_a_ruling_starts_in_play_has_not_begun() -> None:
    """An offset major called at the reading of the ruling goes before it."""
    game = game_of(*TWO_OFFSET, "1 18:00 faceoff", "1 17:00 ruling 2", *EARLIER_MAJORS)
    assert parts_of(game)["8.0"] == ("1 17:00", None, "offset")


def test_offset_time_that_a_ruling_starts_in_a_stoppage_has_begun() -> None:
    """It is finished before an offset major called at the same stoppage."""
    game = game_of(*TWO_OFFSET, "1 18:00 faceoff", "1 17:00 stoppage", "1 17:00 ruling 2", *EARLIER_MAJORS)
    assert parts_of(game)["3.0"] == ("1 17:00", None, "offset")
    assert parts_of(game)["9.0"] == (None, None, "waiting")
