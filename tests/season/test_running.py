"""A folder read by one process or several."""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures.process import BrokenProcessPool
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.season import progress, running
from rinkfold.cli.season.files import csv_text
from rinkfold.cli.season.progress import progress_line, shown_progress, watched
from rinkfold.cli.season.running import logs_in, number_of_jobs, summaries
from rinkfold.cli.season.sheets import sheets
from rinkfold.cli.season.summaries import GameSummary
from rinkfold.cli.season.totals import season_of
from rinkfold.timeline import ProblemsFound


def test_two_processes_give_what_one_gives(season_folder: Path, rows: tuple[GameSummary, ...]) -> None:
    """The same summaries, in the order of the files."""
    files = logs_in(str(season_folder))
    assert len(files) > running.WORTH_A_PROCESS  # else no process would be started
    one = list(summaries(str(season_folder), files, 1, names=True))
    two = list(summaries(str(season_folder), files, 2, names=True))
    assert one == two == list(rows)


def test_few_games_are_not_worth_a_process(monkeypatch: pytest.MonkeyPatch, tiny: Path) -> None:
    """Starting one takes longer than reading them."""
    monkeypatch.setattr(running, "ProcessPoolExecutor", None)
    assert len(list(summaries(str(tiny), logs_in(str(tiny)), 8))) == 5


def test_a_name_that_is_no_text_is_marked(tmp_path: Path) -> None:
    """A file whose name is not in the system's encoding can still stand in every table."""
    (row,) = summaries(str(tmp_path), ["fog\udcff.jsonl"], 1)
    assert row.file == "fog\ufffd.jsonl"
    assert "".join(map(csv_text, sheets(season_of([row]), names=False))).encode().count(b"fog") == 2


@pytest.mark.parametrize("jobs", [1, 2])
def test_files_are_read_when_their_turn_comes(jobs: int, tmp_path: Path) -> None:
    """However many there are, only a few are ahead: the last one is not read when the first is taken in."""
    names = [f"{number:04}.jsonl" for number in range(400)]
    for name in names:
        (tmp_path / name).write_bytes(b"")
    coming = summaries(str(tmp_path), names, jobs)
    first = next(coming)
    (tmp_path / names[-1]).unlink()
    *_, last = coming
    assert "cannot be read" not in first.problems[0]
    assert "cannot be read" in last.problems[0]


def test_a_process_that_is_lost(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """It is said, with what may help."""

    class Lost:
        def result(self) -> None:
            raise BrokenProcessPool

        def cancel(self) -> None:
            pass

    class Pool:
        def __init__(self, *_: Any, **__: Any) -> None:
            pass

        def __enter__(self) -> Pool:
            return self

        def __exit__(self, *_: object) -> None:
            pass

        def submit(self, *_: Any) -> Lost:
            return Lost()

    monkeypatch.setattr(running, "ProcessPoolExecutor", Pool)
    with pytest.raises(ProblemsFound, match=r"ended from outside\. Try --jobs 1"):
        list(summaries(str(tmp_path), ["x.jsonl"] * 200, 2))


@pytest.mark.parametrize("typed", ["0", "61", "-1", "x", "9" * 5000, "٣"])
def test_no_number_of_processes(typed: str) -> None:
    """It is refused in one sentence, however many figures were typed."""
    with pytest.raises(ProblemsFound, match=r"is no number of processes\. Write one from 1 to 60\.") as refused:
        number_of_jobs(typed)
    assert len(str(refused.value)) < 120


def test_which_files_are_games(tmp_path: Path) -> None:
    """Those that end with .jsonl, in folders below too; what is hidden, locks and torn tails are none."""
    games = ("b/2.jsonl", "a.jsonl", "b/1.jsonl")
    for name in (*games, ".hidden.jsonl", ".git/x.jsonl", "a.jsonl.lock", "a.jsonl.torn-1"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(b"")
    assert logs_in(str(tmp_path)) == sorted(games)


@pytest.mark.parametrize("typed", ["0", "-1", "two", "1.5", "", "61", "²"])
def test_numbers_of_jobs_that_are_none(typed: str) -> None:
    """Each is refused with what can be written."""
    with pytest.raises(ProblemsFound, match="Write one from 1 to 60"):
        number_of_jobs(typed)


def test_numbers_of_jobs() -> None:
    """As typed, or one for each processor."""
    assert number_of_jobs("3") == 3
    assert number_of_jobs(None) >= 1


def test_progress(monkeypatch: pytest.MonkeyPatch) -> None:
    """A line that is written over, and wiped at the end; every item comes through."""
    monkeypatch.setattr(progress, "EVERY", 0.0)
    stream, ticks = StringIO(), iter(range(100))
    assert list(shown_progress("abc", 3, stream, clock=lambda: float(next(ticks)))) == ["a", "b", "c"]
    *lines, blank, rest = stream.getvalue().split("\r")[1:]
    assert [line.split("] ")[1].split(" games")[0] for line in lines] == ["1 of 3", "2 of 3", "3 of 3"]
    assert (blank.strip(), rest) == ("", "")


def test_the_line_of_progress() -> None:
    """A bar, how many, how fast, and how long it still takes."""
    assert progress_line(1250, 5000, 3.0) == "[######------------------] 1,250 of 5,000 games, 417 a second, 9 s left"


def test_progress_is_for_people_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only on a terminal, and only where it is wanted."""

    def terminal(answer: Callable[[], bool]) -> StringIO:
        stream = StringIO()
        monkeypatch.setattr(stream, "isatty", answer)
        return stream

    monkeypatch.setattr(sys, "stderr", terminal(lambda: True))
    assert (watched(True), watched(False)) == (True, False)
    monkeypatch.setattr(sys, "stderr", terminal(lambda: False))
    assert not watched(True)
    monkeypatch.setattr(sys, "stderr", None)
    assert not watched(True)
