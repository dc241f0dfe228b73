"""What the engine is to reach, each figure beside its reference in the same run.

    python tests/benchmarks/bench_targets.py

It needs the extra `bench`. Times are processor time, which other programs do not take away, the least of several rounds
in which reference and engine take turns. Reference and engine do not do the same: what each does stands beside it.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import statistics
import subprocess
import sys
import time
import tracemalloc
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from rinkfold import rulesets
from rinkfold.timeline import LiveGame, Moment, append, create, parse_log, read_log, replay
from rinkfold.timeline.folded import fold
from rinkfold.timeline.script import Script

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"
ROUNDS = 30

Work = Callable[[], object]


def least(works: Mapping[str, Work], times: int, rounds: int = ROUNDS) -> dict[str, float]:
    """The least processor seconds that each of `works` takes once; each round does every one `times` in a row."""
    found: dict[str, list[float]] = {name: [] for name in works}
    for work in works.values():
        work()
    for _ in range(rounds):
        for name, work in works.items():
            gc.collect()
            start = time.process_time()
            for _ in range(times):
                work()
            found[name].append((time.process_time() - start) / times)
    return {name: min(seconds) for name, seconds in found.items()}


def tell(what: str, reached: str, goal: str) -> None:
    """One line."""
    print(f"{what:<64} {reached:>12}   goal {goal}")


def trivial_events(count: int) -> Sequence[Any]:
    """Events of the library `eventsourcing` that add one to a number each, the first of them making the thing."""
    domain: Any = importlib.import_module("eventsourcing.domain")

    class Counted(domain.Aggregate.Event):  # type: ignore[misc]
        def apply(self, aggregate: Any) -> None:
            aggregate.number += 1

    class Number(domain.Aggregate):  # type: ignore[misc]
        def __init__(self) -> None:
            self.number = 0

    number = Number()
    for _ in range(count - 1):
        number.trigger_event(Counted)
    return list(number.collect_events())


def mutated(events: Sequence[Any]) -> object:
    """What the events come to."""
    thing = None
    for event in events:
        thing = event.mutate(thing)
    return thing


def folding() -> None:
    """Fold the example game, beside `mutate` of as many events that do nothing but count."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    script = tuple(Script.build(log.events, rules).placed)
    trivial = trivial_events(len(script))
    took = least({"mutate": lambda: mutated(trivial), "fold": lambda: fold(log.header, script, rules)}, 10)
    for name, seconds in took.items():
        print(f"  {name:<12} {len(script) / seconds:>10,.0f} events a second, {seconds * 1e3:.2f} ms")
    tell("fold of the example game, in events a second of mutate", f"{took['mutate'] / took['fold']:.2f}", "1.0")


def chained_example(folder: Path) -> bytes:
    """The example game as `rinkfold` writes it: each line carries the hash of the one before, line 1 the ruleset."""
    log = read_log(EXAMPLE)
    live = LiveGame.open(rulesets.of(log), home=log.header.home, away=log.header.away, game=log.header.game)
    path = folder / "chained.jsonl"
    create(path, live.events[0])
    append(path, log.events[1:])
    return path.read_bytes()


def loaded(lines: Sequence[str]) -> object:
    """The lines as JSON, nothing checked."""
    return [json.loads(line) for line in lines]


def reading() -> None:
    """Read a log (parse, check, build), beside `json.loads` of the same lines."""
    with TemporaryDirectory() as folder:
        logs = {"as the example is": EXAMPLE.read_bytes(), "chained, ruleset pinned": chained_example(Path(folder))}
    for name, data in logs.items():
        lines = data.decode().splitlines()
        took = least({"json": partial(loaded, lines), "read": partial(parse_log, data)}, 10)
        print(f"  {name}: json.loads {took['json'] * 1e3:.2f} ms, read {took['read'] * 1e3:.2f} ms")
        tell(f"reading a log, {name}, in the speed of json.loads", f"{took['json'] / took['read']:.2f}", "0.25")


