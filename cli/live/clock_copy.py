"""The page's own copy of the clock. Nothing depends on it, and nothing of it is written: the board is right."""

from __future__ import annotations

from time import monotonic, time
from typing import Any

from attrs import define

from ...timeline.clock import format_reading, parse_reading, played_in_period, reading_in_period
from ...timeline.events import Event
from ...timeline.rules import Ruleset
from ..entries.readings import typed_reading
from ..errors import refuse

__all__ = ["ClockCopy"]

SAME = 10
"""Tenths within which the copy and a reading that was written are the same."""
TYPING = 200
"""Tenths for which a running clock may have gone on while somebody typed an entry."""
ASLEEP = 2.0
"""Seconds that the time of day may gain before the copy is doubtful: the lid was closed."""


@define
class ClockCopy:
    """The copy; times are seconds of a clock that never jumps.

    Attributes:
        period, played: what it showed at the time `since`; `period` 0 while nobody has set it.
        running: whether it has gone on since.
        set_at: when it was last compared with the board.
        drift: how far the time of day was ahead of the clock that never jumps, when it was set.
        doubted: an entry written since has another reading.
        moved: it was started, stopped or set since the last entry with a reading.
        stamp: counts its changes.
    """

    period: int = 0
    played: int = 0
    running: bool = False
    since: float = 0.0
    set_at: float = 0.0
    drift: float = 0.0
    doubted: bool = False
    moved: bool = False
    stamp: int = 0

    def now(self, rules: Ruleset) -> int:
        """Tenths of the period that are over, by the copy."""
        gone = int((monotonic() - self.since) * 10) if self.running else 0
        return min(self.played + gone, rules.period_length(self.period))

    def move(self, rules: Ruleset, period: int, played: int, *, running: bool) -> None:
        """Let it run or stand; from `played` of `period` where it was not set, or in a period before that one."""
        if self.period < period:
            self._set(period, played)
        self._hold(rules)
        self.running = running

    def _hold(self, rules: Ruleset) -> None:
        self.played, self.since, self.moved = self.now(rules), monotonic(), True
        self.stamp += 1

    def _set(self, period: int, played: int) -> None:
        self.period, self.played, self.doubted, self.moved = period, played, False, True
        self.since = self.set_at = monotonic()
        self.drift = _drift()
        self.stamp += 1

    def set(self, rules: Ruleset, typed: str, period: int, running: object = None) -> None:
        """Set it by what the board shows.

        Raises:
            ProblemsFound: `typed` is no reading, or more than the period has.
        """
        reading = typed_reading(typed.strip())
        if reading is None:
            refuse("entry_reading", f"{typed.strip()!r} is no reading.", "Copy the board: 9:15, 915, 9.15, 58 or 45.3.")
        length = rules.period_length(period)
        if parse_reading(reading) > length:
            message = f"{reading} is more than the {format_reading(length)} of period {period}."
            refuse("entry_reading", message, "Read the board again.")
        self._set(period, played_in_period(parse_reading(reading), length, rules.game.reading))
        self.running = running is True or (running is None and self.running)

    def forget(self) -> None:
        """Do without it."""
        self.period, self.running = 0, False
        self.stamp += 1

    def entered(self, event: Event, rules: Ruleset) -> None:
        """Compare it with the reading of an entry that was written on time."""
        if not self.period or event.period is None or event.clock is None:
            return
        reading = parse_reading(event.clock)
        written = played_in_period(reading, rules.period_length(event.period), rules.game.reading)
        behind, self.moved = self.now(rules) - written, False
        if event.period == self.period and abs(behind) <= SAME:
            self.doubted, self.set_at, self.drift = False, monotonic(), _drift()
        elif event.period != self.period or not self.running or not -SAME <= behind <= TYPING:
            self.doubted = True
        self.stamp += 1

    def picture(self, rules: Ruleset) -> dict[str, Any]:
        """The copy for the page; tenths as of now."""
        if not self.period:
            return {"set": False}
        played = self.now(rules)
        length = rules.period_length(self.period)
        return {
            "set": True,
            "running": self.running and played < length,
            "period": self.period,
            "clock": reading_in_period(played // 10 * 10, length, rules.game.reading),
            "played_t": played,
            "set_ago_s": int(monotonic() - self.set_at),
            "moved_ago_s": int(monotonic() - self.since) if self.moved else None,
            "check": self.doubted or abs(_drift() - self.drift) > ASLEEP,
        }


def _drift() -> float:
    """Grows while the computer sleeps, when one clock stands and the other does not."""
    return time() - monotonic()
