"""Mutation testing of the fold: ``python -m mutation.run``, from the folder of the tests.

It needs an operating system that forks.
Each small change of the fold's code is tried in a process of its own, on the published rulings, the written cases and
the first 40 random games. What survives them is tried on the tests of `tests/fold`, then on all the random games that
the tests run. What survives those too is written down, with a judgement from `judgements.toml`.
"""

from __future__ import annotations

import argparse
import gc
import multiprocessing
import os
import re
import signal
import sys
import time
import tomllib
from collections.abc import Callable, Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from typing import Literal

import pytest
from agreement.run import engine_digest
from attrs import define, field, frozen
from broken_folds.suite import first_failure
from broken_folds.swapping import NothingChanges, fold_module, source_of, swapped

from .mutants import Mutant, mutants_of

__all__ = ["Tried", "main", "outcome", "told"]

HERE = Path(__file__).parent
RESULT, JUDGEMENTS, UNITS = HERE / "RESULT.txt", HERE / "judgements.toml", HERE.parent / "fold"
# left out are `rulebook` (texts), `changes` (values without code), and what only checks a state
MODULES = [
    *("calls", "chains", "draft", "ejections", "goals", "offsetting", "passing", "release", "renumbering", "rulings"),
    *("settlement", "slots", "state", "step", "whistle"),
]
FAST, ALL = 40, 500
MEMORY = 2 << 30

Outcome = Literal["noticed", "timed out", "survived", "no change"]


@frozen
class Stage:
    """Whether something fails, and the seconds of processor time after which a mutant counts as noticed."""

    fails: Callable[[], bool]
    limit: float


@frozen
class Tried:
    """A mutant, what became of it, and the stage that noticed it (1 to 3)."""

    module: str
    mutant: Mutant
    outcome: Outcome
    stage: int

    @property
    def name(self) -> str:
        """What the mutant is called in `judgements.toml`."""
        return f"{self.module}.{self.mutant.name}"


def noticed_by_games(games: int) -> bool:
    """Whether a case or a random game fails."""
    return first_failure(games) is not None


def noticed_by_units() -> bool:
    """Whether a test of the fold's own folder fails."""
    with open(os.devnull, "w", encoding="utf-8") as nowhere, redirect_stdout(nowhere), redirect_stderr(nowhere):
        code = pytest.main(["-x", "-q", "-p", "no:cacheprovider", str(UNITS)])
    return code not in {pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED}


STAGES = (
    Stage(lambda: noticed_by_games(FAST), 5),
    Stage(noticed_by_units, 15),
    Stage(lambda: noticed_by_games(ALL), 25),
)


def outcome(module: str, mutant: Mutant, stage: Stage) -> Outcome:
    """What becomes of a mutant in a process of its own."""
    child = os.fork()
    if child == 0:
        os._exit(_in_child(module, mutant, stage))
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return "timed out" if os.WTERMSIG(status) == signal.SIGPROF else "noticed"
    return CODES.get(os.WEXITSTATUS(status), "noticed")


CODES: dict[int, Outcome] = {0: "survived", 1: "noticed", 2: "no change"}


def _in_child(module: str, mutant: Mutant, stage: Stage) -> int:
    import resource

    signal.setitimer(signal.ITIMER_PROF, stage.limit)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    found = fold_module(module)
    try:
        with swapped(found, compile(mutant.tree, found.__file__ or "", "exec", dont_inherit=True)):
            return 1 if stage.fails() else 0
    except NothingChanges:
        return 2
    except BaseException:  # a mutant that does not even load is noticed
        return 1


PLACES: list[tuple[str, Mutant]] = []
"""What is to be tried, the module with each; filled before the workers are forked, which take it from here."""


def tried_at(number: int) -> tuple[Outcome, int]:
    """What becomes of the mutant with this number, and the stage that noticed it."""
    one = tried(*PLACES[number])
    return one.outcome, one.stage


def tried(module: str, mutant: Mutant) -> Tried:
    """The mutant after as many stages as it survives."""
    result: Outcome = "survived"
    for number, stage in enumerate(STAGES, start=1):
        result = outcome(module, mutant, stage)
        if result != "survived":
            return Tried(module, mutant, result, number)
    return Tried(module, mutant, result, 0)


@define
class Count:
    """How many mutants of a module came out how."""

    made: int = 0
    by_stage: list[int] = field(factory=lambda: [0] * (len(STAGES) + 1))
    late: int = 0


def told(all_tried: Sequence[Tried], judgements: dict[str, str], head: Sequence[str]) -> str:
    """The result as it is written down."""
    return "\n".join([*head, "", *_table(all_tried), "", *_survivors(all_tried, judgements)]) + "\n"


