"""Each check fires on a game with that one fault, in these words, and is silent on a game like it without the fault."""

from __future__ import annotations

from collections import Counter

import pytest
from attrs import evolve
from findings.planted import Fault, completed, faults, game_of, quoted

from rinkfold.cli.entries import Entry, parse_entry
from rinkfold.cli.standing import context_of
from rinkfold.timeline import Game
from rinkfold.timeline.views.findings import CHECKS, KINDS, Finding, findings

FAULTS = faults()
WITH_A_TWIN = [fault for fault in FAULTS if fault.right is not None]


def loud(game: Game) -> list[Finding]:
    return [finding for finding in findings(game) if finding.severity != "note"]


def about(game: Game, fault: Fault) -> list[Finding]:
    return [finding for finding in findings(game) if (finding.code, finding.seq) == (fault.code, fault.seq)]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.id)
def test_the_fault_is_found_and_told(fault: Fault) -> None:
    """The finding is about the event, says what was found and expected, and what to do."""
    (found,) = about(game_of(fault.opening, fault.entries), fault)
    assert found.message == fault.message
    assert found.fix == fault.fix


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.id)
def test_nothing_else_is_wrong_with_it(fault: Fault) -> None:
    """One fault is one finding, but for notes and what comes with it."""
    others = [one.code for one in loud(game_of(fault.opening, fault.entries)) if one.code != fault.code]
    assert set(others) == fault.also


@pytest.mark.parametrize("fault", WITH_A_TWIN, ids=lambda fault: fault.id)
def test_a_game_without_the_fault_is_left_alone(fault: Fault) -> None:
    """A game that differs by no more than it must has neither this finding nor another."""
    assert fault.right is not None
    game = game_of(fault.opening, fault.right)
    assert loud(game) == []
    assert fault.code not in [finding.code for finding in findings(game)]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.id)
def test_every_entry_of_a_remedy_can_be_typed(fault: Fault) -> None:
    """What stands in backquotes is an entry that the program understands, also in the notes beside."""
    game = game_of(fault.opening, fault.entries)
    for finding in findings(game):
        for entry in map(completed, quoted(finding.fix)):
            assert isinstance(parse_entry(entry, context_of(game)), Entry), entry


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.id)
def test_a_remedy_is_one(fault: Fault) -> None:
    """Each entry that leaves nothing open takes the finding away, and brings no other error or warning.

    Where it is one of several, each leaves a finding that says the next.
    """
    game = game_of(fault.opening, fault.entries)
    (found,) = about(game, fault)
    entries = quoted(found.fix)
    alternatives = [[entry] for entry in entries if "…" not in entry]
    if "reopen the record" in found.fix:
        place = next(number for number, entry in enumerate(entries) if entry.endswith("reopened"))
        alternatives = [entries[place:]]
    for chosen in alternatives:
        done = (*fault.entries, *map(completed, chosen))
        while "and so for each" in found.fix and (rest := about(game_of(fault.opening, done), fault)):
            done = (*done, quoted(rest[0].fix)[-1])
        mended = game_of(fault.opening, done)
        assert about(mended, fault) == [], chosen
        assert {one.code for one in loud(mended)} <= fault.also, chosen


def test_every_kind_of_finding_is_planted() -> None:
    """No check goes without a game on which it fires."""
    assert {fault.code for fault in FAULTS} == {kind.code for kind in KINDS}


def test_a_code_is_one_kind() -> None:
    """Programs rely on codes: each is used once."""
    assert [code for code, count in Counter(kind.code for kind in KINDS).items() if count > 1] == []


def test_each_check_says_what_it_checks() -> None:
    """A check is named and told in the same manner, and stands in the list once."""
    assert len(set(CHECKS)) == len(CHECKS)
    for check in CHECKS:
        assert check.__name__.startswith("check_")
        assert (check.__doc__ or "").startswith(("Check that ", "Check whether ")), check


def test_errors_come_first_and_then_in_game_order() -> None:
    """What cannot be right stands above what looks wrong, and that above notes; each in the order of the game."""
    entries = (
        "1 15:00 home goalie 31", "1 15:00 away goalie 30", "13:10 home penalty 12 2 tripping", "12:40 home goal 12",
        "12:30 home goal 77", "12:00 home timeout", "11:50 home timeout", "late 12:50 away shot 77",
    )  # fmt: skip
    found = findings(game_of({}, entries))
    assert [(one.severity, one.code, one.seq) for one in found] == [
        ("error", "not_on_roster", 9),
        ("error", "in_the_box", 5),
        ("error", "not_on_roster", 6),
        ("warning", "too_many_timeouts", 8),
        ("note", "written_late", 9),
        ("note", "whistles_not_kept", None),
        ("note", "still_open", None),
    ]


def test_counting_up_makes_no_difference() -> None:
    """On a board that shows what is over, the same game has the same findings."""
    up = {"settings": {"game.reading": "elapsed"}}
    entries = (
        "1 0:00 home goalie 31",
        "1 0:00 away goalie 30",
        "1:50 home penalty 12 2 tripping",
        "3:40 home door 12 open",
    )
    assert [one.code for one in loud(game_of(up, entries))] == ["door_early"]
    assert "with 10 s to serve" in loud(game_of(up, entries))[0].message


def test_findings_are_values() -> None:
    """Two runs over one game give equal findings, and a finding can be changed only into another one."""
    game = game_of({}, ("1 12:40 home goal 77",))
    assert findings(game) == findings(game)
    first = findings(game)[0]
    assert evolve(first, seq=4) != first
