"""What an event, or the passing of time, changed: values that carry their reason.

Every change says when (`at`, tenths of played time, and the period), which event caused it (`seq`; ``None`` before
the first event), and the `rule` that says so.
"""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from ..events import Team
from .rulebook import Rule
from .state import ChainKey, Role

__all__ = [
    "Change",
    "Ejected",
    "Fate",
    "GameEnded",
    "GoalJudged",
    "GoalStrength",
    "GoalieChanged",
    "Held",
    "How",
    "PartEnded",
    "PartSetAside",
    "PartStarted",
    "PartSuspended",
    "PenaltyCalled",
    "PlayResumed",
    "PlayStopped",
    "PowerPlayCounted",
    "ReturnWithdrawn",
    "Returned",
    "StrengthChanged",
    "Waits",
]

Fate = Literal[
    "served",
    "ended by goal",
    "ended by ruling",
    "ended by ejection",
    "washed out",
    "offset",
    "replaced by penalty shot",
    "unserved",
]
How = Literal["on expiry", "at stoppage"]
GoalStrength = Literal["even", "power play", "short-handed"]


@frozen(eq=False, repr=False)
class Change:
    """When, why, and because of which event."""

    at: int
    period: int
    seq: int | None
    rule: Rule

    # one comparison for all kinds: generating one for each would cost every start of the program
    def __eq__(self, other: object) -> bool:
        """Equal to a change of the same kind with the same values."""
        return type(other) is type(self) and values_of(self) == values_of(other)

    def __hash__(self) -> int:
        """By kind and values."""
        return hash((type(self), values_of(self)))

    def __repr__(self) -> str:
        """The kind and the values that are set."""
        pairs = zip(type(self).__match_args__, values_of(self), strict=True)
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in pairs if value is not None)})"


def values_of(change: Change) -> tuple[object, ...]:
    """The values of `change`, in the order of its fields."""
    return tuple(getattr(change, name) for name in type(change).__match_args__)


@frozen(eq=False, repr=False)
class PlayStopped(Change):
    """The whistle; `implied` if nobody wrote it."""

    implied: bool


@frozen(eq=False, repr=False)
class PlayResumed(Change):
    """Play goes on; `assumed` where a running clock leaves open when it did."""

    assumed: bool


@frozen(eq=False, repr=False)
class PenaltyCalled(Change):
    """A penalty was assessed."""

    team: Team
    penalty: int


@frozen(eq=False, repr=False)
class PartStarted(Change):
    """A part of a penalty runs, until `ends_at` if nothing happens; `on_clock` if it leaves the side short."""

    team: Team
    penalty: int
    index: int
    on_clock: bool
    ends_at: int


@frozen(eq=False, repr=False)
class PartSuspended(Change):
    """A part that ran stands still, with `left` tenths to serve.

    Not `begun` if it was put aside at the tenth it started.
    """

    team: Team
    penalty: int
    index: int
    left: int
    begun: bool


@frozen(eq=False, repr=False)
class PartSetAside(Change):
    """A part is offset: its player sits, a substitute skates."""

    team: Team
    penalty: int
    index: int


@frozen(eq=False, repr=False)
class PartEnded(Change):
    """A part, or one share of it, is over after `served` tenths."""

    team: Team
    penalty: int
    index: int
    fate: Fate
    served: int


@frozen(eq=False, repr=False)
class Waits(Change):
    """A chain waits for one of the two places."""

    team: Team
    key: ChainKey
    penalty: int


@frozen(eq=False, repr=False)
class Held(Change):
    """Somebody's time is up, and he stays seated until a stoppage or until a place opens."""

    team: Team
    who: str | None
    role: Role
    key: ChainKey
    penalties: tuple[int, ...]


@frozen(eq=False, repr=False)
class Returned(Change):
    """Somebody may go back."""

    team: Team
    who: str | None
    role: Role
    key: ChainKey
    penalties: tuple[int, ...]
    how: How


@frozen(eq=False, repr=False)
class ReturnWithdrawn(Change):
    """Somebody who could have gone back at this tenth was penalized at this stoppage and sits on."""

    team: Team
    who: str | None
    key: ChainKey
    penalties: tuple[int, ...]


@frozen(eq=False, repr=False)
class Ejected(Change):
    """A player's game is over; nobody of the tool ever lets him back."""

    team: Team
    player: str


@frozen(eq=False, repr=False)
class GoalieChanged(Change):
    """Who is in net from here on; ``None`` for an empty net."""

    team: Team
    goalie: str | None


@frozen(eq=False, repr=False)
class GoalJudged(Change):
    """A goal and its strength; what it ended is told by a `PartEnded` with the same `seq`."""

    team: Team
    strength: GoalStrength | None


@frozen(eq=False, repr=False)
class PowerPlayCounted(Change):
    """`count` power plays began for `team`."""

    team: Team
    count: int


@frozen(eq=False, repr=False)
class StrengthChanged(Change):
    """Skaters on the ice from here on, extra attackers included, and who is in net."""

    home: int
    away: int
    home_goalie: str | None
    away_goalie: str | None
    home_short: bool
    away_short: bool


@frozen(eq=False, repr=False)
class GameEnded(Change):
    """The game is over at this tenth."""
