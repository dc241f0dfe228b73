"""Games are values: they can be compared, copied, pickled and looked at; a copy of a live game is a fork."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import KNOBS, Faceoff, Game, LiveGame, Moment, PenaltyAssessed, Remark, read_log, replay

LOG = read_log(Path(__file__).resolve().parents[2] / "examples" / "game.jsonl")
RULES = rulesets.of(LOG)


def live() -> LiveGame:
    made = LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons", game="g-1")
    made.record(PenaltyAssessed(seq=0, period=1, clock="9:15", team="home", player="12", parts=("minor",)))
    return made


def again(value: Any) -> Any:
    return pickle.loads(pickle.dumps(value))


def test_games_are_compared_by_events_and_rules() -> None:
    """Two replays of one log are equal; one event more, or other rules, and they are not."""
    game, same = replay(LOG, RULES), replay(LOG, RULES)
    assert game == same
    assert hash(game) == hash(same)
    assert game != replay(LOG, rulesets.with_settings(RULES, {"lengths.minor": "1:00"}))
    one = live()
    before = one.game
    assert before == replay(one) != "g-1"
    one.record(Remark(seq=0, text="x"))
    assert before != one.game
    assert before.at("1 8:00") == replay(live()).at("1 8:00") != before.at("1 7:00")
    assert hash(before.at("1 8:00")) == hash(replay(live()).at("1 8:00"))


def test_a_game_can_be_sent_to_another_process() -> None:
    """It is folded again there: equal, with the same answers; and so is what it was asked."""
    game = replay(LOG, RULES)
    sent = again(game)
    assert isinstance(sent, Game)
    assert (sent, sent.summary, sent.folded.states) == (game, game.summary, game.folded.states)
    for instant in (game.now, game.at("2 6:30"), game.at(Moment(2, "16:00")), live().now, live().game.at("1 9:15")):
        came = again(instant)
        assert (came, came.box, came.strength) == (instant, instant.box, instant.strength)


def test_a_copy_of_a_value_is_the_value() -> None:
    """There is nothing in it that could be changed."""
    game = replay(LOG, RULES)
    for value in (game, game.now, KNOBS):
        assert copy.copy(value) is copy.deepcopy(value) is value


@pytest.mark.parametrize("way", [copy.copy, copy.deepcopy, again], ids=["copy", "deepcopy", "pickle"])
def test_a_copy_of_a_live_game_is_a_fork(way: Any) -> None:
    """What is recorded in the one is not in the other, and what was recorded before is told by neither's copy."""
    one = live()
    fork = way(one)
    assert (fork.events, fork.rules, fork.game, list(fork)) == (one.events, one.rules, one.game, [])
    fork.record(Faceoff(seq=0, period=1, clock="9:15"))
    assert (len(one.events), len(fork.events)) == (2, 3)
    assert [recorded.event.seq for recorded in fork] == [3]
    assert [recorded.event.seq for recorded in one] == [2]
    one.record(Remark(seq=0, text="x"))
    one._check()
    fork._check()


def test_a_fork_goes_on_by_the_rules_that_were_given() -> None:
    """Also where none are pinned in the log."""
    fork = copy.copy(LiveGame.of(LOG, RULES))
    assert fork.rules == RULES
    assert fork.game == replay(LOG, RULES)


def test_what_a_debugger_shows_is_short() -> None:
    """Which game and how far it is, and no name of a player."""
    assert repr(live()) == "<LiveGame 'g-1': 2 events, 1 9:15 stopped, 0 to 0>"
    assert repr(live().game) == "<Game 'g-1': 2 events, 1 9:15 stopped, 0 to 0>"
    assert repr(live().at("1 8:00")) == "<Instant '1 8:00' of 'g-1': 4 on 5>"
    game = replay(LOG, RULES)
    assert repr(game).endswith("over, 5 to 4>")
    assert max(len(repr(value)) for value in (game, game.now, LiveGame.of(LOG, RULES))) < 100


def test_the_knobs_cannot_be_changed_and_can_be_sent() -> None:
    """They are everybody's: every way of changing a dictionary is refused."""
    knobs: Any = KNOBS
    changes: list[Callable[[], object]] = [
        lambda: knobs.update(x=1),
        lambda: knobs.clear(),
        lambda: knobs.pop("lengths.minor"),
        lambda: knobs.popitem(),
        lambda: knobs.setdefault("x", 1),
        lambda: knobs.__setitem__("x", 1),
        lambda: knobs.__delitem__("lengths.minor"),
        lambda: knobs.__ior__({"x": 1}),
    ]
    for change in changes:
        with pytest.raises(TypeError, match="dict"):
            change()
    assert again(KNOBS) == KNOBS
    assert type(again(KNOBS)) is type(KNOBS)
    assert dict(KNOBS)["lengths.minor"].default == 1200
