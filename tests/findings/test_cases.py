"""The written cases that ask for a finding, and those that ask for none."""

from __future__ import annotations

import pytest
from cases.load import Case, own_cases

from rinkfold import rulesets
from rinkfold.timeline import GameOpened, Log, event_from_dict, replay
from rinkfold.timeline.views.findings import Finding, findings

CASES = own_cases()
ASKING = [case for case in CASES if any("finding" in row for row in case.expect)]
BESIDE_THE_POINT = {
    "period_missing": "cases begin where something happens, in the third period or in overtime",
    "no_game_misconduct": "cases of ejection record the penalty alone",
    "bench_minor_on_player": "one case names a player on purpose: the time is a chain of its own all the same",
    "on_clock_cannot_be": "cases of the captain's choice ask for what cannot be had on purpose",
}


def found_in(case: Case) -> list[Finding]:
    events = tuple(event_from_dict(event) for event in case.events)
    header = events[0]
    assert isinstance(header, GameOpened)
    log = Log(name=case.id, header=header, events=events, chained=False, head="")
    return [finding for finding in findings(replay(log, rulesets.of(log))) if finding.severity != "note"]


@pytest.mark.parametrize("case", ASKING, ids=lambda case: case.id)
def test_what_the_case_asks_for_is_found(case: Case) -> None:
    """`{finding = 9}`: there is a finding that names event 9."""
    assert {row["finding"] for row in case.expect if "finding" in row} <= {finding.seq for finding in found_in(case)}


def test_some_cases_ask() -> None:
    """The sentences of the model that say "finding" have cases."""
    assert len(ASKING) >= 5


@pytest.mark.parametrize("case", [case for case in CASES if case not in ASKING], ids=lambda case: case.id)
def test_other_cases_are_left_alone(case: Case) -> None:
    """A case about the rules is legal, but for what it leaves out because it is short, or asks for on purpose."""
    listed_goalkeepers = {"not_on_roster"} if "keepers" in str(case) else set()
    allowed = BESIDE_THE_POINT.keys() | listed_goalkeepers
    assert [finding for finding in found_in(case) if finding.code not in allowed] == []
