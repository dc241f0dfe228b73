"""What an entry changes for those who sit already: whoever was told another time has to hear of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...timeline.events import PenaltyAssessed
from ...timeline.fold.changes import Returned
from ...timeline.game import Instant
from ...timeline.views.box import Sitting
from ...timeline.views.forecast import Out
from ..tables.box import who_sits
from ..times import on_board
from .entered import Entered
from .sitting import leaves, sitting_for

__all__ = ["resettled"]

Seat = tuple[str, int, str, str | None]


def resettled(entered: Entered) -> list[str]:
    """``["8 for 5: now out at 17:00 (before: 12:00)", "9 for 4 sits no longer"]``; of a late entry nothing.

    What a late entry or a correction makes different is shown in full elsewhere.
    """
    if entered.instant is not entered.game.now or entered.game.over:
        return []
    before = _seats(entered.before.now)
    after = _seats(entered.instant)
    return [*_otherwise(entered, before, after), *_no_longer(entered, before, after)]


def _seats(instant: Instant) -> Mapping[Seat, Sitting]:
    """Who sits, by the penalty, the role and the number."""
    return {(one.team, one.penalty, one.role, one.sits): one for one in instant.box}


def _otherwise(entered: Entered, before: Mapping[Seat, Sitting], after: Mapping[Seat, Sitting]) -> Iterator[str]:
    """Those who have another time than before, or sit since now for a penalty that is not the one entered."""
    told = _told_already(entered)
    for seat, one in after.items():
        old = before.get(seat)
        if one in told or (old is not None and _same(old.out, one.out)):
            continue
        if old is None and _serves_on(entered, one):
            continue
        yield f"{_who(entered.instant, one, entered)}: now {leaves(entered.instant, one)}{_was(entered, one, old)}"


def _same(old: Out, new: Out) -> bool:
    """Whether somebody who heeds what he was told does right by what holds now."""
    up = old.time_up == new.time_up or new.time_up is None  # it is up by now
    on_the_board = new.at is not None and new.at == old.at == new.time_up == old.time_up
    return on_the_board or ((old.at, old.how) == (new.at, new.how) and up)


def _told_already(entered: Entered) -> list[Sitting]:
    """Those whom the line of a penalty is about anyway."""
    return sitting_for(entered, entered.event) if isinstance(entered.event, PenaltyAssessed) else []


def _serves_on(entered: Entered, one: Sitting) -> bool:
    """Whether this person sat before, for another penalty: what follows was told when it was called."""
    known = [(was.team, was.sits, was.role) for was in entered.before.now.box if was.sits is not None]
    return (one.team, one.sits, one.role) in known


def _no_longer(entered: Entered, before: Mapping[Seat, Sitting], after: Mapping[Seat, Sitting]) -> Iterator[str]:
    """Those whose seat is gone though nobody released them and they do not sit for something else."""
    gone = {(change.team, change.who) for change in entered.changes(Returned)}
    sit = {(one.team, one.sits) for one in after.values()}
    for seat, one in before.items():
        if seat not in after and (one.team, one.sits) not in gone | sit:
            yield f"{_who(entered.before.now, one, entered)} sits no longer"


def _who(instant: Instant, one: Sitting, entered: Entered) -> str:
    return f"{one.team} {who_sits(instant, one, entered.people)}"


def _was(entered: Entered, one: Sitting, old: Sitting | None) -> str:
    """The reading that he was told before, where one reading takes the place of another."""
    if old is None or old.out.at is None or one.out.at is None or old.out.at == one.out.at:
        return ""
    return f" (before: {on_board(old.out.at, entered.instant.at, entered.rules)})"
