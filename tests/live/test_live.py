"""What a live game tells, refuses and hands on."""

from __future__ import annotations

from typing import Any

import pytest
from attrs import evolve

from rinkfold import rulesets
from rinkfold.timeline import (
    Amend,
    Event,
    Faceoff,
    GameClosed,
    Goal,
    GoalieChange,
    LiveGame,
    Moment,
    PenaltyAssessed,
    Problem,
    ProblemsFound,
    Remark,
    Shot,
    Stoppage,
    Void,
)
from rinkfold.timeline.fold.changes import PartEnded, PartStarted, PenaltyCalled, StrengthChanged

from .games import Log, answers, game_of


def opened() -> LiveGame:
    return LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons")


def call(clock: str, player: str, team: Any = "home", period: int = 1) -> PenaltyAssessed:
    return PenaltyAssessed(seq=0, period=period, clock=clock, team=team, player=player, parts=("minor",))


def faceoff(clock: str, period: int = 1) -> Faceoff:
    return Faceoff(seq=0, period=period, clock=clock)


def problem(live: LiveGame, event: Event) -> Problem:
    with pytest.raises(ProblemsFound) as found:
        live.record(event)
    return found.value.problems[0]


def test_the_changes_of_an_event_on_time_are_its_own() -> None:
    """A call, then the faceoff that puts it on the clock."""
    live = opened()
    live.record(faceoff("15:00"))
    called = live.record(call("9:15", "12"))
    assert any(isinstance(change, PenaltyCalled) and change.penalty == 3 for change in called)
    started = live.record(faceoff("9:15"))
    assert [change.penalty for change in started if isinstance(change, PartStarted)] == [3]
    assert [(change.home, change.away) for change in started if isinstance(change, StrengthChanged)] == [(4, 5)]
    assert all(change.rule.source for change in (*called, *started))


def test_a_late_goal_tells_what_is_different_since() -> None:
    """A goal during a minor that had been taken to run out: it is told that the goal ended it."""
    live = opened()
    for event in (faceoff("15:00"), call("9:15", "12"), faceoff("9:15"), Stoppage(seq=0, period=1, clock="5:00")):
        live.record(event)
    changes = live.record(Goal(seq=0, period=1, clock="8:30", team="away", scorer="4"))
    assert [(c.fate, c.seq) for c in changes if isinstance(c, PartEnded)] == [("ended by goal", 6)]
    taken_back = live.record(Void(seq=0, target=6, reason="disallowed"))
    assert [c.fate for c in taken_back if isinstance(c, PartEnded)] == ["served"]


def test_now_and_if_play_resumed() -> None:
    """In a stoppage both; in play and after the game only the first."""
    live = opened()
    live.record(faceoff("15:00"))
    assert live.now.strength.label == "5 on 5"
    assert live.if_play_resumed is None
    live.record(call("9:15", "12"))
    assert live.now.before.label == "5 on 5"
    resumed = live.if_play_resumed
    assert resumed is not None
    assert resumed.strength.label == "4 on 5"
    assert live.at("1 8:00").strength == live.at(Moment(1, "8:00")).strength == resumed.strength
    live.record(GameClosed(seq=0, outcome="abandoned"))
    assert live.if_play_resumed is None


def test_a_feed_gives_what_came_since_it_was_last_asked() -> None:
    """Two feeds of one game, each from the beginning; refused events are in none."""
    live = opened()
    feed = iter(live)
    assert list(feed) == []
    live.record(faceoff("15:00"))
    problem(live, Remark(seq=9, text="out of turn"))
    live.record(Shot(seq=0, period=1, team="home"))
    assert [recorded.event.kind for recorded in feed] == ["faceoff", "shot"]
    assert list(feed) == []
    live.record(call("9:15", "12"))
    (last,) = feed
    assert last.event == live.events[-1]
    assert any(isinstance(change, PenaltyCalled) for change in last.changes)
    assert [recorded.event.seq for recorded in live] == [2, 3, 4]


@pytest.mark.parametrize(
    ("event", "code"),
    [
        (Remark(seq=7, text="out of turn"), "out_of_sequence"),
        (Goal(seq=0, period=1, clock="7.42", team="home"), "bad_reading"),
        (Goal(seq=0, period=1, team="home"), "missing_field"),
        (Void(seq=0, target=1, reason="no"), "header_void"),
        (Void(seq=0, target=9, reason="no"), "no_target"),
        (Amend(seq=0, target=2, changes={"scorer": "7"}, reason="no"), "unknown_field"),
        (Amend(seq=0, target=1, changes={"ruleset": "adult"}, reason="no"), "ruleset_needed"),
    ],
)
def test_what_is_refused_leaves_the_game_as_it_was(event: Event, code: str) -> None:
    """The door of the log stands here as well."""
    live = opened()
    live.record(faceoff("15:00"))
    before = answers(live)
    assert problem(live, event).code == code
    assert answers(live) == before
    assert live.next_seq == 3
    live.record(call("9:15", "12"))
    live._check()


