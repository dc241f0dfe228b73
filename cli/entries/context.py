"""What an entry is read against, and what comes of it."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import field, frozen

from ...timeline.clock import Counting, format_reading, played_in_period
from ...timeline.events import Event, GameOpened, Team, TeamSheet
from ...timeline.problems import Problem
from ...timeline.rules import Ruleset

__all__ = ["Entry", "EntryContext", "EntryProblem"]


@frozen(kw_only=True)
class EntryContext:
    """Where the game stands when an entry is typed.

    Attributes:
        home, away: what each side may be called besides ``home`` and ``away``: short name, colour, name.
        period: the period of the entry before.
        played: tenths of `period` that are over at the latest reading written; what is earlier is not filed silently.
        last_seq: the event that ``last`` and ``undo`` mean; None when there is none.
        sitting: for a team and jersey number the penalties (`seq`) whose door may open for that player.
        periods, period_length, overtime_length: regulation periods, and lengths in tenths.
        counting: which way the board counts.
    """

    home: tuple[str, ...] = ()
    away: tuple[str, ...] = ()
    period: int = 1
    played: int = 0
    last_seq: int | None = None
    sitting: Mapping[tuple[Team, str], tuple[int, ...]] = field(factory=dict)
    periods: int = 3
    period_length: int = 9000
    overtime_length: int = 3000
    counting: Counting = "remaining"

    @classmethod
    def for_game(
        cls,
        opened: GameOpened,
        rules: Ruleset,
        *,
        period: int = 1,
        played: int = 0,
        last_seq: int | None = None,
        sitting: Mapping[tuple[Team, str], tuple[int, ...]] | None = None,
    ) -> EntryContext:
        """The context for the game that `opened` began, under `rules`."""
        return cls(
            home=_names(opened.home),
            away=_names(opened.away),
            period=period,
            played=played,
            last_seq=last_seq,
            sitting=sitting or {},
            periods=rules.game.periods,
            period_length=rules.game.period_length,
            overtime_length=rules.overtime.length,
            counting=rules.game.reading,
        )

    def length(self, period: int) -> int:
        """Nominal length of `period`, in tenths."""
        return self.period_length if period <= self.periods else self.overtime_length

    def reading(self, period: int, played: int) -> str:
        """What the board shows when `played` tenths of `period` are over."""
        return format_reading(self.length(period) - played if self.counting == "remaining" else played)

    def is_past(self, period: int, reading: int | None) -> bool:
        """Whether the clock went by `reading` (tenths) of `period` before; without one, whether `period` is over."""
        if period != self.period or reading is None:
            return period < self.period
        return played_in_period(reading, self.length(period), self.counting) < self.played


@frozen(kw_only=True)
class Entry:
    """An entry that was understood.

    Attributes:
        event: the event, with `seq` 0: whoever appends it numbers it.
        late: ``late`` was typed.
        understood: the entry again, in whole words.
    """

    event: Event
    late: bool
    understood: str


@frozen(kw_only=True)
class EntryProblem(Problem):
    """An entry that was not understood; `offers` are whole entries that would be, the likeliest first."""

    offers: tuple[str, ...] = ()


def _names(sheet: TeamSheet) -> tuple[str, ...]:
    return tuple(name for name in (sheet.short, sheet.colour, sheet.name) if name)
