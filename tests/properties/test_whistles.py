"""Whistles, faceoffs and horns that nobody wrote are the ones that would have been written."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import Any

from attrs import frozen
from hypothesis import given

from rinkfold.timeline.clock import format_reading
from rinkfold.timeline.events import Event, Faceoff, PeriodEnd, Stoppage

from .answers import Answers, answers, box_rows, renumbered, strength_row
from .writing import WrittenGame, logs, often, replayed, seeds, with_inserted

IMPLY = ("goal", "penalty_assessed", "timeout", "penalty_shot", "period_end")
"""Kinds that imply a stoppage at their reading."""


@frozen
class Group:
    """The events written one after another at one reading of a log that counts down.

    Attributes:
        following: the next such group, ``None`` after the last one.
        opens: it is the first one of its period.
    """

    events: tuple[Event, ...]
    following: tuple[Event, ...] | None
    opens: bool
    opening: str

    @property
    def period(self) -> int:
        """Its period."""
        return self.events[0].period or 0

    @property
    def clock(self) -> str:
        """Its reading."""
        return self.events[0].clock or ""

    @property
    def goes_on(self) -> bool:
        """Whether something else follows in the period."""
        return self.following is not None and self.following[0].period == self.period

    def in_play_before(self) -> list[bool]:
        """Whether play is on before each of the events, and after the last one."""
        on = [self.clock != self.opening]
        for event in self.events:
            on.append(event.kind == "faceoff" or (on[-1] and event.kind != "stoppage" and event.kind not in IMPLY))
        return on

    def resumes_unseen(self, log: WrittenGame) -> bool:
        """Whether, if no faceoff stands at its end, one at its reading is implied by what follows.

        Where the clock may run through stoppages, a faceoff at a later reading ends the stoppage there.
        """
        if self.following is None or any(event.kind == "period_end" for event in self.events):
            return False
        if self.following[0].period != self.period:
            return self.clock != "0:00"
        return not (may_run(log) and self.following[0].kind == "faceoff")


def may_run(log: WrittenGame) -> bool:
    """Whether the clock may run through stoppages."""
    return log.rules.game.clock == "running" or log.rules.game.running_clock.starts_at_lead > 0


def groups(log: WrittenGame) -> Iterator[Group]:
    """The log cut wherever the reading changes."""
    placed = [event for event in log.events[1:] if event.period is not None]
    cut = [tuple(some) for _, some in groupby(placed, key=lambda event: (event.period, event.clock))]
    periods: set[int] = set()
    for events, following in zip(cut, [*cut[1:], None], strict=True):
        period = events[0].period or 0
        opening = format_reading(log.rules.period_length(period))
        yield Group(events, following, period not in periods, opening)
        periods.add(period)


def implied(log: WrittenGame) -> Iterator[tuple[int, Event]]:
    """Everything that nobody wrote although it happened, with the `seq` of the event it would stand before."""
    for group in groups(log):
        at: dict[str, Any] = {"seq": 0, "period": group.period, "clock": group.clock}
        if group.opens and group.clock != group.opening:
            yield group.events[0].seq, Faceoff(seq=0, period=group.period, clock=group.opening)
        on = group.in_play_before()
        for event, in_play in zip(group.events, on, strict=False):
            ends_it = event.kind == "faceoff" and event is group.events[0] and may_run(log)
            if in_play and event.kind in (*IMPLY, "faceoff") and not ends_it:
                yield event.seq, Stoppage(**at)
        end = group.events[-1].seq + 1
        if not on[-1] and group.resumes_unseen(log):
            yield end, Faceoff(**at)
        played_out = all(event.kind != "period_end" for event in group.events)
        if played_out and group.following is not None and group.following[0].period != group.period:
            yield end, PeriodEnd(seq=0, period=group.period, clock="0:00")


def needless(log: WrittenGame) -> Iterator[int]:
    """The `seq` of everything that need not have been written: what follows says it too.

    A stoppage that is told by the call or goal right behind it, and a faceoff that ends a stoppage at its reading,
    unless nothing else tells that the period was played.
    """
    for group in groups(log):
        on = group.in_play_before()
        for at, event in enumerate(group.events):
            behind = group.events[at + 1].kind if at + 1 < len(group.events) else None
            if event.kind == "stoppage" and behind in IMPLY:
                yield event.seq
            tells_more = at == 0 and group.opens and not group.goes_on
            ends_it = event.kind == "faceoff" and behind is None and not on[at]
            if ends_it and group.resumes_unseen(log) and not tells_more:
                yield event.seq


BY_AN_EVENT = ("ended by goal", "ended by ruling", "washed out", "replaced by penalty shot")
"""Fates that an event brings; the others come when time passes or play resumes, whichever event that is told at."""


def told(log: WrittenGame, numbers: Mapping[int, int], seed: int) -> Answers:
    """All answers, and those at a few instants, with other numbers of events."""
    game, rng = replayed(log), random.Random(seed)
    found = answers(game)
    for row in found["parts"]:
        row["ended_by"] = row["ended_by"] if row["fate"] in BY_AN_EVENT else None
    for number in range(4):
        period = rng.randint(1, game.folded.last.period)
        tenth = game.folded._starts.get(period, 0) + rng.randint(0, log.rules.period_length(period))
        instant = game.at(game.folded.moment(period, tenth))
        found[f"strength {number}"] = [strength_row(instant.strength) | {"before": instant.before}]
        found[f"box {number}"] = box_rows(instant)
    return renumbered(found, numbers)


def as_it_is(log: WrittenGame, seed: int) -> Answers:
    """All that is told of the log itself."""
    return told(log, {event.seq: event.seq for event in log.events}, seed)


@often(40)
@given(logs, seeds)
def test_writing_what_is_implied_changes_nothing(log: WrittenGame, seed: int) -> None:
    """A log in which every whistle, faceoff and horn that is implied is written, or some of them, has its answers."""
    rng = random.Random(seed)
    for share in (1.0, 0.5):
        extras: dict[int, list[Event]] = {}
        for before, event in implied(log):
            if rng.random() < share:
                extras.setdefault(before, []).append(event)
        longer, numbers = with_inserted(log, extras)
        assert told(longer, numbers, seed) == as_it_is(log, seed)


@often(40)
@given(logs, seeds)
def test_leaving_out_what_is_implied_changes_nothing(log: WrittenGame, seed: int) -> None:
    """A log without the whistles and faceoffs that are implied, or without some of them, has its answers."""
    rng = random.Random(seed)
    for share in (1.0, 0.5):
        without = [seq for seq in needless(log) if rng.random() < share]
        shorter, numbers = with_inserted(log, {}, without=without)
        assert told(shorter, numbers, seed) == as_it_is(log, seed)
