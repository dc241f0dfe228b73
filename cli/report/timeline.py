"""Where things stand on the time axis: played tenths of the game cut into pieces, one panel a period."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from ...timeline.clock import parse_reading, played_in_period
from ...timeline.game import Game
from ...timeline.moment import Moment, PeriodSpan

__all__ = ["Axis", "Piece"]


LETTER, WIDTH, NARROW = 6.4, 1200, 360
"""Pixels: a character of a label, the panels in a row, and one panel on a narrow screen."""
ROOM_FOR_READING = 50 / WIDTH


@frozen
class Piece:
    """What of a stretch lies in one panel.

    Attributes:
        panel: which panel, from 0.
        left, right: per cent of the panel's width.
        first, last: the stretch begins here, and ends here.
    """

    panel: int
    left: float
    right: float
    first: bool
    last: bool

    @property
    def width(self) -> float:
        """Per cent of the panel's width."""
        return round(self.right - self.left, 3)


@frozen
class Axis:
    """The periods as far as they were played, end to end.

    A period of no played time still has a panel of full length, so that what was written in it can be seen.
    """

    game: Game
    spans: tuple[PeriodSpan, ...]
    lengths: tuple[int, ...]

    @classmethod
    def of(cls, game: Game) -> Axis:
        """The axis of `game`."""
        spans = tuple(game.periods)
        lengths = tuple((span.end - span.start) or game.rules.period_length(span.period) for span in spans)
        return cls(game, spans, lengths)

    @property
    def step(self) -> int:
        """Tenths from one written reading to the next: as close as all panels in a row leave room for."""
        return next((step for step in (600, 1200, 3000) if step / sum(self.lengths) > ROOM_FOR_READING), 6000)

    @property
    def letter(self) -> float:
        """Tenths that a character of a label takes, with all panels in a row or each on a line of its own."""
        return LETTER * max(sum(self.lengths) / WIDTH, max(self.lengths) / NARROW)

    def tenth(self, moment: Moment) -> int:
        """Played tenths since the opening faceoff at `moment`."""
        rules = self.game.rules
        length = rules.period_length(moment.period)
        played = played_in_period(parse_reading(moment.clock), length, rules.game.reading)
        return next((span.start for span in self.spans if span.period == moment.period), 0) + played

    def panel(self, period: int) -> int:
        """The panel of `period`."""
        return next((number for number, span in enumerate(self.spans) if span.period == period), 0)

    def right_edge(self, tenth: int, period: int) -> int:
        """Where the panel ends in which something that begins at `tenth` stands; `period` decides at a border."""
        panel = next((n for n, span in enumerate(self.spans) if span.start <= tenth < span.end), self.panel(period))
        return self.spans[panel].start + self.lengths[panel]

    def share(self, panel: int, tenth: int) -> float:
        """How far to the right `tenth` lies in `panel`, in per cent."""
        within = (tenth - self.spans[panel].start) / self.lengths[panel]
        return round(100 * min(max(within, 0.0), 1.0), 3)

    def pieces(self, start: int, end: int, *, first_period: int | None = None) -> Iterator[Piece]:
        """A stretch from `start` to `end`, panel by panel; one of no length stands in `first_period`."""
        if start >= end:
            panel = self.panel(first_period) if first_period else self._panel_at(start)
            yield Piece(panel, self.share(panel, start), self.share(panel, start), True, True)
            return
        for panel, span in enumerate(self.spans):
            left, right = max(start, span.start), min(end, span.end)
            if left < right:
                yield Piece(panel, self.share(panel, left), self.share(panel, right), left == start, right == end)

    def _panel_at(self, tenth: int) -> int:
        return next((n for n, span in enumerate(self.spans) if tenth <= span.end), len(self.spans) - 1)
