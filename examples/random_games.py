"""A season of invented games: legal random games, written as real logs.

    python examples/random_games.py DIR --games 5000 --seed 1

Each game is played event by event on a `LiveGame`, which says who sits, who may go and who is short: so nobody scores
from the penalty box, doors open when they may, and captains choose only what can be had. The logs are what a careful
table writes: rosters, faceoffs and stoppages, shots, goals, penalties of all kinds, goalkeepers, corrections, figures
of the board, with the ruleset pinned and the lines chained. Clubs, people and competitions do not exist. The same seed
gives the same bytes.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from datetime import date, timedelta
from pathlib import Path

from random_clubs import CLUBS, DIVISIONS, club, person, rules_of
from random_play import Play
from random_table import Bench

from rinkfold.timeline import LiveGame, Officials
from rinkfold.timeline.record import log_bytes

__all__ = ["random_game", "write_game", "write_games"]

CLERKS = 40
"""How many people keep score in each division."""


def random_game(seed: int, number: int) -> LiveGame:
    """Game `number` of the season of `seed`, as it was recorded."""
    rng = random.Random(f"{seed} {number}")
    division = DIVISIONS[number % len(DIVISIONS)]
    home, away = (club(seed, division.name, n) for n in rng.sample(range(CLUBS), 2))
    clerk = random.Random(f"{seed} {division.name} {rng.randrange(CLERKS)}")
    officials = Officials(referees=(person(rng), person(rng)), scorekeeper=person(clerk), timekeeper=person(rng))
    day = date(2026, 9, 5) + timedelta(days=number * 200 // 5000 % 200)
    live = LiveGame.open(
        rules_of(division),
        home=home,
        away=away,
        game=f"{division.ruleset}-{number:05d}",
        settings=division.settings,
        date=day.isoformat(),
        competition=division.name,
        officials=officials,
    )
    table = Play(rng, live, Bench.of("home", home), Bench.of("away", away))
    table.tempo = 3 * rules_of(division).game.period_length // rng.randrange(48, 92)
    table.doors = rng.random() < 0.7
    table.play()
    return live


def write_game(folder: Path, seed: int, number: int) -> int:
    """Write game `number` into `folder`; how many events it has."""
    live = random_game(seed, number)
    (folder / f"{live.game.header.game}.jsonl").write_bytes(log_bytes(live.events))
    return len(live.events)


def write_games(folder: Path, seed: int, numbers: Sequence[int], jobs: int = 1) -> int:
    """Write the games of these numbers, with `jobs` processes; how many events they have."""
    folder.mkdir(parents=True, exist_ok=True)
    if jobs == 1:
        return sum(write_game(folder, seed, number) for number in numbers)
    with ProcessPoolExecutor(jobs) as pool:
        return sum(pool.map(write_game, [folder] * len(numbers), [seed] * len(numbers), numbers, chunksize=50))


def main() -> None:
    parser = argparse.ArgumentParser(description="Write a season of legal random games as logs.")
    parser.add_argument("folder", type=Path, metavar="DIR")
    parser.add_argument("--games", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2, help="processes")
    given = parser.parse_args()
    events = write_games(given.folder, given.seed, range(given.games), given.jobs)
    print(f"{given.games} games, {events} events, in {given.folder}")


if __name__ == "__main__":
    main()
