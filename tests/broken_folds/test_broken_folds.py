"""Deliberate faults of the fold: the suite notices every one, so it would notice such a mistake of ours."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from .faults import FAULTS, Fault, broken
from .suite import FAMILIES, checks, first_failures
from .swapping import NothingChanges, fold_module, source_of, swapped

GAMES = 60


def test_the_fold_as_it_is_passes() -> None:
    """Otherwise a fault would be noticed for nothing."""
    assert first_failures(GAMES) == {}
    assert [len(list(checks(family, GAMES))) > 50 for family in FAMILIES] == [True, True, True]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.says)
def test_fault_is_noticed(fault: Fault, record_property: Callable[[str, object], None]) -> None:
    """At least one published ruling, written case or random game fails, by a wrong answer and not by an exception."""
    with broken(fault):
        noticed = first_failures(GAMES)
    record_property("noticed by", ", ".join(failure.name for failure in noticed.values()))
    wrong_answers = [failure for failure in noticed.values() if not failure.raised]
    assert wrong_answers, f"nothing notices that {fault.says}"
    assert first_failures(0) == {}, "the fault stayed in the fold"


def test_a_fault_that_no_longer_fits_is_told() -> None:
    """A line that is not in the fold any more is no fault that was noticed."""
    gone = Fault("nothing is wrong", "slots", "no such line", "another")
    with pytest.raises(ValueError, match=r"slots\.py has 0 places that read 'no such line', expected 1"), broken(gone):
        pass


def test_a_change_of_nothing_is_told() -> None:
    """Code that is the same is no fault."""
    module = fold_module("slots")
    same = compile(source_of(module) + "# a remark\n", module.__file__ or "", "exec", dont_inherit=True)
    with pytest.raises(NothingChanges), swapped(module, same):
        pass
