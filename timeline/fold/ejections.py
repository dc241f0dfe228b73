"""What ends a player's game, and what that ends besides (section 2 of the penalty model)."""

from __future__ import annotations

from collections.abc import Sequence

from ..events import PartKind
from .chains import end_part, penalties_of
from .changes import Ejected
from .draft import Draft, SideDraft
from .release import leave
from .rulebook import AT_STOPPAGE, EJECTED, EJECTION_ENDS
from .state import Called, Chain, PlayerRecord

__all__ = ["count_against", "is_out", "out_at_once"]

_MAJORS_ALLOWED = {"always": 1, "second": 2, "third": 3}


def count_against(
    draft: Draft, side: SideDraft, player: str, parts: Sequence[PartKind], *, counts_as_penalty: bool
) -> None:
    """Write `parts` into the player's record and, where that ends his game, treat him as out from now on."""
    before = side.record(player)
    record = PlayerRecord(
        before.majors + parts.count("major"),
        before.misconducts + parts.count("misconduct"),
        before.penalties + counts_as_penalty,
        before.ejected_at,
    )
    if record.ejected_at is None and ends_his_game(draft, record, parts):
        record = record._replace(ejected_at=draft.now)
        draft.changes.append(Ejected(draft.now, draft.period, draft.seq, EJECTED, side.team, player))
    side.records = {**side.records, player: record}
    if record.ejected_at is not None:
        _end_what_is_owed_off_the_clock(draft, side, player)


def out_at_once(draft: Draft, parts: Sequence[PartKind]) -> bool:
    """Whether one penalty of these parts ends the game of whoever is given it."""
    return ends_his_game(draft, PlayerRecord(parts.count("major"), parts.count("misconduct"), 1), parts)


def is_out(side: SideDraft, call: Called) -> bool:
    """Whether the player whom `call` is on is out of the game."""
    record = side.records.get(call.player) if call.player is not None else None
    return call.out or (record is not None and record.ejected_at is not None)


def ends_his_game(draft: Draft, record: PlayerRecord, parts: Sequence[PartKind]) -> bool:
    """A match or game misconduct always; a major, misconduct or penalty of the number that the ruleset names."""
    rules = draft.rules.ejection
    allowed = _MAJORS_ALLOWED.get(rules.major, 0)
    return (
        "match" in parts
        or "game_misconduct" in parts
        or 0 < allowed <= record.majors
        or 0 < rules.misconducts <= record.misconducts
        or 0 < rules.player_penalties <= record.penalties
    )


def _end_what_is_owed_off_the_clock(draft: Draft, side: SideDraft, player: str) -> None:
    """Nobody sits for an ejected player's misconducts and offset time.

    Source: IIHF 2018-22, goaltender penalties, situation 1.
    """
    for call in [call for call in draft.calls if call.is_misconduct and _is_on(call, side, player)]:
        draft.calls.remove(call)
        end_part(draft, side, call.part, "ended by ejection", EJECTION_ENDS)
    for chains in (side.slots, side.queue, side.off):
        chains[:] = [
            kept
            for chain in chains
            if (kept := _ejected(draft, side, chain) if chain.player == player else chain) is not None
        ]


def _is_on(call: Called, side: SideDraft, player: str) -> bool:
    return call.team == side.team and call.player == player


def _ejected(draft: Draft, side: SideDraft, chain: Chain) -> Chain | None:
    """What is left of the chain of a player who is out now; a team-mate who sat for him off the clock leaves."""
    for part in chain.off_the_clock:
        end_part(draft, side, part, "ended by ejection", EJECTION_ENDS)
    if chain.off_the_clock and chain.keeper:
        sitter = chain.off_sitter()
        if sitter is not None:
            leave(draft, side, sitter, "at stoppage", AT_STOPPAGE)
    if not chain.clock:
        return None
    taken_over = chain.on_penalties if chain.needs_stand_in else penalties_of(chain.clock)
    return chain._replace(ejected=True, offset=(), misconduct=(), on_penalties=taken_over, off_penalties=())
