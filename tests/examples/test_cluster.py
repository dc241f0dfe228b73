"""A season on a cluster is the season that one process adds up."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.totals import season_of

pytestmark = pytest.mark.examples

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "cluster" / "season.py"
GAMES = 80
IN_ONE_FOLDER = f"""
import sys
from pathlib import Path
sys.path.insert(0, {str(EXAMPLE.parent)!r})
from dask.distributed import Client, LocalCluster
from season import audit
from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.totals import season_of

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, Client(cluster) as client:
        alone = season_of(map(game_row, sorted(folder.rglob("*.jsonl"))))
        print(len(client.nthreads()), audit(folder, client) == alone)
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Random games, and one file that is none."""
    made = tmp_path_factory.mktemp("season")
    generator = str(ROOT / "examples" / "random_games.py")
    subprocess.run([sys.executable, generator, str(made), "--games", str(GAMES)], check=True, capture_output=True)
    (made / "broken.jsonl").write_text("no log\n", encoding="utf-8")
    return made


def run(*arguments: str) -> str:
    """What a program prints; it must succeed."""
    ended = subprocess.run([sys.executable, *arguments], capture_output=True, text=True, timeout=300)
    assert ended.returncode == 0, ended.stderr
    return ended.stdout


def test_two_processes_add_up_what_one_does(folder: Path, tmp_path: Path) -> None:
    """The whole season is equal, the file that cannot be read included; and there were two processes."""
    program = tmp_path / "program.py"
    program.write_text(IN_ONE_FOLDER, encoding="utf-8")
    assert run(str(program), str(folder)).split() == ["2", "True"]
    assert len(season_of(map(game_row, sorted(folder.rglob("*.jsonl")))).unreadable) == 1


def test_it_says_what_it_did_and_what_it_cost(folder: Path) -> None:
    """Games, what is wrong, and the seconds that a thousand games take."""
    counted, cost = run(str(EXAMPLE), str(folder), "--workers", "2").splitlines()
    assert re.fullmatch(rf"{GAMES} games, \d+ errors in them, 1 files that cannot be read", counted)
    assert re.fullmatch(r"[\d.]+ s with 2 processes: [\d.]+ s a thousand games", cost)
