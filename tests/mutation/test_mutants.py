"""What the mutation run changes, and that it can tell a change that is noticed from one that is not."""

from __future__ import annotations

import ast
import os

import pytest
from broken_folds.suite import first_failure
from broken_folds.swapping import fold_module, source_of

from .mutants import Mutant, mutants_of
from .run import MODULES, Stage, Tried, outcome, survivors_named_in, told

SOURCE = '''
"""A module."""
__all__ = ["PLACES"]
PLACES = 2

class Box:
    """A box."""

    size: int = 5

    def room(self, sitters: list[str]) -> bool:
        """Whether somebody fits in."""
        self.asked += 1
        if not sitters or self.closed:
            return True
        left = self.size - len(sitters)
        return left > 0
'''

CHANGES = [
    "PLACES: 2 -> 3",
    "Box.room: self.asked += 1 -> pass",
    "Box.room: 1 -> 2",
    "Box.room: not sitters or self.closed -> not sitters and self.closed",
    "Box.room: not sitters -> sitters",
    "Box.room: True -> False",
    "Box.room: left = self.size - len(sitters) -> pass",
    "Box.room: self.size - len(sitters) -> self.size + len(sitters)",
    "Box.room: return left > 0 -> return None",
    "Box.room: left > 0 -> left >= 0",
    "Box.room: left > 0 -> left <= 0",
    "Box.room: 0 -> 1",
]


def test_changes_of_a_small_module() -> None:
    """Comparisons, conditions, constants, arithmetic, returned values and whole statements; nothing else."""
    assert [mutant.name for mutant in mutants_of(SOURCE)] == CHANGES


def test_each_mutant_differs_in_one_place_and_compiles() -> None:
    """The rest of the module is as it was."""
    original = ast.unparse(ast.parse(SOURCE)).splitlines()
    for mutant in mutants_of(SOURCE):
        compile(mutant.tree, "box.py", "exec")
        changed = ast.unparse(mutant.tree).splitlines()
        assert len(changed) == len(original)
        assert sum(one != other for one, other in zip(original, changed, strict=True)) == 1


def test_every_module_of_the_fold_is_changed() -> None:
    """None is left out but texts, plain values and checks, and each has a good number of mutants."""
    folder = fold_module("step").__file__
    assert folder is not None
    files = {name.removesuffix(".py") for name in os.listdir(os.path.dirname(folder)) if name.endswith(".py")}
    assert set(MODULES) <= files
    assert files - set(MODULES) <= {"__init__", "changes", "invariants", "rulebook"}
    assert all(len(list(mutants_of(source_of(fold_module(name))))) >= 25 for name in MODULES)


def named(module: str, name: str) -> Mutant:
    """The mutant of a module of the fold with this name."""
    return next(mutant for mutant in mutants_of(source_of(fold_module(module))) if mutant.name == name)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the mutation run forks")
def test_outcomes() -> None:
    """Three places on the clock are noticed, by a stage that looks; one that hangs is stopped."""
    mutant = named("slots", "SLOTS: 2 -> 3")
    assert outcome("slots", mutant, Stage(lambda: first_failure(5) is not None, 30)) == "noticed"
    assert outcome("slots", mutant, Stage(lambda: False, 30)) == "survived"
    assert outcome("slots", mutant, Stage(_hang, 0.2)) == "timed out"
    assert first_failure(5) is None, "the mutant stayed in the fold"


def _hang() -> bool:
    while True:
        pass


def test_result_names_survivors_and_why_they_are_harmless() -> None:
    """A survivor without a judgement is said to have none."""
    first, second, third = list(mutants_of(SOURCE))[:3]
    rows = [Tried("box", first, "noticed", 1), Tried("box", second, "survived", 0), Tried("box", third, "survived", 0)]
    text = told(rows, {"box.Box.room: 1 -> 2": "nobody reads it"}, ["head"])
    assert text.splitlines()[3].split() == ["box", "3", "1", "0", "0", "2", "33.3%"]
    assert "survivors: 2, not judged: 1\n" in text
    assert text.endswith(
        "box.py:13 Box.room: self.asked += 1 -> pass\n    NOT JUDGED\nbox.py:13 Box.room: 1 -> 2\n    nobody reads it\n"
    )
    assert survivors_named_in(text) == {"box.Box.room: self.asked += 1 -> pass", "box.Box.room: 1 -> 2"}
