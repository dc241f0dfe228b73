"""How fast a game is folded, beside `json.loads` on the same lines in the same run.

    python tests/benchmarks/bench_fold.py

Both do the example game's events over and over, in turn, so that a machine that gets slower slows both. What is timed
is `fold`: every state, every change, each with its reason. Reading the file, checking it and putting it in order are
not in it.
"""

from __future__ import annotations

import json
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from rinkfold import rulesets
from rinkfold.timeline import read_log
from rinkfold.timeline.folded import fold
from rinkfold.timeline.script import Script

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"
ROUNDS = 200


def seconds(work: Callable[[], object]) -> float:
    """How long `work` takes once."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    """Print events a second of both, and the ratio."""
    lines = EXAMPLE.read_text(encoding="utf-8").splitlines()
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    script = tuple(Script.build(log.events, rules).placed)
    ratios, folding, loading = [], [], []
    for _ in range(ROUNDS):
        loading.append(seconds(lambda: [json.loads(line) for line in lines]) / len(lines))
        folding.append(seconds(lambda: fold(log.header, script, rules)) / len(script))
        ratios.append(loading[-1] / folding[-1])
    print(f"Python {sys.version.split()[0]}, {len(script)} events, {ROUNDS} rounds in turn; medians")
    for name, times in (("json.loads", loading), ("fold", folding)):
        middle = statistics.median(times)
        print(f"{name:<11} {middle * 1e6:6.2f} µs an event {1 / middle:>9,.0f} a second")
    print(f"fold in events a second of json.loads: {statistics.median(ratios):.2f} (pair by pair)")


if __name__ == "__main__":
    main()
