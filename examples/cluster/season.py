"""A season added up on a cluster: the same pure function for each game, in as many processes as there are.

    python examples/cluster/season.py DIR [--workers 2]

DIR holds one log a game. Here the cluster is this computer; with `Client("scheduler:8786")` it is any other whose
machines see the folder under the same name.
"""

import argparse
import os
import time
from pathlib import Path

from dask.distributed import Client, LocalCluster

from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.summaries import GameSummary
from rinkfold.cli.season.totals import Season, season_of

TOGETHER = 32
"""Games a task: enough to outweigh what a task costs."""


def rows(files: list[Path]) -> list[GameSummary]:
    """What a worker does: one summary a game. A log that cannot be read gives one that says why."""
    return [game_row(file) for file in files]


def audit(folder: Path, client: Client) -> Season:
    """All games of `folder`, added up here in the order of their names."""
    files = sorted(folder.rglob("*.jsonl"))
    batches = [files[start : start + TOGETHER] for start in range(0, len(files), TOGETHER)]
    futures = client.map(rows, batches, pure=False)
    return season_of(row for future in futures for row in future.result())


def main() -> None:
    """Add a folder up, and say what it took."""
    parser = argparse.ArgumentParser(description="Add up the games of a folder on a cluster of processes.")
    parser.add_argument("folder", type=Path, metavar="DIR")
    parser.add_argument("--workers", type=int, default=os.cpu_count())
    given = parser.parse_args()
    local = LocalCluster(n_workers=given.workers, threads_per_worker=1, dashboard_address=None)
    with local as cluster, Client(cluster) as client:
        began = time.perf_counter()
        season = audit(given.folder, client)
        took = time.perf_counter() - began
    games, errors = len(season.results), sum(game.found("error") for game in season.results)
    print(f"{games} games, {errors} errors in them, {len(season.unreadable)} files that cannot be read")
    if games:
        print(f"{took:.1f} s with {given.workers} processes: {took / games * 1000:.1f} s a thousand games")


if __name__ == "__main__":
    main()
