"""Who leaves the box, and who stays in it although the time is up (section 4 of the penalty model)."""

from __future__ import annotations

from .changes import Held, How, Returned, ReturnWithdrawn
from .draft import TEAMS, Draft, SideDraft
from .rulebook import AT_STOPPAGE, PENALIZED_AGAIN, Rule
from .rulebook import HELD as HELD_RULE
from .state import Sitter

__all__ = [
    "hold",
    "leave",
    "release_at_whistle",
    "restore_returns",
    "time_off_the_clock_is_up",
    "withdraw_returns",
]


def leave(draft: Draft, side: SideDraft, sitter: Sitter, how: How, rule: Rule) -> None:
    """`sitter` may go back now, unless he was penalized at this stoppage."""
    if not draft.in_play and sitter.who is not None and _called_here(draft, side, sitter.who):
        return
    side.returned = (*[entry for entry in side.returned if entry[0] >= draft.whistle], (draft.now, sitter, how))
    _tell_returned(draft, side, sitter, how, rule)


def _tell_returned(draft: Draft, side: SideDraft, sitter: Sitter, how: How, rule: Rule) -> None:
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


def _called_here(draft: Draft, side: SideDraft, number: str) -> bool:
    """Whether `number` has something to serve, or is out of the game, for what was called since the whistle."""
    if any(call.player == number and call.team == side.team for call in draft.calls):
        return True
    return side.record(number).ejected_at is not None


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
    for team in TEAMS:
        seen = draft.seen(team)
        if not (seen.held or seen.finished):
            continue
        side = draft.side(team)
        leaving = side.held + side.finished
        side.held, side.finished = [], []
        for sitter in leaving:
            leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)


def withdraw_returns(draft: Draft, side: SideDraft, number: str) -> None:
    """`number` was penalized at this stoppage: whoever returned at it under that number did not."""
    for entry in side.returned:
        tenth, sitter, _ = entry
        if tenth >= draft.whistle and sitter.who == number and entry not in side.withdrawn:
            side.withdrawn = (*side.withdrawn, entry)
            draft.changes.append(
                ReturnWithdrawn(
                    tenth, draft.period, draft.seq, PENALIZED_AGAIN, side.team, number, sitter.key, sitter.penalties
                )
            )


def restore_returns(draft: Draft, side: SideDraft, number: str) -> None:
    """What kept `number` in was ruled away at this stoppage: he may go back after all."""
    if _called_here(draft, side, number):
        return
    for tenth, sitter, how in side.withdrawn:
        if tenth >= draft.whistle and sitter.who == number:
            _tell_returned(draft, side, sitter, how, AT_STOPPAGE)
    side.withdrawn = tuple(entry for entry in side.withdrawn if entry[1].who != number)
