"""Many random games at once: ``python -m agreement.run --games 20000 --seed N``, from the folder of the tests.

Prints what came of them and writes it down; ends with 1 if any game disagreed. Game number `i` has the seed `N + i`.
"""

from __future__ import annotations

import argparse
import hashlib
import platform
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

import attrs
from naive.rules import RULES_COUNTED

import rinkfold
from rinkfold.timeline.fold import step

from .comparing import compared, report, seeded
from .shrinking import shrunk

__all__ = ["Tally", "engine_digest", "main", "ran", "told"]

RESULT = Path(__file__).with_name("RESULT.txt")
SHOWN = 5


@attrs.define
class Tally:
    """What came of the games so far; `failed` has the seeds of those that disagreed, `shown` the first of them."""

    seed: int
    games: int = 0
    events: int = 0
    counts: Counter[str] = attrs.Factory(Counter)
    failed: list[int] = attrs.Factory(list)
    shown: list[str] = attrs.Factory(list)


def ran(games: int, seed: int, every: int = 1000) -> Tally:
    """The tally of `games` games, with a line of progress after each `every`."""
    tally = Tally(seed)
    for number in range(games):
        _take_in(tally, seed + number)
        if tally.games % every == 0:
            print(f"{tally.games} games, {len(tally.failed)} disagree", file=sys.stderr, flush=True)
    return tally


def _take_in(tally: Tally, seed: int) -> None:
    game = seeded(seed)
    one = compared(game)
    tally.games += 1
    tally.events += len(game.events)
    tally.counts.update(one.counts)
    if one.differences:
        tally.failed.append(seed)
        if len(tally.shown) < SHOWN:
            tally.shown.append(report(shrunk(one)))


def engine_digest() -> str:
    """Short digest of the sources of the fold, to tell which engine a result is of."""
    digest = hashlib.sha256()
    for path in sorted(Path(step.__file__).parent.glob("*.py")):
        digest.update(path.name.encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()[:16]


def told(tally: Tally, date: str) -> str:
    """The result as it is written down."""
    return "\n".join(_lines(tally, date)) + "\n"


def _lines(tally: Tally, date: str) -> Iterator[str]:
    yield "Engine and naive simulator on random games"
    yield ""
    yield f"date            {date}"
    yield f"Python          {platform.python_version()}"
    yield f"rinkfold        {rinkfold.__version__}, timeline/fold {engine_digest()}"
    yield f"seed            {tally.seed} (game i has the seed {tally.seed} + i)"
    yield f"games           {tally.games}"
    yield f"events          {tally.events}"
    yield f"disagreements   {len(tally.failed)}"
    yield ""
    yield "how often each rule fired"
    width = max(map(len, RULES_COUNTED))
    for rule in RULES_COUNTED:
        yield f"  {rule:<{width}} {tally.counts[rule]:>8}"
    if tally.failed:
        yield ""
        yield f"seeds that disagree: {tally.failed}"
    for text in tally.shown:
        yield ""
        yield text


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the games, print and write the result; 1 if any disagreed."""
    parser = argparse.ArgumentParser(prog="python -m agreement.run", description="Engine and simulator on random games")
    parser.add_argument("--games", type=int, default=20_000)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--result", type=Path, default=RESULT, help="where the result is written")
    options = parser.parse_args(arguments)
    tally = ran(options.games, options.seed)
    text = told(tally, datetime.now(UTC).date().isoformat())
    options.result.write_text(text, encoding="utf-8")
    print(text, end="")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
