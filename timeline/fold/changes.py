"""What an event, or the passing of time, changed: values that carry their reason.

Every change says when (`at`, tenths of played time, and the period), which event caused it (`seq`; ``None`` before
the first event), and the `rule` that says so.
"""

from __future__ import annotations

from typing import Literal, NamedTuple, TypeVar

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


_Told = TypeVar("_Told", bound=type)


def _told(cls: _Told) -> _Told:
    """A kind of change: equal only to another of its kind, although all are tuples."""

    def same(self: tuple[object, ...], other: object) -> bool:
        return type(other) is cls and tuple.__eq__(self, other)

    def differs(self: tuple[object, ...], other: object) -> bool:
        return not same(self, other)

    def hashed(self: tuple[object, ...]) -> int:
        return hash((cls, *self))

    for name, method in (("__eq__", same), ("__ne__", differs), ("__hash__", hashed)):
        type.__setattr__(cls, name, method)
    return cls


@_told
class PlayStopped(NamedTuple):
    """The whistle; `implied` if nobody wrote it."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    implied: bool


@_told
class PlayResumed(NamedTuple):
    """Play goes on; `assumed` where a running clock leaves open when it did."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    assumed: bool


@_told
class PenaltyCalled(NamedTuple):
    """A penalty was assessed."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    penalty: int


@_told
class PartStarted(NamedTuple):
    """A part of a penalty runs, until `ends_at` if nothing happens; `on_clock` if it leaves the side short."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    penalty: int
    index: int  # type: ignore[assignment]
    on_clock: bool
    ends_at: int


@_told
class PartSuspended(NamedTuple):
    """A part that ran stands still, with `left` tenths to serve.

    Not `begun` if it was put aside at the tenth it started.
    """

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    penalty: int
    index: int  # type: ignore[assignment]
    left: int
    begun: bool


@_told
class PartSetAside(NamedTuple):
    """A part is offset: its player sits, a substitute skates."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    penalty: int
    index: int  # type: ignore[assignment]


@_told
class PartEnded(NamedTuple):
    """A part, or one share of it, is over after `served` tenths."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    penalty: int
    index: int  # type: ignore[assignment]
    fate: Fate
    served: int


@_told
class Waits(NamedTuple):
    """A chain waits for one of the two places."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    key: ChainKey
    penalty: int


@_told
class Held(NamedTuple):
    """Somebody's time is up, and he stays seated until a stoppage or until a place opens."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    who: str | None
    role: Role
    key: ChainKey
    penalties: tuple[int, ...]


@_told
class Returned(NamedTuple):
    """Somebody may go back."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    who: str | None
    role: Role
    key: ChainKey
    penalties: tuple[int, ...]
    how: How


@_told
class ReturnWithdrawn(NamedTuple):
    """Somebody who could have gone back at this tenth was penalized at this stoppage and sits on."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    who: str | None
    key: ChainKey
    penalties: tuple[int, ...]


@_told
class Ejected(NamedTuple):
    """A player's game is over; nobody of the tool ever lets him back."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    player: str


@_told
class GoalieChanged(NamedTuple):
    """Who is in net from here on; ``None`` for an empty net."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    goalie: str | None


@_told
class GoalJudged(NamedTuple):
    """A goal and its strength; what it ended is told by a `PartEnded` with the same `seq`."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    strength: GoalStrength | None


@_told
class PowerPlayCounted(NamedTuple):
    """`count` power plays began for `team`."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    team: Team
    count: int  # type: ignore[assignment]


@_told
class StrengthChanged(NamedTuple):
    """Skaters on the ice from here on, extra attackers included, and who is in net."""

    at: int
    period: int
    seq: int | None
    rule: Rule
    home: int
    away: int
    home_goalie: str | None
    away_goalie: str | None
    home_short: bool
    away_short: bool


@_told
class GameEnded(NamedTuple):
    """The game is over at this tenth."""

    at: int
    period: int
    seq: int | None
    rule: Rule


Change = (
    PlayStopped
    | PlayResumed
    | PenaltyCalled
    | PartStarted
    | PartSuspended
    | PartSetAside
    | PartEnded
    | Waits
    | Held
    | Returned
    | ReturnWithdrawn
    | Ejected
    | GoalieChanged
    | GoalJudged
    | PowerPlayCounted
    | StrengthChanged
    | GameEnded
)
"""Any change; `isinstance` takes it."""
