"""The life of every penalty: its parts from start to end, and who went back when."""

from __future__ import annotations

from typing import Literal

from attrs import define, frozen

from ..events import PartKind, PenaltyAssessed, Team
from ..fold.changes import Fate, How, PartEnded, PartStarted, PartSuspended, Returned, ReturnWithdrawn
from ..fold.rulebook import Rule
from ..fold.state import GameState, Part, Role
from ..folded import FoldedGame
from ..moment import Moment

__all__ = ["PartFate", "PartLife", "PartSoFar", "PenaltyLife", "Return", "penalty_lives", "returns_of", "started_parts"]

PartId = tuple[int, int]
Open = Literal["waiting", "running", "suspended", "offset"]
PartFate = Literal[Fate, "waiting", "running", "suspended"]

_CUT_SHORT = ("ended by goal", "ended by ruling", "ended by ejection")
"""Fates that say of a part of which one share was served why the other was not."""


@frozen
class PartLife:
    """One part: when it ran, how much of it was served, and what became of it, or how it stands.

    Attributes:
        kind: ``"minor"``, ``"misconduct"`` …
        start, end: when it ran first and last; None where it did not.
        length, served: tenths.
        fate: a `Fate`, or while it lasts ``"waiting"``, ``"running"`` or ``"suspended"``.
        rule: why it ended; ``None`` while it has not.
        ended_by: the event that ended it.
    """

    kind: PartKind
    length: int
    start: Moment | None
    end: Moment | None
    served: int
    fate: PartFate
    rule: Rule | None
    ended_by: int | None


@frozen
class Return:
    """Somebody who sat for a penalty may go back; `who` is ``None`` for a team-mate not named.

    On expiry where the time ran on the clock, else at a stoppage (NHL 26.2; Hockey Canada 4.14; section 4 of the
    penalty model). Nobody whose game is over returns.

    Attributes:
        who: a number; None for a team-mate not named.
        role: ``"player"``, or ``"stand-in"`` or ``"second stand-in"`` for whoever sat in his place.
        at, tenth: when: the moment, and tenths played since the opening faceoff.
        how: ``"on expiry"`` on the board, or ``"at stoppage"``.
        rule: the rule that says so.
    """

    who: str | None
    role: Role
    at: Moment
    tenth: int
    how: How
    rule: Rule


@frozen
class PenaltyLife:
    """A penalty and what became of it.

    Attributes:
        event: the penalty as assessed.
        at: when it was called.
        parts: the life of each part, in the order announced.
        returns: each person that sat for it and may go back.
    """

    event: PenaltyAssessed
    at: Moment
    parts: tuple[PartLife, ...]
    returns: tuple[Return, ...]

    @property
    def penalty(self) -> int:
        """Its `seq`."""
        return self.event.seq

    @property
    def team(self) -> Team:
        """The side it was assessed on."""
        return self.event.team


@define
class PartSoFar:
    """What the changes have told of one part."""

    start: PartStarted | None = None
    end: PartEnded | None = None
    served: int = 0
    cut_short: Fate | None = None


def penalty_lives(game: FoldedGame) -> tuple[PenaltyLife, ...]:
    """Every penalty's life up to the end of the record, in game order."""
    told = started_parts(game)
    returns = returns_of(game)
    open_parts = _open_parts(game.standing)
    lives = []
    for placed, state in zip(game.placed, game.states, strict=True):
        event = placed.event
        if isinstance(event, PenaltyAssessed):
            parts = tuple(_part_life(game, event, index, told, open_parts) for index in range(len(event.parts)))
            at = game.moment(state.ice.period, state.now)
            lives.append(PenaltyLife(event, at, parts, tuple(returns.get(event.seq, ()))))
    return tuple(lives)


def started_parts(game: FoldedGame) -> dict[PartId, PartSoFar]:
    """What the changes tell of each part that started or ended: when first, when last, and the tenths served."""
    told: dict[PartId, PartSoFar] = {}
    for change in (*game.all_changes(), *game.pending_changes):
        if isinstance(change, PartStarted):
            so_far = told.setdefault((change.penalty, change.index), PartSoFar())
            so_far.start = so_far.start or change
        elif isinstance(change, PartSuspended) and not change.begun:
            so_far = told[change.penalty, change.index]
            if so_far.start is not None and so_far.start.at == change.at:
                so_far.start = None  # put aside at the tenth it started: it never ran
        elif isinstance(change, PartEnded):
            so_far = told.setdefault((change.penalty, change.index), PartSoFar())
            so_far.end = change
            so_far.served += change.served
            so_far.cut_short = change.fate if change.fate in _CUT_SHORT else so_far.cut_short
    return told


def returns_of(game: FoldedGame) -> dict[int, list[Return]]:
    """Who went back for each penalty, by its `seq`; without those who were penalized again at that stoppage."""
    returns: dict[int, list[Return]] = {}
    for change in game.all_changes():
        if isinstance(change, Returned):
            one = Return(change.who, change.role, game.moment_of(change), change.at, change.how, change.rule)
            for penalty in change.penalties:
                returns.setdefault(penalty, []).append(one)
        elif isinstance(change, ReturnWithdrawn):
            for penalty in change.penalties:
                returns[penalty] = [one for one in returns[penalty] if one.who != change.who or one.tenth != change.at]
    return returns


def _open_parts(state: GameState) -> dict[PartId, tuple[Open, int]]:
    """State and tenths served of each part not over in `state`."""
    found: dict[PartId, tuple[Open, int]] = {}
    for side in (state.home, state.away):
        for chain in side.chains():
            for part in chain.clock + chain.off_the_clock:
                name, served = found.get(part.order, (_state_of(part, offset=part in chain.offset), 0))
                found[part.order] = (name, served + part.served_at(state.now))
    for call in state.ice.calls:
        found[call.part.order] = ("waiting", 0)
    return found


def _state_of(part: Part, *, offset: bool) -> Open:
    if part.ends_at is not None:
        return "offset" if offset else "running"
    return "suspended" if part.begun else "waiting"


def _part_life(
    game: FoldedGame,
    event: PenaltyAssessed,
    index: int,
    told: dict[PartId, PartSoFar],
    open_parts: dict[PartId, tuple[Open, int]],
) -> PartLife:
    kind = event.parts[index]
    so_far = told.get((event.seq, index), PartSoFar())
    start = game.moment_of(so_far.start) if so_far.start else None
    end = game.moment_of(so_far.end) if so_far.end else None
    fate: PartFate = (so_far.cut_short or so_far.end.fate) if so_far.end else "waiting"
    rule = so_far.end.rule if so_far.end else None
    ended_by = so_far.end.seq if so_far.end else None
    served = so_far.served
    if kind == "game_misconduct" and so_far.end and fate == "served":
        start = end
    elif so_far.end and so_far.start is None and so_far.served == 0:
        end = None
    still_open = open_parts.get((event.seq, index))
    if still_open is not None:
        fate, end, rule, ended_by = still_open[0], None, None, None
        if fate == "waiting" and start is not None:
            fate = "suspended"  # one share of it was served
        served += still_open[1]
        if game.standing.ice.over:
            fate, end = "unserved", game.moment(game.last.ice.period, game.last.now) if start else None
    return PartLife(kind, game.rules.part_length(kind), start, end, served, fate, rule, ended_by)
