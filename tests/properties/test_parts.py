"""What holds for the life of any part of any penalty."""

from __future__ import annotations

from collections import Counter

from agreement.comparing import seeded
from hypothesis import example, given

from rinkfold.timeline.events import PenaltyAssessed
from rinkfold.timeline.fold.changes import PartEnded, PartStarted, PartSuspended
from rinkfold.timeline.fold.state import GameState, Part
from rinkfold.timeline.game import Game

from .writing import WrittenGame, logs, often, replayed, written

PartId = tuple[int, int]

SAYS_WHY_NOT = {"ended by goal", "ended by ruling", "ended by ejection", "washed out", "replaced by penalty shot"}
"""Fates of a part that need not have served its length."""
LASTS = {"waiting", "running", "suspended"}
"""What a part is while it is not over."""


@often(80)
@given(logs)
def test_time_served_is_the_length_unless_something_says_why_not(log: WrittenGame) -> None:
    """No part serves more than its length; it serves all of it unless a goal, a ruling, an ejection, a wash, a penalty
    shot or the end says why not, or it is not over. Of every part one fate or state is told."""
    game = replayed(log)
    for life in game.penalties:
        assert [part.kind for part in life.parts] == list(life.event.parts)
        for part in life.parts:
            assert 0 <= part.served <= part.length
            assert part.fate in {"served", "offset", "unserved"} | SAYS_WHY_NOT | LASTS
            if part.fate == "served" or (part.fate == "offset" and part.end is not None):
                assert part.served == part.length
            if part.fate == "unserved" and life.event.staff is None:
                assert game.over
            if part.fate in LASTS:
                assert not game.over
                assert part.end is None
            if part.fate in {"waiting", "washed out", "replaced by penalty shot"}:
                assert part.served == 0


def shares(state: GameState) -> Counter[PartId]:
    """In how many places each part is that is not over: two if late netting split it."""
    parts: list[Part] = [call.part for call in state.ice.calls]
    for side in (state.home, state.away):
        for chain in side.chains():
            parts.extend(chain.clock + chain.off_the_clock)
    return Counter(part.order for part in parts)


@often(80)
@given(logs)
def test_every_part_is_in_one_place_or_has_one_fate(log: WrittenGame) -> None:
    """After every event each assessed part is in exactly one place of the box or has ended exactly once; never both,
    but for a part that late netting split into two shares."""
    game = replayed(log)
    assessed: set[PartId] = set()
    ended: Counter[PartId] = Counter()
    known: Counter[PartId] = Counter()
    for one, state, changes in zip(game.folded.placed, game.folded.states, game.changes, strict=True):
        if isinstance(one.event, PenaltyAssessed):
            assessed.update((one.event.seq, index) for index in range(len(one.event.parts)))
        ended.update((change.penalty, change.index) for change in changes if isinstance(change, PartEnded))
        now = shares(state) + ended
        assert now.keys() == assessed
        split = {part for part, count in now.items() if count != 1}
        assert all(now[part] == 2 for part in split)
        assert not split or game.rules.coincident.late_netting
        assert all(now[part] >= count for part, count in known.items())
        known = now


def time_run(game: Game) -> tuple[Counter[PartId], Counter[PartId]]:
    """Tenths in which each part ran, by when it started and stopped; and how often it ended."""
    ran: Counter[PartId] = Counter()
    ended: Counter[PartId] = Counter()
    since: dict[PartId, int] = {}
    for changes in (*game.changes, game.folded.pending_changes):
        for change in changes:
            if not isinstance(change, PartStarted | PartSuspended | PartEnded):
                continue
            part = (change.penalty, change.index)
            if part in since:
                ran[part] += change.at - since.pop(part)
            if isinstance(change, PartStarted):
                since[part] = change.at
            ended[part] += isinstance(change, PartEnded)
    for part, start in since.items():
        ran[part] += game.folded.standing.now - start
    return ran, ended


@often(80)
@given(logs)
@example(written(seeded(20335)))
def test_time_served_is_the_time_it_ran(log: WrittenGame) -> None:
    """What a part has served is exactly the time between its starts and its stops."""
    game = replayed(log)
    ran, ended = time_run(game)
    for life in game.penalties:
        for index, part in enumerate(life.parts):
            if ended[life.penalty, index] < 2 and shares(game.folded.standing)[life.penalty, index] < 2:
                assert part.served == ran[life.penalty, index]
