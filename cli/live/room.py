"""Everything that one server has in hand: the table, the clock copy, the listeners, the keys and the bounds."""

from __future__ import annotations

import secrets
from collections import Counter
from typing import Any

from attrs import define, field

from .entering import Desk, known_rulesets
from .keys import Keys, Role
from .limits import Rates
from .pictures import table_picture
from .security import Door
from .stream import Hub, Stamps
from .table import Table

__all__ = ["Room"]


@define
class Room:
    """One server's things.

    Attributes:
        names_for_all: readers and doors are shown names too.
        own_ruleset: a league's file, which may be chosen beside the rulesets that are known.
        boot: another one for each start of the server.
        waiting: how many requests that change something are under way, by the name of the role.
    """

    table: Table
    keys: Keys
    door: Door = field(factory=Door)
    names_for_all: bool = False
    own_ruleset: str | None = None
    hub: Hub = field(factory=Hub)
    rates: Rates = field(factory=Rates)
    boot: str = field(factory=lambda: secrets.token_hex(4))
    waiting: Counter[str] = field(factory=Counter)
    desk: Desk = field(init=False)
    _pictures: dict[str, tuple[int, dict[str, Any]]] = field(factory=dict)

    def __attrs_post_init__(self) -> None:
        """Have the listeners told of what changes."""
        self.desk = Desk(self.table, self.own_ruleset)
        self.table.changed = self.hub.ring

    @property
    def ruleset_names(self) -> list[str]:
        """The rulesets that may be chosen from a page."""
        return known_rulesets(self.own_ruleset)

    def shows_names(self, role: Role) -> bool:
        """Whether `role` is shown names of people."""
        return role.name == "write" or self.names_for_all

    def stamps(self) -> Stamps:
        """What a listener compares to see whether there is something new."""
        return self.table.stamp, self.desk.clock.stamp

    def state(self, role: Role) -> dict[str, Any]:
        """The state for `role`; made once for each change."""
        with self.table.lock:
            stamp, kept = self._pictures.get(role.which, (-1, {}))
            if stamp != self.table.stamp:
                stamp, kept = self.table.stamp, table_picture(self.table, role, names=self.shows_names(role))
                self._pictures[role.which] = stamp, kept
            return {**kept, "stamp": sum(self.stamps()), "boot": self.boot, "clock": self.clock()}

    def clock(self) -> dict[str, Any]:
        """The clock copy."""
        game = self.table.game
        return {"set": False} if game is None else self.desk.clock.picture(game.rules)
