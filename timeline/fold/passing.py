"""Time passes: what runs out, in which order, and what that sets free (sections 1 and 4 of the penalty model)."""

from __future__ import annotations

from collections.abc import Callable

from ..events import Team
from .draft import TEAMS, Draft, SideDraft
from .rulebook import TIME_RUNS_OUT
from .slots import clock_part_over, off_part_over
from .state import Chain

__all__ = ["pass_time"]


def pass_time(draft: Draft, until: int, tell: Callable[[Draft], None]) -> None:
    """Let played time pass to the tenth `until`, whatever runs out at `until` included.

    What runs out at one tenth is taken in order of assessment. `tell` reports the strength after each tenth at which
    something did.
    """
    due = draft.due()
    while due <= until:
        draft.now = due
        _run_out(draft, *_first_expiring(draft))
        following = draft.due()
        if following > due:
            tell(draft)
        due = following
    if until > draft.now:
        draft.now = until


def _run_out(draft: Draft, side: SideDraft, chain: Chain) -> None:
    """The part of `chain` that runs has run out."""
    if chain.clock:
        clock_part_over(draft, side, chain, "served", TIME_RUNS_OUT)
    else:
        off_part_over(draft, side, chain, "offset" if chain.offset else "served", TIME_RUNS_OUT)


def _first_expiring(draft: Draft) -> tuple[SideDraft, Chain]:
    """The chain whose part runs out now, the one assessed first if several do."""
    first: tuple[tuple[int, int], Team, Chain] | None = None
    for team in TEAMS:
        seen = draft.seen(team)
        for chains in (seen.slots, seen.off):
            for chain in chains:
                part = chain.running
                if part is None or part.ends_at != draft.now:
                    continue
                if first is None or part.assessed < first[0]:
                    first = (part.assessed, team, chain)
    assert first is not None, "something is due"
    return draft.side(first[1]), first[2]
