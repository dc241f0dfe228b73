"""Where the time of reading, folding, answering and recording the example game goes, by module.

    python tests/benchmarks/profile_engine.py

A profiler slows small functions down more than large ones: the shares say where to look, not how long it takes.
"""

from __future__ import annotations

import cProfile
import pstats
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import rinkfold.timeline
from rinkfold import rulesets
from rinkfold.timeline import LiveGame, parse_log, read_log, replay
from rinkfold.timeline.folded import fold
from rinkfold.timeline.script import Script

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"
ENGINE = Path(rinkfold.timeline.__file__).parent
TIMES = 60
SHOWN = 0.02
"""The least share that gets a line."""


def shares(work: Callable[[], object]) -> Counter[str]:
    """Seconds by module; what is written in C counts where it is called from, if that is one place."""
    work()
    profile = cProfile.Profile()
    profile.enable()
    for _ in range(TIMES):
        work()
    profile.disable()
    spent: Counter[str] = Counter()
    for (file, _, _), (_, _, own, _, callers) in pstats.Stats(profile).stats.items():  # type: ignore[attr-defined]
        if file != "~":
            spent[module(file)] += own
            continue
        for (caller, _, _), (_, _, at_that_call, _) in callers.items():
            spent[module(caller)] += at_that_call
    return spent


def module(file: str) -> str:
    """What a file is called."""
    path = Path(file)
    if path.is_relative_to(ENGINE):
        return path.relative_to(ENGINE).with_suffix("").as_posix()
    made = {"<cattrs": "made by cattrs", "<attrs": "made by attrs", "<string>": "made by attrs"}
    return next((name for start, name in made.items() if file.startswith(start)), f"{path.parent.name}/{path.stem}")


def main() -> None:
    """Print the modules with their shares, for each part of the work."""
    data = EXAMPLE.read_bytes()
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    script = Script.build(log.events, rules).placed

    def recorded() -> None:
        live = LiveGame(log.events[:1], rules)
        for event in log.events[1:]:
            live.record(event)

    def answered() -> object:
        game = replay(log, rules)
        return game.penalties, game.summary, game.strength_segments, game.now.box

    parts: dict[str, Callable[[], object]] = {
        "reading the log": lambda: parse_log(data),
        "putting it in order": lambda: Script.build(log.events, rules),
        "folding it": lambda: fold(log.header, script, rules),
        "order, fold, penalties, totals, segments, box": answered,
        "its findings, all of the above before": lambda: replay(log, rules).findings,
        "recording it live, event by event": recorded,
    }
    for what, work in parts.items():
        spent = shares(work)
        print(f"\n{what}")
        for name, seconds in spent.most_common():
            if seconds >= SHOWN * spent.total():
                print(f"  {seconds / spent.total():4.0%}  {name}")


if __name__ == "__main__":
    main()
