"""A player gets a new number: what he owes and was given goes on under it."""

from __future__ import annotations

from .draft import Draft, SideDraft
from .state import Chain

__all__ = ["renumber"]


def renumber(draft: Draft, side: SideDraft, was: str, number: str) -> None:
    """From here on the player who wore `was` wears `number`."""
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
    """`chain` under the new number, as its player's or as its stand-in's."""
    clock = tuple(part._replace(server=number) if part.server == was else part for part in chain.clock)
    servers = tuple(number if server == was else server for server in chain.servers)
    if chain.player != was:
        return chain._replace(clock=clock, servers=servers)
    key = number if chain.key == was else chain.key
    return chain._replace(key=key, player=number, clock=clock, servers=servers)
