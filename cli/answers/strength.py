"""`strength --json`: skaters a side as segments, at an instant, or second by second."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ...timeline.game import Game, Instant
from ...timeline.moment import moment_at
from ...timeline.views.strength import Segment, Strength
from .common import head, reading, seconds, time

__all__ = ["at_answer", "every_second", "instant_answer", "seconds_answer", "segments_answer"]

SECOND = 10  # tenths


def segments_answer(game: Game) -> dict[str, Any]:
    """``{"segments": [...]}``, and while the game is open ``"now"`` and, in a stoppage, ``"if_play_resumed"``."""
    starts = {span.period: span.start for span in game.periods}
    answer = {**head(game.header), "segments": [_segment(game, one, starts) for one in game.strength_segments]}
    if not game.over:
        answer["now"] = instant_answer(game.now)
        if (resumed := game.if_play_resumed) is not None:
            answer["if_play_resumed"] = instant_answer(resumed)
    return answer


def at_answer(instant: Instant) -> dict[str, Any]:
    """``{"at", "home", "away", "home_goalie", "away_goalie", "label", "before": {the same}}``."""
    return {**head(instant.game.header), **instant_answer(instant)}


def seconds_answer(game: Game) -> dict[str, Any]:
    """``{"seconds": [{"period", "clock", "home", "away", "home_goalie", "away_goalie", "label"}]}``."""
    rows = [{"period": at.period, "clock": at.clock, **_skaters(strength)} for at, strength in every_second(game)]
    return {**head(game.header), "seconds": rows}


def every_second(game: Game) -> Iterator[tuple[Any, Strength]]:
    """Each whole second of played time, by the moment at which it begins, and the strength then."""
    segments = iter(game.strength_segments)
    segment = next(segments, None)
    for span in game.periods:
        for tenth in range(span.start, span.end, SECOND):
            while segment is not None and segment.end <= tenth:
                segment = next(segments, None)
            if segment is not None:
                yield moment_at(game.rules, span.period, tenth - span.start), segment.strength


def _segment(game: Game, segment: Segment, starts: dict[int, int]) -> dict[str, Any]:
    begins = starts[segment.period]
    return {
        "period": segment.period,
        "from": reading(game.rules, segment.period, segment.start - begins),
        "to": reading(game.rules, segment.period, segment.end - begins),
        "start_s": seconds(segment.start),
        "end_s": seconds(segment.end),
        **_skaters(segment.strength),
    }


def instant_answer(instant: Instant) -> dict[str, Any]:
    """Skaters and goalkeepers at one time, and before it."""
    return {"at": time(instant.at), **_skaters(instant.strength), "before": _skaters(instant.before)}


def _skaters(strength: Strength) -> dict[str, Any]:
    return {
        "home": strength.home,
        "away": strength.away,
        "home_goalie": strength.home_goalie,
        "away_goalie": strength.away_goalie,
        "label": strength.label,
    }
