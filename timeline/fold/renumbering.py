"""A player gets a new number: what he owes and was given goes on under it."""

from __future__ import annotations

from .draft import Draft, SideDraft
from .state import Chain, Part

__all__ = ["renumber"]


def renumber(draft: Draft, side: SideDraft, was: str, number: str) -> None:
    """From here on the player who wore `was` wears `number`.

    Where a team-mate who has something to his name wears `number` already, the two stay apart: he is known as
    ``"12?"`` until he gets a number of his own, which is whoever is next said to have worn that number.
    """
    if _is_known(draft, side, f"{was}?"):
        was = f"{was}?"
    if was != number and _is_known(draft, side, was) and _is_known(draft, side, number):
        _rename(draft, side, number, _apart(draft, side, number))
    _rename(draft, side, was, number)


def _apart(draft: Draft, side: SideDraft, number: str) -> str:
    """A name that nobody has for somebody whose number a team-mate wears now."""
    name = f"{number}?"
    while _is_known(draft, side, name):
        name += "?"
    return name


def _is_known(draft: Draft, side: SideDraft, number: str) -> bool:
    """Whether anything stands to the name of who wears `number`."""
    sitters = (*side.held, *side.finished)
    return (
        number in side.records
        or any(chain.player == number or number in chain.named_stand_ins() for chain in side.chains())
        or any(sitter.who == number for sitter in sitters)
        or any(call.team == side.team and call.part.server == number for call in draft.calls)
    )


def _rename(draft: Draft, side: SideDraft, was: str, number: str) -> None:
    """Everything that stands to the name of `was` stands to that of `number`."""
    for chains in (side.slots, side.queue, side.off):
        chains[:] = [_renumbered(chain, was, number) for chain in chains]
    for name in ("held", "finished"):
        setattr(side, name, [s._replace(who=number) if s.who == was else s for s in getattr(side, name)])
    for name in ("returned", "withdrawn"):
        entries = getattr(side, name)
        setattr(side, name, tuple((at, s._replace(who=number) if s.who == was else s, how) for at, s, how in entries))
    draft.calls = [
        call._replace(
            key=number if call.key == was else call.key,
            player=number if call.player == was else call.player,
            part=call.part._replace(server=number) if call.part.server == was else call.part,
        )
        if call.team == side.team
        else call
        for call in draft.calls
    ]
    if was in side.records:
        records = dict(side.records)
        records[number] = records.pop(was)
        side.records = records
    if was in side.keepers:
        side.keepers = (side.keepers - {was}) | {number}
    if side.goalie == was:
        side.goalie = number


def _renumbered(chain: Chain, was: str, number: str) -> Chain:
    """`chain` under the new number, as its player's or as a stand-in's."""
    own = chain.player == was
    return chain._replace(
        key=number if own and chain.key == was else chain.key,
        player=number if own else chain.player,
        clock=_served(chain.clock, was, number),
        offset=_served(chain.offset, was, number),
        misconduct=_served(chain.misconduct, was, number),
        servers=tuple(number if server == was else server for server in chain.servers),
    )


def _served(parts: tuple[Part, ...], was: str, number: str) -> tuple[Part, ...]:
    """The parts with the new number of who was named to sit for them."""
    return tuple(part._replace(server=number) if part.server == was else part for part in parts)
