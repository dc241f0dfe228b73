"""The order of events at one reading.

A function here tells where one more event goes among those that stand at its reading already. It is taken in after
them: in the order written, or, where the officials moved it here with the clock, at the time of that correction.

* What is on time goes to the end; but a shot or goal goes before the stoppage that play has not yet resumed from,
  since the whistle ends the play in which it happened. A goal is a stoppage itself, and the second of two goals stays
  behind the first.
* What is late was not written when it should have been. A faceoff goes to the end, where the play began that the game
  went on with; a shot or goal before the first stoppage; anything else before the first faceoff, into the first
  stoppage. A faceoff that no stoppage was written for is a stoppage too: it implies one. Only the faceoff that opens
  a period does not.
* What was put after another event stands directly behind it and what was put there before, and nothing comes between.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..events import Event
from .placed import Placed

__all__ = ["STOPPING", "after_place", "late_place", "on_time_place"]

STOPPING = frozenset({"stoppage", "goal", "penalty_assessed", "timeout", "penalty_shot", "period_end"})
"""Kinds that are, or imply, a stoppage at their reading."""

_BEFORE_STOPPAGE = frozenset({"shot", "goal"})

Behind = Mapping[int, int]


def on_time_place(there: Sequence[Placed], event: Event, behind: Behind) -> int:
    """Where `event` goes among those `there` if nothing later in the game was written before it."""
    if event.kind not in _BEFORE_STOPPAGE or event.clock is None:
        return len(there)
    start = len(there)
    while start > 0 and there[start - 1].event.kind != "faceoff":
        start -= 1
    return _clear_of_followers(there, _before_stoppage(there, start, event), behind)


def late_place(there: Sequence[Placed], event: Event, behind: Behind) -> int:
    """Where `event` goes among those `there` if something later in the game was written before it."""
    if event.kind == "faceoff":
        return len(there)
    if event.kind not in _BEFORE_STOPPAGE:
        return _clear_of_followers(there, _first_faceoff(there, 0), behind)
    start = next((i for i, one in enumerate(there) if one.event.kind in STOPPING or _implies(one)), len(there))
    return _clear_of_followers(there, _before_stoppage(there, start, event), behind)


def _implies(faceoff: Placed) -> bool:
    """Whether a faceoff with no stoppage before it implies one: not where it opens the period."""
    return faceoff.event.kind == "faceoff" and bool(faceoff.played)


def _first_faceoff(there: Sequence[Placed], start: int) -> int:
    return next((i for i in range(start, len(there)) if there[i].event.kind == "faceoff"), len(there))


def _before_stoppage(there: Sequence[Placed], start: int, event: Event) -> int:
    """The place of a shot or goal in the stoppage that lies between `start` and the next faceoff."""
    for index in range(start, len(there)):
        kind = there[index].event.kind
        if kind == "faceoff" or (kind in STOPPING and not (kind == event.kind == "goal")):
            return index
    return len(there)


def _clear_of_followers(there: Sequence[Placed], place: int, behind: Behind) -> int:
    """`place`, or before the event that those at `place` were put after."""
    while 0 < place < len(there) and there[place].event.seq in behind:
        place -= 1
    return place


def after_place(there: Sequence[Placed], target: int, behind: Behind) -> int:
    """Directly behind the event `target`, and behind what was put after it before; at the start if it is not there."""
    place = next((i for i, one in enumerate(there, 1) if one.event.seq == target), 0)
    while place < len(there) and _follows(there[place].event.seq, target, behind):
        place += 1
    return place


def _follows(seq: int, target: int, behind: Behind) -> bool:
    """Whether `seq` was put after `target`, or after something that was."""
    while seq in behind:
        seq = behind[seq]
        if seq == target:
            return True
    return False
