"""How fast a live game takes an event in, and how fast it answers.

    python tests/benchmarks/bench_live.py

Three things are timed: each event of the example game recorded in turn, and recorded and answered (who skates, who
sits, now and if play resumed); and in a record of 5,000 events one more that is late, at the end of the game and in
its middle, with the correction that takes it back.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from rinkfold import rulesets
from rinkfold.timeline import Event, Faceoff, Goal, LiveGame, PenaltyAssessed, Ruleset, Shot, Stoppage, Void, read_log
from rinkfold.timeline.clock import format_reading

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"
ROUNDS = 20
LONG = 5000


def seconds(work: Callable[[], object]) -> float:
    """How long `work` takes once."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def recorded(events: Sequence[Event], rules: Ruleset, *, answered: bool) -> list[float]:
    """The seconds that each event took, in a game recorded from its first line on."""
    live = LiveGame(events[:1], rules)

    def one(event: Event) -> None:
        live.record(event)
        if answered:
            resumed = live.if_play_resumed
            _ = (live.now.strength, live.now.box, resumed.box if resumed else ())

    return [seconds(partial(one, event)) for event in events[1:]]


def long_game() -> LiveGame:
    """A record of 5,000 events: periods of 200 minutes, every few seconds a whistle, a shot, a penalty or a goal."""
    rules = rulesets.with_settings(rulesets.load("adult"), {"game.period_length": "200:00"})
    live = LiveGame.open(rules, home="Larks", away="Herons")
    step = 3 * 200 * 600 // LONG
    for number in range(LONG - 1):
        period, played = divmod(number * step, 200 * 600)
        when = {"seq": 0, "period": period + 1, "clock": format_reading(200 * 600 - played)}
        live.record(_event(number, when))
    return live


def _event(number: int, when: dict[str, object]) -> Event:
    team = "home" if number % 3 else "away"
    if number % 40 == 7:
        return PenaltyAssessed(**when, team=team, player=str(number % 17), parts=("minor",))  # type: ignore[arg-type]
    if number % 90 == 20:
        return Goal(**when, team=team, scorer="9")  # type: ignore[arg-type]
    if number % 2:
        return Stoppage(**when) if number % 4 == 1 else Shot(**when, team=team)  # type: ignore[arg-type]
    return Faceoff(**when)  # type: ignore[arg-type]


def late_entries(live: LiveGame, behind: int) -> tuple[list[float], list[float]]:
    """Seconds for a penalty written `behind` events after its reading, and for the void of it."""
    late, voids = [], []
    when = live.events[LONG - behind]
    for _ in range(ROUNDS):
        call = PenaltyAssessed(
            seq=0, period=when.period, clock=when.clock, team="home", player="44", parts=("minor", "misconduct")
        )
        late.append(seconds(partial(live.record, call)))
        void = Void(seq=0, target=live.next_seq - 1, reason="slip")
        voids.append(seconds(partial(live.record, void)))
    return late, voids


def tell(what: str, times: list[float]) -> None:
    """One line: median and greatest."""
    print(f"{what:<58} {statistics.median(times) * 1e3:8.3f} ms {max(times) * 1e3:8.3f} ms")


def main() -> None:
    """Print median and greatest of each."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    print(f"Python {sys.version.split()[0]}{'':<45} median    greatest")
    tell(f"an event of a game of {len(log.events)} recorded", recorded(log.events, rules, answered=False))
    tell("recorded and answered: strength and box, now and resumed", recorded(log.events, rules, answered=True))
    live = long_game()
    for behind, where in ((6, "at the end"), (LONG // 2, "in the middle")):
        late, voids = late_entries(live, behind)
        tell(f"a late entry {where} of a record of {LONG}", late)
        tell("  and the void of it", voids)


if __name__ == "__main__":
    main()
