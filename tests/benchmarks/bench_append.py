"""What an append costs in a short log and in a long one, beside a plain open, append and fsync of the same bytes.

    python tests/benchmarks/bench_append.py [FOLDER]

For each length an append to a log of it, the plain write to a file of its size and an append to the shortest log are
done in turn, so that a machine or a drive that gets slower slows all of them. The files are put back after each, so
that the 10,000th event is always the 10,000th. Much of it is what the drive does at an fsync: name a folder on the
drive in question.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from attrs import frozen

from rinkfold.timeline.events import Event, GameClosed, GameOpened, Goal, Shot, TeamSheet
from rinkfold.timeline.record import append, log_bytes

HEADER = GameOpened(
    seq=1, format=1, game="bench", ruleset="adult", home=TeamSheet(name="Larks"), away=TeamSheet(name="Otters")
)
SHOT = Shot(seq=0, period=2, clock="7:42", team="home", player="12")
GOAL = Goal(seq=0, period=2, clock="7:42", team="away", scorer="17", assists=("4", "9"))
CLOSED = GameClosed(seq=0, outcome="played")
LENGTHS = (10, 100, 1_000, 10_000)
ROUNDS = 200
ROUNDS_OF_A_CLOSING = 10


@frozen
class Bench:
    """A log of so many events less one, and a plain file of the same size."""

    length: int
    log: Path
    plain: Path

    @classmethod
    def made(cls, folder: Path, length: int) -> Bench:
        """Both files, in `folder`."""
        data = log_bytes([HEADER, *[SHOT] * (length - 2)])
        bench = cls(length, folder / f"{length}.jsonl", folder / f"{length}.plain")
        bench.log.write_bytes(data)
        bench.plain.write_bytes(data)
        return bench

    def append_seconds(self, event: Event) -> float:
        """How long it takes to append `event` as the last of the log, which is then put back."""
        size = self.log.stat().st_size
        spent = seconds(lambda: append(self.log, [event]))
        os.truncate(self.log, size)
        return spent

    def plain_seconds(self, data: bytes) -> float:
        """How long it takes to open the plain file, write `data` at its end and sync it; it is then put back."""

        def write() -> None:
            with self.plain.open("ab", buffering=0) as file:
                file.write(data)
                os.fsync(file.fileno())

        size = self.plain.stat().st_size
        spent = seconds(write)
        os.truncate(self.plain, size)
        return spent


def seconds(work: Callable[[], object]) -> float:
    """How long `work` takes once."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def line_of_the_goal(bench: Bench) -> bytes:
    """The bytes that an append of the goal writes."""
    size = bench.log.stat().st_size
    append(bench.log, [GOAL])
    data = bench.log.read_bytes()[size:]
    os.truncate(bench.log, size)
    return data


def row(bench: Bench, shortest: Bench) -> str:
    """One line of the table: medians in milliseconds, and the ratios pair by pair."""
    data = line_of_the_goal(bench)
    appending, plain, to_plain, to_shortest = [], [], [], []
    for _ in range(ROUNDS):
        appending.append(bench.append_seconds(GOAL))
        plain.append(bench.plain_seconds(data))
        to_plain.append(appending[-1] / plain[-1])
        to_shortest.append(appending[-1] / shortest.append_seconds(GOAL))
    closing = [bench.append_seconds(CLOSED) for _ in range(ROUNDS_OF_A_CLOSING)]
    return (
        f"{bench.length:>7,} {milliseconds(appending)} {statistics.median(to_shortest):>10.2f} {milliseconds(plain)} "
        f"{statistics.median(to_plain):>10.2f} {milliseconds(closing)}"
    )


def milliseconds(spent: list[float]) -> str:
    """Their median."""
    return f"{statistics.median(spent) * 1e3:>9.3f}"


def main(folder: str | None) -> None:
    """Print the table."""
    print(f"Python {sys.version.split()[0]}, {ROUNDS} rounds in turn; medians, milliseconds")
    print("event number; append of a goal, beside the 10th; open, append and fsync alone; append beside it; a closing")
    print(f"{'event':>7} {'append':>9} {'× the 10th':>10} {'plain':>9} {'× plain':>10} {'closing':>9}")
    with tempfile.TemporaryDirectory(dir=folder) as name:
        benches = [Bench.made(Path(name), length) for length in LENGTHS]
        for bench in benches:
            print(row(bench, benches[0]))
    print("A closing, and what corrects an event, is checked against the whole log, so it grows with it.")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else None)
