"""How many games a second a season takes, and where the time of a game goes.

    python tests/benchmarks/bench_season.py [DIR] [--games 5000] [--jobs 2]

DIR is a folder of logs; without it as many games as asked for are made first (`examples/random_games.py`, seed 1). The
whole folder is added up as `rinkfold season` does it, with one process and with several. Then each step of some of the
games is timed by itself, in processor time and the best of several rounds, so that other programs disturb little.
What the clock on the wall says depends on what else the machine does: the load is told beside it, and what the
processor time comes to on idle processors is reckoned from it, not measured. Peak memory is told after a fifth of the
games and after all: what is kept of a game is its line among the results.
"""

from __future__ import annotations

import argparse
import gc
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from attrs import frozen

from rinkfold import rulesets
from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.running import logs_in, summaries
from rinkfold.cli.season.totals import Season, season_of
from rinkfold.timeline import parse_log, replay
from rinkfold.timeline.views.findings import findings

GENERATOR = Path(__file__).parents[2] / "examples" / "random_games.py"
SAMPLE = 100
ROUNDS = 7


@frozen
class Run:
    """A whole folder added up: seconds of the wall clock, and of processors in all processes together."""

    games: int
    wall: float
    cpu: float

    def line(self, jobs: int) -> str:
        """Games a second, by the clock and by processor time, which other programs do not take away."""
        idle = f"{jobs} idle processor{'s' if jobs > 1 else ''}"
        clock, cpu = self.games / self.wall, self.cpu / self.games
        return (
            f"--jobs {jobs}: {clock:4.0f} games a second on the clock; {cpu * 1e3:5.2f} ms of processor a game, "
            f"which would be {jobs / cpu:4.0f} a second on {idle}"
        )


def memory() -> str:
    """The most that this process, and the largest of those that it waited for, ever held."""
    try:
        import resource
    except ImportError:  # Windows
        return "peak memory not known here"
    unit = 1 << 20 if sys.platform == "darwin" else 1 << 10  # bytes there, kilobytes elsewhere
    own, others = (resource.getrusage(who).ru_maxrss / unit for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return f"peak memory {own:.0f} MB in the first process, {others:.0f} MB in the largest other"


def spent() -> float:
    """Processor seconds of this process and of those that it waited for."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def run(folder: str, files: Sequence[str], jobs: int) -> Run:
    """The folder added up once."""
    wall, cpu = time.perf_counter(), spent()
    season = season_of(summaries(folder, files, jobs))
    return Run(len(season.results), time.perf_counter() - wall, spent() - cpu)


def best(work: Callable[[], object], games: int) -> float:
    """Milliseconds of processor time a game, the best of the rounds."""
    found = []
    for _ in range(ROUNDS):
        gc.collect()
        start = time.process_time()
        work()
        found.append((time.process_time() - start) / games * 1e3)
    return min(found)


def steps(paths: Sequence[Path]) -> dict[str, float]:
    """What each step takes of a game, in milliseconds."""
    data = [path.read_bytes() for path in paths]
    logs = [parse_log(one) for one in data]
    rules = [rulesets.of(log) for log in logs]
    pairs = [*zip(logs, rules, strict=True)]
    rows = [game_row(one) for one in data]

    def added() -> None:
        season = Season()
        for row in rows:
            season.add(row)

    def timed(work: Callable[[], object]) -> float:
        return best(work, len(paths))

    folded = timed(lambda: [replay(*pair) for pair in pairs])
    summed = timed(lambda: [replay(*pair).summary for pair in pairs])
    checked = timed(lambda: [(game.summary, findings(game)) for pair in pairs for game in (replay(*pair),)])
    read = timed(lambda: [parse_log(one) for one in data])
    unpinned = timed(lambda: [rulesets.of(log) for log in logs])
    whole = timed(lambda: [game_row(one) for one in data])
    return {
        "reading the log": read,
        "its ruleset": unpinned,
        "script and fold": folded,
        "totals": summed - folded,
        "findings": checked - summed,
        "the rest of the summary": whole - read - unpinned - checked,
        "a game in all": whole,
        "adding it up, in the first process": timed(added),
    }


def told(folder: str, jobs: int) -> None:
    """Print everything."""
    files = logs_in(folder)
    paths = [Path(folder, file) for file in files[:: max(len(files) // SAMPLE, 1)]]
    lines = sum(path.read_bytes().count(b"\n") for path in paths) / len(paths)
    print(f"Python {sys.version.split()[0]}, {len(files):,} games of {lines:.0f} events on average")
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    print(f"{os.cpu_count()} processors{load} before the run")
    run(folder, files[: len(files) // 5], jobs)
    print(f"after a fifth of them: {memory()}")
    for number in (1, jobs):
        print(run(folder, files, number).line(number))
    print(f"after all of them, twice: {memory()}")
    gc.collect()
    gc.freeze()
    gc.disable()
    print(f"steps of {len(paths)} games, processor milliseconds a game, best of {ROUNDS} rounds:")
    for name, milliseconds in steps(paths).items():
        print(f"  {name:<36} {milliseconds:6.2f}")


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("folder", nargs="?", metavar="DIR")
    parser.add_argument("--games", type=int, default=5000)
    parser.add_argument("--jobs", type=int, default=2)
    given = parser.parse_args()
    if given.folder is not None:
        told(given.folder, given.jobs)
        return
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, str(GENERATOR), folder, "--games", str(given.games)], check=True)
        told(folder, given.jobs)


if __name__ == "__main__":
    main()
