"""What counts after voids and amendments."""

from __future__ import annotations

from rinkfold.timeline.events import Amend, Event, Goal, PenaltyAssessed
from rinkfold.timeline.script.corrections import Corrections, effective
from script.sheet import Sheet


def counting(sheet: Sheet, seq: int) -> Event | None:
    """The event `seq` as it counts, which is the same settled at once and correction by correction."""
    grown = Corrections()
    for one in sheet.events:
        grown.append(one)
    assert grown.standing(seq) == Corrections(sheet.events).standing(seq)
    return effective(sheet.events, seq)


def test_a_voided_event_does_not_count() -> None:
    """The target of a void never counted."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    sheet.void(goal)
    assert counting(sheet, goal) is None
    assert sheet.order == []


def test_a_void_can_be_voided() -> None:
    """A void that is voided has no effect, and a chain of them is settled from its end."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    last = goal
    for counts in (False, True, False, True):
        last = sheet.void(last)
        assert (counting(sheet, goal) is not None) is counts
        assert sheet.order == ([goal] if counts else [])


def test_a_long_chain_of_voids() -> None:
    """A chain of thousands of voids is no deeper than one of two."""
    sheet = Sheet()
    goal = last = sheet.write("goal", "7:42")
    for _ in range(3001):
        last = sheet.void(last)
    assert effective(sheet.events, goal) is None


def test_two_voids_of_one_event() -> None:
    """An event that was voided twice counts when both voids are voided."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    first, second = sheet.void(goal), sheet.void(goal)
    sheet.void(first)
    assert counting(sheet, goal) is None
    sheet.void(second)
    assert counting(sheet, goal) == sheet.events[goal - 1]


def test_amendments_apply_in_the_order_written() -> None:
    """Of two amendments of one field the later one counts; other fields keep both."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    sheet.amend(goal, scorer="9", assists=["4"])
    sheet.amend(goal, scorer="19")
    found = counting(sheet, goal)
    assert isinstance(found, Goal)
    assert (found.scorer, found.assists, found.seq, found.clock) == ("19", ("4",), goal, "7:42")


def test_null_clears_an_optional_field() -> None:
    """A null in the changes clears an optional field."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42", scorer="9", note="deflected")
    sheet.amend(goal, scorer=None, note=None)
    assert counting(sheet, goal) == Goal(seq=goal, period=1, clock="7:42", team="home")


def test_an_amendment_that_is_voided_does_not_count() -> None:
    """A voided amendment leaves what the others make of the event."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    first = sheet.amend(goal, scorer="9", team="away")
    sheet.amend(goal, scorer="19")
    void = sheet.void(first)
    assert counting(sheet, goal) == Goal(seq=goal, period=1, clock="7:42", team="home", scorer="19")
    sheet.void(void)
    assert counting(sheet, goal) == Goal(seq=goal, period=1, clock="7:42", team="away", scorer="19")


def test_a_void_can_be_amended() -> None:
    """A void with another target voids that one and no longer the first."""
    sheet = Sheet()
    goal, penalty = sheet.write("goal", "7:42"), sheet.write("penalty_assessed", "7:42")
    void = sheet.void(goal)
    assert sheet.order == [penalty]
    sheet.amend(void, target=penalty)
    assert sheet.order == [goal]
    assert counting(sheet, penalty) is None


def test_an_amendment_can_be_amended() -> None:
    """An amendment with other changes, or another target, counts with these."""
    sheet = Sheet()
    first, second = sheet.write("goal", "7:42"), sheet.write("goal", "7:00")
    amendment = sheet.amend(first, scorer="9")
    sheet.amend(amendment, changes={"scorer": "19"})
    assert counting(sheet, first) == Goal(seq=first, period=1, clock="7:42", team="home", scorer="19")
    sheet.amend(amendment, target=second)
    assert counting(sheet, first) == sheet.events[first - 1]
    assert counting(sheet, second) == Goal(seq=second, period=1, clock="7:00", team="home", scorer="19")


def test_two_events_change_places_on_the_lines() -> None:
    """An amendment of a reading that gets another target puts the one event back and moves the other."""
    sheet = Sheet()
    first, second = sheet.write("goal", "9:00"), sheet.write("shot", "8:00")
    amendment = sheet.amend(first, clock="7:00")
    assert sheet.order == [second, first]
    sheet.amend(amendment, target=second)
    assert sheet.order == [first, second]
    assert sheet.find(second).played == 4800


def test_an_amendment_of_a_voided_event_waits() -> None:
    """What is amended while it is voided counts as amended when the void is voided."""
    sheet = Sheet()
    penalty = sheet.write("penalty_assessed", "7:42")
    void = sheet.void(penalty)
    sheet.amend(penalty, player="12", clock="7:30")
    assert counting(sheet, penalty) is None
    sheet.void(void)
    found = counting(sheet, penalty)
    assert isinstance(found, PenaltyAssessed)
    assert (found.player, sheet.find(penalty).played) == ("12", 4500)


def test_the_opening_can_be_amended() -> None:
    """An amendment of line 1 counts there and changes nothing in the script."""
    sheet = Sheet()
    shot = sheet.write("shot", "7:42")
    sheet.events[0] = Goal(seq=1, period=1, clock="9:00", team="home")  # any event that can be amended without a roster
    sheet.amend(1, scorer="9")
    assert counting(sheet, 1) == Goal(seq=1, period=1, clock="9:00", team="home", scorer="9")
    assert sheet.order == [1, shot]


def test_changes_that_do_not_fit_have_no_effect() -> None:
    """The door refuses an amendment that does not fit; what got by it some other way leaves the event as it was."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    sheet.events.append(Amend(seq=3, target=goal, changes={"scorer": 9}, reason="a number without quotation marks"))
    assert counting(sheet, goal) == sheet.events[goal - 1]


def test_what_points_at_a_voided_penalty_stays_and_means_nothing() -> None:
    """`ends` and `penalty` that point at a voided event stay as written: there is no such penalty to be ended."""
    sheet = Sheet()
    penalty = sheet.write("penalty_assessed", "9:00")
    goal = sheet.write("goal", "8:00", ends=penalty)
    door = sheet.write("penalty_ended", "8:00", penalty=penalty, cause="ruling")
    sheet.void(penalty)
    assert [one.event for one in sheet.placed] == [sheet.events[goal - 1], sheet.events[door - 1]]
