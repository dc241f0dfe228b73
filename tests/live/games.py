"""Random games as logs: the histories of the naive simulator, written down with the readings of a board."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from agreement.bridge import header, placed, possible, ruleset
from agreement.comparing import seeded
from attrs import evolve, frozen

from rinkfold.timeline import Event, Game, LiveGame, replay
from rinkfold.timeline.clock import reading_in_period
from rinkfold.timeline.events import Amend, GameOpened, Goal, PenaltyAssessed, PenaltyEnded, Team, Void
from rinkfold.timeline.knobs.pinning import pin
from rinkfold.timeline.rules import Ruleset
from rinkfold.timeline.script import Placed

__all__ = ["Log", "answers", "game_of", "written", "written_anew"]


@frozen
class Log:
    """What `replay` needs of a log."""

    events: Sequence[Event]

    @property
    def header(self) -> GameOpened:
        """The first line."""
        first = self.events[0]
        assert isinstance(first, GameOpened)
        return first


def written(seed: int, *, elapsed: bool = False) -> list[Event]:
    """The log of the random game of `seed`, its ruleset pinned; on a board that counts up if `elapsed`."""
    game = seeded(seed)
    rules = ruleset({**game.knobs, **possible(game.knobs), "game.reading": "elapsed" if elapsed else "remaining"})
    opened = evolve(header(game.goalkeepers), pinned=pin(rules))
    places = placed(game.events)
    teams = {one.event.seq: one.event.team for one in places if isinstance(one.event, PenaltyAssessed)}
    return [opened, *(_with_reading(one, teams, rules) for one in places)]


def _with_reading(one: Placed, teams: Mapping[int, Team], rules: Ruleset) -> Event:
    event = one.event
    if isinstance(event, PenaltyEnded):
        event = evolve(event, team=teams[event.penalty])
    if one.played is None:
        return event
    return evolve(event, clock=reading_in_period(one.played, rules.period_length(one.period), rules.game.reading))


def game_of(events: Sequence[Event]) -> Game:
    """The whole replay of `events` by what is pinned in them."""
    return replay(Log(events))


def written_anew(events: Sequence[Event], order: Sequence[int]) -> tuple[list[Event], dict[int, int]]:
    """The log with the events `order` (their seqs) written in this order, and the old seq of each new one.

    What points at an event that is not among them points at the opening of the game, which is no target of anything.
    """
    old = {new: seq for new, seq in enumerate(order, 1)}
    new = {seq: number for number, seq in old.items()}
    return [renumbered(events[seq - 1], lambda target: new.get(target, 1)) for seq in order], old


def renumbered(event: Event, number: Callable[[int], int]) -> Event:
    """`event` with each seq in it told anew."""
    changes: dict[str, Any] = {"seq": number(event.seq)}
    if event.after is not None:
        changes["after"] = number(event.after)
    if isinstance(event, Void | Amend):
        changes["target"] = number(event.target)
    if isinstance(event, Goal) and event.ends is not None:
        changes["ends"] = number(event.ends)
    if isinstance(event, PenaltyEnded):
        changes["penalty"] = number(event.penalty)
    return evolve(event, **changes)


def answers(game: Game | LiveGame) -> Mapping[str, object]:
    """All that a game answers, by name."""
    game = game.game if isinstance(game, LiveGame) else game
    return {
        "header": game.header,
        "rules": game.rules,
        "placed": game.folded.placed,
        "changes": game.changes,
        "states": game.folded.states,
        "segments": game.strength_segments,
        "penalties": game.penalties,
        "summary": game.summary,
        "box": game.now.box,
        "strength": (game.now.strength, game.now.before),
        "in play": (game.in_play, game.over, game.if_play_resumed is None),
    }
