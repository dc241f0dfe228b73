"""Where a game stands, as the next entry is read against it."""

from __future__ import annotations

from collections.abc import Iterator

from ..timeline.events import PenaltyEnded, Shot, Team, Void
from ..timeline.game import Game, Instant
from ..timeline.moment import moment_at
from ..timeline.record.amendments import voided_by
from ..timeline.views.penalties import PenaltyLife, Return
from .entries import EntryContext

__all__ = ["as_of_latest", "context_of", "just_out", "latest"]

A_MOMENT = 1200
"""Tenths for which a door may still be written of somebody who is out by the rules."""

Numbered = tuple[Team, str]


def context_of(game: Game) -> EntryContext:
    """The context for what is entered next in `game`.

    The period and the reading are the latest of the game, not those of the line written last, which may have been late.
    """
    period, played = latest(game)
    return EntryContext.for_game(
        game.header,
        game.rules,
        period=period,
        played=played,
        last_seq=_last_that_counts(game),
        sitting=_may_open_for(game),
    )


def latest(game: Game) -> tuple[int, int]:
    """The latest period, and the tenths of it that are over: by the fold, or by a shot written since with its reading.

    A shot changes nobody's time, so the fold does not go on to its reading.
    """
    last = game.folded.last
    played = last.now - last.ice.period_start
    for placed in reversed(game.folded.placed):
        if placed.played is None:
            continue
        if placed.period != last.period or not isinstance(placed.event, Shot):
            break
        played = max(played, placed.played)
    return last.period, played


def as_of_latest(game: Game) -> Instant:
    """The game at its latest reading; in a stoppage what the board shows."""
    period, played = latest(game)
    if played == game.folded.last.now - game.folded.last.ice.period_start:
        return game.now
    return game.at(moment_at(game.rules, period, played))


def _last_that_counts(game: Game) -> int | None:
    """What ``undo`` takes back: the last entry that still counts, so that a second one takes back the entry before."""
    gone = voided_by(game.events)
    counting = (
        event.seq for event in reversed(game.events[1:]) if event.seq not in gone and not isinstance(event, Void)
    )
    return next(counting, None)


def _may_open_for(game: Game) -> dict[Numbered, tuple[int, ...]]:
    """For each number the penalties whose door may open: those it sits for, or sat for until a moment ago.

    A door is often written after the next event, when by the rules its player is out already.
    """
    found: dict[Numbered, tuple[int, ...]] = {
        (life.team, one.who): (life.penalty,) for life, one in just_out(game) if one.who is not None
    }
    return {**found, **_sitting(game)}


def just_out(game: Game) -> Iterator[tuple[PenaltyLife, Return]]:
    """Everybody who is out by the rules since a moment, and of whose door nothing is written yet."""
    opened = {placed.event.penalty for placed in game.folded.placed if isinstance(placed.event, PenaltyEnded)}
    for life in game.penalties:
        if life.penalty not in opened:
            yield from ((life, one) for one in life.returns if one.tenth >= game.folded.last.now - A_MOMENT)


def _sitting(game: Game) -> dict[Numbered, tuple[int, ...]]:
    found: dict[Numbered, tuple[int, ...]] = {}
    for one in game.now.box:
        for number in {one.sits, one.player} - {None}:
            key = one.team, str(number)
            found[key] = tuple(dict.fromkeys((*found.get(key, ()), one.penalty)))
    return found