def recording() -> None:
    """Record each event of the example game in turn, as it grows to its 320 events."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    took: list[float] = []
    for _ in range(5):
        live = LiveGame(log.events[:1], rules)
        for event in log.events[1:]:
            start = time.perf_counter()
            live.record(event)
            took.append(time.perf_counter() - start)
    told = statistics.median(took) * 1e6
    tell("LiveGame.record without the disk, median, game of 320 events", f"{told:.0f} µs", "200 µs")
    print(f"  nine of ten take less than {statistics.quantiles(took, n=10)[-1] * 1e6:.0f} µs")


def asking() -> None:
    """Strength at a played tenth, and at a moment that has been parsed."""
    log = read_log(EXAMPLE)
    game = replay(log, rulesets.of(log))
    tenths = range(0, game.periods[-1].end, 37)
    moments = [Moment(span.period, f"{minute}:13") for span in game.periods[:3] for minute in range(1, 14)]
    took = least(
        {
            "tenth": lambda: [game.strength_at(tenth) for tenth in tenths],
            "moment": lambda: [game.at(moment).strength for moment in moments],
        },
        3,
    )
    tell("strength at a played tenth", f"{took['tenth'] / len(tenths) * 1e6:.2f} µs", "5 µs")
    tell("strength at a moment, by way of all the state there", f"{took['moment'] / len(moments) * 1e6:.2f} µs", "5 µs")


def holding() -> None:
    """What a folded game keeps in memory, and after every answer was asked for."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)

    def answered() -> object:
        game = replay(log, rules)
        _ = (game.penalties, game.summary, game.findings, game.strength_segments, game.now.box)
        return game

    for what, work in (("folded", lambda: replay(log, rules)), ("folded and asked everything", answered)):
        work()  # what is imported or remembered at the first time is not the game's
        gc.collect()
        tracemalloc.start()
        kept = work()
        gc.collect()
        size = tracemalloc.get_traced_memory()[0]
        tracemalloc.stop()
        tell(f"memory of a game of {len(log.events)} events, {what}", f"{size / 1024:.0f} KiB", "1,024 KiB")
        del kept


def importing() -> None:
    """Whole processes that import and end, beside one that imports attrs and cattrs, and one that imports nothing."""
    programs = {
        "nothing": "pass",
        "attrs, cattrs": "import attrs, cattrs",
        "rinkfold.timeline": "import rinkfold.timeline",
        "read_log, replay": "from rinkfold.timeline import read_log, replay",
    }
    rounds = [{name: spent(code) for name, code in programs.items()} for _ in range(13)]
    took = {name: min(one[name] for one in rounds[1:]) for name in programs}  # the first one writes the bytecode
    print("  " + ", ".join(f"{name} {seconds * 1e3:.0f} ms" for name, seconds in took.items()))
    both = took["attrs, cattrs"]
    tell("import rinkfold.timeline, in that of attrs and cattrs", f"{took['rinkfold.timeline'] / both:.2f}", "2")
    tell("from it import read_log, replay: all that they need", f"{took['read_log, replay'] / both:.2f}", "2")
    bare = took["nothing"]
    net = (took["read_log, replay"] - bare) / (both - bare)
    print(f"  the last without what starting Python costs: {net:.2f}")


def spent(code: str) -> float:
    """Processor seconds of a process that runs `code`; its modules are compiled already, as after an installation."""
    program = f"import time\n{code}\nprint(time.process_time())"
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return float(subprocess.run([sys.executable, "-c", program], env=env, check=True, capture_output=True).stdout)


def main() -> None:
    """Print every figure."""
    print(
        f"Python {sys.version.split()[0]}, {os.cpu_count()} processors, least processor time of {ROUNDS} rounds in turn"
    )
    for part in (folding, reading, recording, asking, holding, importing):
        print(f"\n{part.__doc__}")
        part()


if __name__ == "__main__":
    main()
