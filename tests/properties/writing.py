"""Random games as logs, with readings as they stand on a board, and what can be done to a log as a whole."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from agreement import bridge
from agreement.comparing import RandomGame, seeded
from attrs import evolve, frozen
from hypothesis import Phase, settings
from hypothesis import strategies as st

from rinkfold.timeline import events as ev
from rinkfold.timeline.clock import Counting, reading_in_period
from rinkfold.timeline.events import Event, GameOpened
from rinkfold.timeline.game import Game, replay
from rinkfold.timeline.rules import Ruleset

__all__ = ["WrittenGame", "games", "logs", "often", "replayed", "rewritten", "seeds", "with_inserted", "written"]


def often(examples: int) -> settings:
    """Settings of a property tried on so many games: no deadline on slow machines, and a quick end when one fails."""
    phases = (Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink)
    return settings(max_examples=examples, deadline=None, phases=phases)


seeds = st.integers(0, 2**32 - 1)
games = seeds.map(seeded)
"""Random games as the plain tuples of the naive simulator; the seed is in their representation."""


@frozen
class WrittenGame:
    """A log without a file: all its events, the first line included, and the rules it is played by."""

    events: tuple[Event, ...]
    rules: Ruleset

    @property
    def header(self) -> GameOpened:
        """The first line."""
        first = self.events[0]
        assert isinstance(first, GameOpened)
        return first

    def with_events(self, events: Iterable[Event]) -> WrittenGame:
        """The same game with other events."""
        return evolve(self, events=tuple(events))


def replayed(log: WrittenGame) -> Game:
    """The answers to `log`."""
    return replay(log, log.rules)


def written(game: RandomGame, counting: Counting = "remaining") -> WrittenGame:
    """`game` as a log, its readings counting the one way or the other."""
    rules = bridge.ruleset({**game.knobs, **bridge.possible(game.knobs), "game.reading": counting})
    teams = {row[1]: row[4] for row in game.events if row[0] == "penalty"}
    events: list[Event] = [bridge.header(game.goalkeepers)]
    for one in bridge.placed(game.events):
        event = one.event
        if one.played is not None:
            event = evolve(event, clock=reading_in_period(one.played, rules.period_length(one.period), counting))
        if isinstance(event, ev.PenaltyEnded):
            event = evolve(event, team=teams[event.penalty])
        events.append(event)
    return WrittenGame(tuple(events), rules)


logs = games.map(written)
"""Random games as logs that count down."""


def rewritten(event: Event, seq: int, numbers: Callable[[int], int]) -> Event:
    """`event` with another `seq`, and what it points at as `numbers` says."""
    event = evolve(event, seq=seq, after=None if event.after is None else numbers(event.after))
    if isinstance(event, ev.Goal) and event.ends is not None:
        return evolve(event, ends=numbers(event.ends))
    if isinstance(event, ev.PenaltyEnded):
        return evolve(event, penalty=numbers(event.penalty))
    if isinstance(event, ev.Void | ev.Amend):
        return evolve(event, target=numbers(event.target))
    return event


def with_inserted(
    log: WrittenGame, extras: Mapping[int, Sequence[Event]], without: Iterable[int] = ()
) -> tuple[WrittenGame, dict[int, int]]:
    """`log` with `extras`, by the `seq` they are written before, and without some; the old numbers by the new ones.

    What an extra points at is a number of the old log.
    """
    dropped = set(without)
    rows: list[tuple[Event, int | None]] = []
    for old in range(1, len(log.events) + 2):
        rows.extend((extra, None) for extra in extras.get(old, ()))
        rows.extend((event, old) for event in log.events[old - 1 : old] if old not in dropped)
    new = {old: seq for seq, (_, old) in enumerate(rows, 1) if old is not None}
    events = (rewritten(event, seq, lambda old: new.get(old, old)) for seq, (event, _) in enumerate(rows, 1))
    return log.with_events(events), {seq: old for old, seq in new.items()}