def _table(all_tried: Sequence[Tried]) -> Iterator[str]:
    counts: dict[str, Count] = {}
    for one in (one for one in all_tried if one.outcome != "no change"):
        for name in (one.module, "all"):
            count = counts.setdefault(name, Count())
            count.made += 1
            count.by_stage[one.stage] += 1
            count.late += one.outcome == "timed out"
    yield f"{'module':<12} {'mutants':>8} {'fast':>6} {'units':>6} {'games':>6} {'survive':>8} {'score':>7}"
    for name in sorted(counts, key=lambda name: (name == "all", name)):
        count = counts[name]
        survived, *by_stage = count.by_stage
        noticed = "".join(f"{number:>7}" for number in by_stage)
        yield f"{name:<12} {count.made:>8}{noticed} {survived:>8} {1 - survived / count.made:>7.1%}"
    yield f"of those noticed, timed out: {counts['all'].late if counts else 0}"


def _survivors(all_tried: Sequence[Tried], judgements: dict[str, str]) -> Iterator[str]:
    survivors = [one for one in all_tried if one.outcome == "survived"]
    yield f"survivors: {len(survivors)}, not judged: {sum(one.name not in judgements for one in survivors)}"
    for one in survivors:
        yield f"{one.module}.py:{one.mutant.line} {one.mutant.name}"
        yield f"    {judgements.get(one.name, 'NOT JUDGED')}"


def survivors_named_in(result: str) -> frozenset[str]:
    """The names of the survivors that a result lists."""
    lines = re.finditer(r"^(\w+)\.py:\d+ (.+)$", result, re.MULTILINE)
    return frozenset(f"{line[1]}.{line[2]}" for line in lines)


def read_judgements() -> dict[str, str]:
    """Why each survivor that was looked at is harmless, by its name; one reason may hold for several."""
    groups = tomllib.loads(JUDGEMENTS.read_text(encoding="utf-8"))["harmless"] if JUDGEMENTS.exists() else []
    return {name: group["because"] for group in groups for name in group["mutants"]}


def main(arguments: Sequence[str] | None = None) -> int:
    """Try the mutants, print and write the result; 1 if a survivor is not judged."""
    parser = argparse.ArgumentParser(prog="python -m mutation.run", description="Mutation testing of the fold")
    parser.add_argument("--modules", nargs="*", default=MODULES, help="modules of the fold")
    parser.add_argument("--every", type=int, default=1, help="try only every n-th mutant")
    parser.add_argument("--survivors-of", type=Path, help="try only those that survived in this result")
    parser.add_argument("--workers", type=int, default=os.cpu_count(), help="how many are tried at a time")
    parser.add_argument("--result", type=Path, default=RESULT, help="where the result is written")
    options = parser.parse_args(arguments)
    os.nice(5)
    began = time.monotonic()
    if noticed_by_games(ALL) or noticed_by_units():
        print("the fold as it is does not pass the suite", file=sys.stderr)
        return 2
    PLACES[:] = [
        (module, mutant)
        for module in options.modules
        for mutant in islice(mutants_of(source_of(fold_module(module))), None, None, options.every)
    ]
    if options.survivors_of is not None:
        again = survivors_named_in(options.survivors_of.read_text(encoding="utf-8"))
        PLACES[:] = [(module, mutant) for module, mutant in PLACES if f"{module}.{mutant.name}" in again]
    gc.freeze()  # so that the processes share what is there already
    with multiprocessing.get_context("fork").Pool(options.workers) as pool:
        all_tried = [
            _with_progress(Tried(*place, *came_out))
            for place, came_out in zip(PLACES, pool.imap(tried_at, range(len(PLACES))), strict=True)
        ]
    judgements = read_judgements()
    head = [
        "Mutation testing of timeline/fold",
        "",
        f"date        {datetime.now(UTC).date().isoformat()}",
        f"Python      {sys.version.split()[0]}",
        f"fold        {engine_digest()}",
        f"mutants     {_which(options)}",
        f"took        {(time.monotonic() - began) / 60:.0f} minutes",
        f"stages      fast: cases and {FAST} random games; units: tests/fold; games: {ALL} random games",
    ]
    text = told(all_tried, judgements, head)
    options.result.write_text(text, encoding="utf-8")
    print(text, end="")
    return int(any(one.outcome == "survived" and one.name not in judgements for one in all_tried))


def _which(options: argparse.Namespace) -> str:
    if options.survivors_of is not None:
        return f"those that survived in {options.survivors_of.name}"
    some = f"every {options.every}. of " if options.every > 1 else "all of "
    return some + ", ".join(options.modules)


def _with_progress(one: Tried) -> Tried:
    """Show a sign for each mutant, and the whole name of a survivor."""
    signs = {"noticed": ".", "timed out": "t", "survived": f"\nsurvives: {one.name}\n", "no change": "="}
    print(signs[one.outcome], end="", file=sys.stderr, flush=True)
    return one


if __name__ == "__main__":
    sys.exit(main())