def test_a_second_opening_is_refused() -> None:
    """One game, one log."""
    live = opened()
    assert problem(live, LiveGame.open(live.rules, home="A", away="B").header).code == "out_of_sequence"
    other = LiveGame.open(live.rules, home="A", away="B").events[0]
    assert problem(live, Goal(seq=0, period=1, clock="1:00", team="home", ends=40)).code == "no_target"
    assert problem(live, _with_seq(other, 2)).code == "opened_again"


def _with_seq(event: Event, seq: int) -> Event:
    return evolve(event, seq=seq)


def test_a_closed_record_takes_corrections_and_is_opened_by_a_void() -> None:
    """Only void, amend, remark and figures follow the closing."""
    live = opened()
    live.record(faceoff("15:00"))
    live.record(GameClosed(seq=0, outcome="played"))
    assert problem(live, call("9:15", "12")).code == "after_closing"
    live.record(Remark(seq=0, text="signed in the dark"))
    live.record(Void(seq=0, target=3, reason="a penalty is missing"))
    live.record(call("9:15", "12"))
    assert [life.penalty for life in live.game.penalties] == [6]
    live.record(Void(seq=0, target=5, reason="it was closed"))
    assert problem(live, call("8:00", "7")).code == "after_closing"
    live._check()


def test_a_correction_of_the_ruleset_is_folded_from_the_first_line() -> None:
    """The minor gets another length, and the one before again when that is voided."""
    live = opened()
    for event in (faceoff("15:00"), call("9:15", "12"), faceoff("9:15"), Stoppage(seq=0, period=1, clock="5:00")):
        live.record(event)
    changes = rulesets.pinned_anew(live, {"settings": {"lengths.minor": "1:00"}})
    live.record(Amend(seq=0, target=1, changes=changes, reason="wrong age class"))
    assert live.rules.lengths.minor == 600
    assert str(live.game.penalties[0].parts[0].end) == "1 8:15"
    assert answers(live) == answers(game_of(live.events))
    live.record(Void(seq=0, target=6, reason="it was right"))
    assert str(live.game.penalties[0].parts[0].end) == "1 7:15"


def test_an_amended_amendment_that_comes_to_the_first_line_counts() -> None:
    """A correction given another target, the first line: the header is not what it was."""
    live = opened()
    live.record(Remark(seq=0, text="a"))
    live.record(Amend(seq=0, target=2, changes={"note": "b"}, reason="c"))
    live.record(Amend(seq=0, target=3, changes={"target": 1, "changes": {"rink": "North"}}, reason="d"))
    assert live.header.rink == "North"
    live._check()


def test_rules_that_were_given_count_until_the_log_pins_others() -> None:
    """A log with no pinned copy is played by the rules given; an amendment that pins a ruleset counts over them."""
    log = game_of(opened().events).events
    bare = Log([_without_pinned(log[0])])
    with pytest.raises(ProblemsFound, match=r"rulesets\.of"):
        LiveGame.of(bare)
    live = LiveGame.of(bare, rulesets.load("adult"))
    assert live.rules.name == "adult"
    live.record(Amend(seq=0, target=1, changes=rulesets.pinned_anew(live, {"ruleset": "youth-14u"}), reason="x"))
    assert live.rules.name == "youth-14u"
    live.record(Void(seq=0, target=2, reason="y"))
    assert live.rules.name == "adult"


def _without_pinned(event: Event) -> Event:
    return evolve(event, pinned=None)  # type: ignore[call-arg]


def test_what_is_recorded_is_what_the_line_would_be() -> None:
    """The event is kept as reading its line gives it: tuples for lists."""
    live = opened()
    live.record(GoalieChange(seq=0, period=1, clock="15:00", team="home", goalie=None))
    live.record(Goal(seq=0, period=1, clock="9:00", team="away", assists=["7", "8"]))  # type: ignore[arg-type]
    assert live.events[-1] == Goal(seq=3, period=1, clock="9:00", team="away", assists=("7", "8"))
