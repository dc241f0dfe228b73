"""Logs with noise, read and appended to: ``python -m torture.fuzz --examples 100000 --seed N``, from the tests' folder.

Hypothesis draws the logs from the vocabulary; each is spoilt several times. Prints what came of them and writes it down
beside this file; ends with 1 at the first file that breaks a rule, after printing it.
"""

from __future__ import annotations

import argparse
import platform
import random
import sys
import tempfile
import time
from collections import Counter
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

import hypothesis
from attrs import Factory, define
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from strategies import logs
from torture.games import remark
from torture.noise import noisy
from torture.reading import TooSlow, check_append, check_read, time_limit

from rinkfold.timeline.events import Event, GameClosed, Goal, Void
from rinkfold.timeline.record import log_bytes

__all__ = ["Tally", "closable_logs", "main", "spoil"]

RESULT = Path(__file__).with_name("FUZZ_RESULT.txt")
LIMIT_SECONDS = 5.0
"""What no file may take; one takes some milliseconds, and the machine may be busy."""
A_LOG = 25
"""How often each log is spoilt."""
GOAL = Goal(seq=0, period=3, clock="0:45.3", team="home", scorer=None)


@define
class Tally:
    """What came of the files so far.

    Attributes:
        files: how many were read, made of how many `logs`.
        read: how many were read with which end.
        appended: the same for the files that were appended to as well.
        noise: how many were spoilt in which way first.
        slowest: the most seconds that one took.
    """

    files: int = 0
    logs: int = 0
    read: Counter[str] = Factory(Counter)
    appended: Counter[str] = Factory(Counter)
    noise: Counter[str] = Factory(Counter)
    slowest: float = 0.0


@st.composite
def closable_logs(draw: st.DrawFn, most: int = 8) -> tuple[Event, ...]:
    """A log from the vocabulary, which may be closed at the end, and opened again."""
    events = draw(logs(most=most))
    if draw(st.booleans()):
        events = (*events, GameClosed(seq=len(events) + 1, outcome="played"))
        if draw(st.booleans()):
            events = (*events, Void(seq=len(events) + 1, target=len(events), reason="not yet"))
    return events


def spoil(events: tuple[Event, ...], chained: bool, seed: int, times: int, tally: Tally) -> None:
    """Spoil the log of `events` so many times, and check how each file is read; append to one in six.

    Raises:
        AssertionError: a rule is broken; the message ends with the file.
    """
    chance, original = random.Random(f"{seed} of {len(events)}"), log_bytes(events, chained=chained)
    tally.logs += 1
    for _ in range(times):
        name, changed = noisy(original, chance)
        began = time.perf_counter()
        try:
            with time_limit(LIMIT_SECONDS):
                log, what = check_read(original, changed)
                if chance.random() < 1 / 6:
                    with tempfile.TemporaryDirectory() as folder:
                        event = chance.choice([remark(), GOAL])
                        tally.appended[check_append(Path(folder) / "game.jsonl", changed, log, event)] += 1
        except (Exception, TooSlow) as error:
            raise AssertionError(f"{type(error).__name__}: {error}\nnoise: {name}\nfile: {changed!r}") from error
        tally.slowest = max(tally.slowest, time.perf_counter() - began)
        tally.files += 1
        tally.read[what] += 1
        tally.noise[name] += 1


def ran(examples: int, seed: int) -> Tally:
    """The tally of so many files."""
    tally = Tally()

    @hypothesis.seed(seed)
    @settings(
        max_examples=-(-examples // A_LOG),
        database=None,
        deadline=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    @given(closable_logs(), st.booleans(), st.integers(0, 2**32))
    def spoil_each(events: tuple[Event, ...], chained: bool, number: int) -> None:
        spoil(events, chained, number, A_LOG, tally)
        if tally.logs % 200 == 0:
            print(f"{tally.files} files", file=sys.stderr, flush=True)

    spoil_each()
    return tally


def told(tally: Tally, seed: int, seconds: float) -> str:
    """The result as it is written down."""
    packages = ", ".join(
        f"{name} {version(name)}" for name in ("rinkfold", "attrs", "cattrs", "filelock", "hypothesis")
    )
    parts = [
        f"{tally.files} files made of {tally.logs} logs, seed {seed}: no crash, no hang, no silent acceptance.",
        f"{datetime.now(UTC):%Y-%m-%d}, Python {platform.python_version()}, {packages}",
        f"{seconds:.0f} s; the slowest file took {tally.slowest * 1000:.0f} ms",
    ]
    counters = {
        "How they were read": tally.read,
        "Appended to": tally.appended,
        "Noise, the first of each": tally.noise,
    }
    for title, counter in counters.items():
        parts += ["", f"{title}:", *(f"{count:>8}  {what}" for what, count in counter.most_common())]
    return "\n".join(parts) + "\n"


def main() -> None:
    """Run, print, and write the result down."""
    parser = argparse.ArgumentParser(description="Logs with noise, read and appended to.")
    parser.add_argument("--examples", type=int, default=100_000, help="how many files")
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--output", type=Path, default=RESULT, help="where the result is written")
    chosen = parser.parse_args()
    began = time.perf_counter()
    try:
        tally = ran(chosen.examples, chosen.seed)
    except AssertionError as error:
        print(error)
        sys.exit(1)
    text = told(tally, chosen.seed, time.perf_counter() - began)
    chosen.output.write_text(text, encoding="utf-8")
    print(text, end="")


if __name__ == "__main__":
    main()
