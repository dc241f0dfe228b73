"""Who leaves the box, and who stays in it although the time is up (section 4 of the penalty model)."""

from __future__ import annotations

from .changes import Held, How, Returned, ReturnWithdrawn
from .draft import Draft, SideDraft
from .rulebook import AT_STOPPAGE, PENALIZED_AGAIN, Rule
from .rulebook import HELD as HELD_RULE
from .state import Sitter

__all__ = ["hold", "leave", "release_at_whistle", "time_off_the_clock_is_up", "withdraw_returns"]


def leave(draft: Draft, side: SideDraft, sitter: Sitter, how: How, rule: Rule) -> None:
    """`sitter` may go back now."""
    side.returned = (*(entry for entry in side.returned if entry[0] == draft.now), (draft.now, sitter))
    draft.changes.append(
        Returned(
            draft.now,
            draft.period,
            draft.seq,
            rule,
            side.team,
            sitter.who,
            sitter.role,
            sitter.key,
            sitter.penalties,
            how,
        )
    )


def hold(draft: Draft, side: SideDraft, sitter: Sitter, rule: Rule = HELD_RULE) -> None:
    """`sitter`'s time on the clock is up; he stays seated until a stoppage or until a place opens.

    Source: NHL 26.2; Hockey Canada 4.14.
    """
    side.held.append(sitter)
    _tell_held(draft, side, sitter, rule)


def time_off_the_clock_is_up(draft: Draft, side: SideDraft, sitter: Sitter | None) -> None:
    """The last offset part or misconduct is over: leave now in a stoppage, else at the next one."""
    if sitter is None:
        return
    if draft.in_play:
        side.finished.append(sitter)
        _tell_held(draft, side, sitter, AT_STOPPAGE)
    else:
        leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)


def _tell_held(draft: Draft, side: SideDraft, sitter: Sitter, rule: Rule) -> None:
    draft.changes.append(
        Held(draft.now, draft.period, draft.seq, rule, side.team, sitter.who, sitter.role, sitter.key, sitter.penalties)
    )


def release_at_whistle(draft: Draft) -> None:
    """Everyone whose time is up leaves at a stoppage.

    Source: NHL 26.2; Hockey Canada 4.14.
    """
    for side in (draft.home, draft.away):
        leaving = side.held + side.finished
        side.held, side.finished = [], []
        for sitter in leaving:
            leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)


def withdraw_returns(draft: Draft, side: SideDraft, number: str) -> None:
    """`number` was penalized at this stoppage: whoever returned at its tenth under that number did not."""
    kept = []
    for tenth, sitter in side.returned:
        if tenth == draft.whistle and sitter.who == number:
            draft.changes.append(
                ReturnWithdrawn(
                    draft.now, draft.period, draft.seq, PENALIZED_AGAIN, side.team, number, sitter.key, sitter.penalties
                )
            )
        else:
            kept.append((tenth, sitter))
    side.returned = tuple(kept)
