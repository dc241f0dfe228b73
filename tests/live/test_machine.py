"""A live game through anything that can come, in any order, against the replay of the whole log."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from attrs import evolve
from hypothesis import HealthCheck, note, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from rinkfold import rulesets
from rinkfold.timeline import Event, LiveGame, ProblemsFound
from rinkfold.timeline.clock import format_reading
from rinkfold.timeline.events import (
    Amend,
    ClockSet,
    GameClosed,
    Goal,
    PenaltyAssessed,
    PenaltyEnded,
    Remark,
    Void,
)
from rinkfold.timeline.live import id_of
from rinkfold.timeline.script.corrections import Corrections

from .games import answers, game_of, renumbered, written

ANY = st.integers(0, 1 << 16)


def _count(changes: Any) -> Counter[tuple[object, ...]]:
    """How often each change was made, whatever event caused it."""
    return Counter(id_of(change) for some in changes for change in some)


class Recording(RuleBasedStateMachine):
    """One game at the table: written on time, late, and corrected.

    `coming` are the events of a random game that are still to be written, each with the seq it has there; `numbers`
    gives the seq under which it was written in the log.
    """

    @initialize(seed=st.integers(0, 5000), elapsed=st.booleans())
    def open(self, seed: int, elapsed: bool) -> None:
        opened, *self.coming = written(seed, elapsed=elapsed)
        self.live = LiveGame([opened])
        self.numbers = {1: 1}
        self.feed = iter(self.live)
        self.fed: list[Event] = []
        self.rng = random.Random(seed)

    def write(self, event: Event) -> None:
        """Record it, or have it refused as the door would; what changed is told."""
        before = answers(self.live)
        count, told = len(self.live.events), [dict(self.live.__dict__)]
        try:
            changes = self.live.record(event)
        except ProblemsFound as found:
            note(f"refused: {event}: {found}")
            assert len(self.live.events) == count
            assert answers(self.live) == before
            assert told == [self.live.__dict__]
            return
        note(repr(self.live.events[-1]))
        assert Counter(map(id_of, changes)) == _count(self.live.game.changes) - _count(before["changes"])
        recorded = self.live.last_recorded
        assert recorded is not None
        assert (recorded.event, recorded.changes) == (self.live.events[-1], changes)
        assert Counter(map(id_of, recorded.withdrawn)) == _count(before["changes"]) - _count(self.live.game.changes)

    def draw(self, choice: int, kind: type[Any] | tuple[type[Any], ...] = Event) -> Event | None:
        """One of the events that are written."""
        found = [event for event in self.live.events[1:] if isinstance(event, kind)]
        return found[choice % len(found)] if found else None

    @precondition(lambda self: self.coming)
    @rule(count=st.integers(1, 12))
    def on_time(self, count: int) -> None:
        """The next events of the game."""
        for event in self.coming[:count]:
            self.take(event)
        del self.coming[:count]

    @precondition(lambda self: len(self.coming) > 4)
    @rule(choice=ANY)
    def early(self, choice: int) -> None:
        """An event of the game before those that come first, which are late then."""
        self.take(self.coming.pop(choice % min(len(self.coming), 12)))

    def take(self, event: Event) -> None:
        known = dict(self.numbers)
        if isinstance(event, PenaltyEnded) and event.penalty not in known:
            return
        if isinstance(event, Goal) and event.ends not in known:
            event = evolve(event, ends=None)
        self.write(evolve(renumbered(event, lambda seq: known.get(seq, 1)), seq=0))
        if self.live.events[-1].kind == event.kind:
            self.numbers[event.seq] = len(self.live.events)

    @rule(choice=ANY)
    def void(self, choice: int) -> None:
        """Any event voided, a correction too."""
        if target := self.draw(choice):
            self.write(Void(seq=0, target=target.seq, reason="wrong"))

    @rule()
    def undo(self) -> None:
        """The last event that counts is taken back."""
        corrections = Corrections(self.live.events)
        counting = (e.seq for e in reversed(self.live.events[1:]) if corrections.standing(e.seq).event is not None)
        if last := next(counting, None):
            self.write(Void(seq=0, target=last, reason="slip"))

    @rule(choice=ANY, where=ANY, late=st.booleans())
    def amend_when(self, choice: int, where: int, late: bool) -> None:
        """An event at the reading of another one, or at any."""
        target, other = self.draw(choice), self.draw(where)
        if target is None or other is None or target.clock is None:
            return
        clock = other.clock if late and other.clock else format_reading(where % 200 * 10)
        period = other.period or target.period
        changes = {"clock": clock} if where % 3 else {"period": period, "clock": clock}
        self.write(Amend(seq=0, target=target.seq, changes=changes, reason="wrong reading"))

    @rule(choice=ANY, what=st.sampled_from(["player", "team", "parts", "served_by", "on_clock", "delayed_call"]))
    def amend_a_penalty(self, choice: int, what: str) -> None:
        """Another player, side, length, …"""
        if target := self.draw(choice, PenaltyAssessed):
            values: dict[str, Any] = {
                "player": "8",
                "team": "away",
                "parts": ["major", "minor"],
                "served_by": None,
                "on_clock": True,
                "delayed_call": True,
            }
            self.write(Amend(seq=0, target=target.seq, changes={what: values[what]}, reason="wrong call"))

    @rule(choice=ANY, which=ANY)
    def amend_what_it_points_at(self, choice: int, which: int) -> None:
        """Another target of a correction, another penalty that a goal ended, another place."""
        target, other = self.draw(choice, (Void, Amend, Goal, PenaltyEnded)), self.draw(which)
        if target and other:
            name = {"void": "target", "amend": "target", "goal": "ends", "penalty_ended": "penalty"}[target.kind]
            name = "after" if which % 4 == 0 else name
            self.write(Amend(seq=0, target=target.seq, changes={name: other.seq}, reason="another one"))

    @rule(choice=ANY, clock=st.integers(0, 60))
    def amend_an_amendment(self, choice: int, clock: int) -> None:
        """What an amendment changes is changed."""
        if target := self.draw(choice, Amend):
            changes = {"changes": {"clock": format_reading(clock * 10)}}
            self.write(Amend(seq=0, target=target.seq, changes=changes, reason="still wrong"))

    @rule(choice=ANY)
    def put_after(self, choice: int) -> None:
        """A remark, a goal or a penalty that goes directly behind an event."""
        target = self.draw(choice)
        if target is None or target.clock is None:
            return
        common: dict[str, Any] = {"seq": 0, "period": target.period, "clock": target.clock, "after": target.seq}
        self.write(
            (
                Remark(**common, text="late"),
                Goal(**common, team="home"),
                PenaltyAssessed(**common, team="away", player="7", parts=("minor",)),
            )[choice % 3]
        )

    @rule(choice=ANY, by=st.sampled_from([-100, -10, 30, 200]))
    def set_clock(self, choice: int, by: int) -> None:
        """The officials correct the clock at some reading, mostly the last."""
        last = self.draw(choice) if choice % 3 == 0 else self.live.events[-1]
        if last is None or last.clock is None:
            return
        minutes, seconds = last.clock.split(":")
        tenths = max(int(minutes) * 600 + round(float(seconds) * 10) + by, 0)
        self.write(ClockSet(seq=0, period=last.period, clock=last.clock, to=format_reading(tenths)))

    @rule(minor=st.sampled_from(["0:30", "1:00", "2:00"]), pinned=st.booleans())
    def amend_the_rules(self, minor: str, pinned: bool) -> None:
        """Another length of the minor, pinned anew; without that it is refused."""
        settings_ = {**(self.live.header.settings or {}), "lengths.minor": minor}
        changes: dict[str, Any] = {"settings": settings_}
        if pinned:
            changes = rulesets.pinned_anew(self.live, changes)
        self.write(Amend(seq=0, target=1, changes=changes, reason="wrong rules"))
        assert pinned or not isinstance(self.live.events[-1], Amend) or self.live.events[-1].changes != changes

    @rule(name=st.sampled_from(["Larks", "Herons"]))
    def amend_a_team(self, name: str) -> None:
        """A team with a roster, in which 7 keeps goal."""
        team = {"name": name, "roster": [{"number": "7", "position": "goalkeeper"}]}
        self.write(Amend(seq=0, target=1, changes={"home": team}, reason="wrong sheet"))

    @rule()
    def close(self) -> None:
        """The record is closed; what follows is refused until that is voided."""
        if self.rng.random() < 0.1:
            self.write(GameClosed(seq=0, outcome="played"))

    @rule(choice=ANY)
    def something_wrong(self, choice: int) -> None:
        """What the door refuses: the events are as they were."""
        count = len(self.live.events)
        wrong: tuple[Event, ...] = (
            Void(seq=0, target=count + 5, reason="x"),
            Void(seq=0, target=1, reason="x"),
            Remark(seq=count, text="x"),
            Remark(seq=count + 2, text="x"),
            Goal(seq=0, period=1, clock="7.42", team="home"),
            Goal(seq=0, period=1, team="home"),
            Amend(seq=0, target=count, changes={"nonsense": 1}, reason="x"),
            self.live.header,
            evolve(self.live.header, seq=0),
            PenaltyAssessed(seq=0, period=1, clock="1:00", team="home", parts=()),
        )
        self.write(wrong[choice % len(wrong)])
        assert len(self.live.events) == count

    @invariant()
    def as_the_whole_replay(self) -> None:
        """The same answers as `replay` of the whole log, and the feed has told each event once."""
        if not hasattr(self, "live"):
            return
        self.live._check()
        assert answers(self.live) == answers(game_of(self.live.events))
        self.fed += [recorded.event for recorded in self.feed]
        assert self.fed == list(self.live.events[1:])


_SETTINGS = settings(
    max_examples=40, stateful_step_count=25, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
TestRecording: Callable[..., Any] = Recording.TestCase
TestRecording.settings = _SETTINGS  # type: ignore[attr-defined]


@pytest.mark.full
def test_at_length() -> None:
    """The same, many times more."""
    from hypothesis.stateful import run_state_machine_as_test

    more = settings(_SETTINGS, max_examples=200, stateful_step_count=60)
    run_state_machine_as_test(Recording, settings=more)
