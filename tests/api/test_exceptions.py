"""What is raised can be copied and sent to another process, and is the same there."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from typing import Any

import pytest

from rinkfold.timeline import BadReading, Problem, ProblemsFound, parse_log, parse_reading

PROBLEMS = ProblemsFound([Problem(code="x", message="The line is empty.", file="g.jsonl", line=3)])
WAYS: list[Callable[[Any], Any]] = [copy.copy, copy.deepcopy, lambda error: pickle.loads(pickle.dumps(error))]


@pytest.mark.parametrize("way", WAYS, ids=["copied", "copied in depth", "pickled"])
def test_a_copy_is_as_the_original(way: Callable[[Any], Any]) -> None:
    """Problems, text and notes; the same of a reading that is none."""
    PROBLEMS.add_note("while the season was read")
    again = way(PROBLEMS)
    assert (again.problems, str(again), again.__notes__) == (PROBLEMS.problems, str(PROBLEMS), PROBLEMS.__notes__)
    wrong = BadReading("7.42")
    same = way(wrong)
    assert (same.found, same.why, str(same)) == ("7.42", wrong.why, str(wrong))


def test_a_bad_file_is_told_by_a_pool_of_processes() -> None:
    """What one process raises is raised where its result is asked for, and the pool goes on."""
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        with pytest.raises(ProblemsFound) as caught:
            pool.submit(parse_log, b"x\n", "bad.jsonl").result(timeout=60)
        assert [(problem.code, problem.file) for problem in caught.value.problems] == [("not_json", "bad.jsonl")]
        with pytest.raises(BadReading, match=r"^'7\.42' is not a reading"):
            pool.submit(parse_reading, "7.42").result(timeout=60)
        assert pool.submit(parse_reading, "7:42").result(timeout=60) == 4620
