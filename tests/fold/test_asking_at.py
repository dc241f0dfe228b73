"""Asking for a game at a time that was typed: what is no time of the game is refused, with what to type."""

from __future__ import annotations

import pytest

from rinkfold import rulesets
from rinkfold.timeline import BadReading, Faceoff, LiveGame, Moment, PenaltyAssessed

RULES = rulesets.load("youth-12u")


def game() -> LiveGame:
    live = LiveGame.open(RULES, home="Larks", away="Herons")
    live.record(PenaltyAssessed(seq=0, period=1, clock="9:15", team="home", player="12", parts=("minor",)))
    live.record(Faceoff(seq=0, period=1, clock="9:15"))
    return live


@pytest.mark.parametrize("typed", ["7:42", "2", "2 7.42", "2 7:42 x", "", "x 7:42"])
def test_what_is_no_period_and_reading(typed: str) -> None:
    """The message asks for both, also where a reading alone was given."""
    with pytest.raises(BadReading, match=r"is not a period and a reading: write both, for example 2 7:42") as caught:
        game().at(typed)
    assert caught.value.found == typed


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("9 1:00", "there is no period 9"),
        ("0 5:00", "there is no period 0"),
        ("OT9 1:00", "there is no period 12"),
        ("2 16:00", "period 2 is 15:00 long"),
        ("2 15:00.1", "period 2 is 15:00 long"),
    ],
)
def test_what_is_no_time_of_this_game(typed: str, why: str) -> None:
    """The command and the stream refuse the same."""
    with pytest.raises(BadReading, match=why):
        game().at(typed)


def test_the_ends_of_a_period_are_times_of_it() -> None:
    """The whole reading and zero."""
    assert [str(game().at(typed).at) for typed in ("2 15:00", "2 0:00")] == ["2 15:00", "2 0:00"]


def test_overtime_without_end() -> None:
    """Where overtimes are played until one is decided, there is every one of them."""
    rules = rulesets.with_settings(RULES, {"overtime.periods": 0})
    live = LiveGame.open(rules, home="Larks", away="Herons")
    assert live.at("OT9 1:00").at == Moment(12, "1:00")


def test_a_period_of_the_record_that_the_rules_do_not_have() -> None:
    """It was written, so it can be asked for."""
    live = game()
    live.record(Faceoff(seq=0, period=6, clock="1:00"))
    assert live.at("6 1:00").at == Moment(6, "1:00")
    with pytest.raises(BadReading, match="no period 7"):
        live.at("7 1:00")


def test_a_moment_is_taken_as_it_is() -> None:
    """Outside its period it is the nearer end: on a board that counts down more than the whole is the start."""
    live = game()
    early, start = live.at(Moment(1, "16:00")), live.at(Moment(1, "15:00"))
    assert early.state == start.state
    up = LiveGame.open(rulesets.with_settings(RULES, {"game.reading": "elapsed"}), home="Larks", away="Herons")
    assert up.at(Moment(1, "16:00")).state == up.at(Moment(1, "15:00")).state
    assert up.at(Moment(1, "16:00")).state != up.at(Moment(1, "0:00")).state
