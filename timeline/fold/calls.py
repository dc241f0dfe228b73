"""A penalty is assessed (sections 2 and 6 of the penalty model)."""

from __future__ import annotations

from ..events import PartKind, PenaltyAssessed
from .chains import key_of
from .changes import Fate, PartEnded, PenaltyCalled
from .draft import Draft, SideDraft
from .ejections import count_against, out_at_once
from .goals import first_minor_washed_out
from .release import withdraw_returns
from .rulebook import EJECTION_ENDS, GAME_MISCONDUCT, PENALTY_SHOT, RECORDED, STAFF, WASHED_OUT, Rule
from .state import Called, Part
from .whistle import stop

__all__ = ["assess"]

_MINORS = ("minor", "bench_minor")
_LATE = 3000
"""The last 5:00 (Swedish federation 2023-24, Rule 19.4)."""


def assess(draft: Draft, call: PenaltyAssessed) -> None:
    """Write down a penalty; what of it has to be served waits until play resumes."""
    stop(draft, implied=True)
    draft.settled = False
    draft.assessed += 1
    side = draft.side(call.team)
    draft.changes.append(PenaltyCalled(draft.now, draft.period, draft.seq, RECORDED, call.team, call.seq))
    settled = _parts_not_served(draft, call)
    for index, (fate, rule) in settled.items():
        draft.changes.append(PartEnded(draft.now, draft.period, draft.seq, rule, call.team, call.seq, index, fate, 0))
    _wait_for_play(draft, side, call, settled)
    if call.player is not None:
        _against_player(draft, side, call, call.player, settled)


def _parts_not_served(draft: Draft, call: PenaltyAssessed) -> dict[int, tuple[Fate, Rule]]:
    """The indexes of the parts that nobody serves, with what becomes of each and why."""
    if call.staff is None and not (call.penalty_shot or call.delayed_call) and "game_misconduct" not in call.parts:
        return {}
    settled: dict[int, tuple[Fate, Rule]] = {}
    if call.staff is not None:
        settled.update({index: ("unserved", STAFF) for index, kind in enumerate(call.parts) if kind != "bench_minor"})
    else:
        settled.update(
            {index: ("served", GAME_MISCONDUCT) for index, kind in enumerate(call.parts) if kind == "game_misconduct"}
        )
    minors = [index for index, kind in enumerate(call.parts) if kind in _MINORS and index not in settled]
    if call.penalty_shot and minors:
        settled[minors.pop(0)] = ("replaced by penalty shot", PENALTY_SHOT)
    washed = first_minor_washed_out(draft, call, minors)
    if washed is not None:
        settled[washed] = ("washed out", WASHED_OUT)
    return settled


def _wait_for_play(draft: Draft, side: SideDraft, call: PenaltyAssessed, settled: dict[int, tuple[Fate, Rule]]) -> None:
    """Put the parts that have to be served among the calls of this stoppage."""
    keeper = call.player is not None and call.player in side.keepers
    late = draft.rules.coincident.late_netting and _is_late(draft)
    for index, kind in enumerate(call.parts):
        if index in settled:
            continue
        bench = kind == "bench_minor"
        out = call.player is None and not bench and out_at_once(draft, call.parts)
        if out and kind == "misconduct":
            draft.changes.append(
                PartEnded(
                    draft.now,
                    draft.period,
                    draft.seq,
                    EJECTION_ENDS,
                    call.team,
                    call.seq,
                    index,
                    "ended by ejection",
                    0,
                )
            )
            continue
        server = call.served_by if call.served_by is not None or not bench else call.player
        length = draft.rules.part_length(kind)
        draft.calls.append(
            Called(
                call.team,
                key_of(call.seq, call.player, bench, keeper),
                None if bench else call.player,
                keeper and not bench,
                call.on_clock,
                late,
                out,
                Part(call.seq, index, kind, length, length, None, False, False, server, draft.assessed),
            )
        )


def _is_late(draft: Draft) -> bool:
    """Whether a call now is in the last 5:00 of regulation, or in overtime."""
    rules = draft.rules
    left = rules.period_length(draft.period) - (draft.now - draft.period_start)
    return draft.period > rules.game.periods or (draft.period == rules.game.periods and left <= _LATE)


def _against_player(
    draft: Draft, side: SideDraft, call: PenaltyAssessed, player: str, settled: dict[int, tuple[Fate, Rule]]
) -> None:
    """The player stays in the box, and the penalty counts against him."""
    if not settled:
        count_against(draft, side, player, call.parts, counts_as_penalty=True)
        withdraw_returns(draft, side, player)
        return
    washed = [index for index, (fate, _) in settled.items() if fate == "washed out"]
    counts = len(washed) < len(call.parts) or draft.rules.ejection.counts_washed_out
    given: list[PartKind] = [kind for index, kind in enumerate(call.parts) if index not in washed]
    count_against(draft, side, player, given, counts_as_penalty=counts)
    if len(settled) < len(call.parts) or side.record(player).ejected_at is not None:
        withdraw_returns(draft, side, player)
