"""The order that counts, sentence by sentence."""

from __future__ import annotations

import pytest
from attrs import evolve

from rinkfold.timeline.events import PenaltyAssessed
from rinkfold.timeline.rules import GameRules, Overtime, Ruleset
from rinkfold.timeline.script import Placed
from script.sheet import Sheet

STOPS = ["stoppage", "penalty_assessed", "timeout", "penalty_shot", "period_end"]
OTHERS = [*STOPS, "goalie_change", "penalty_ended", "observed_strength", "observed_player", "remark", "roster_change"]


# -- by period and played time


def test_the_game_is_in_the_order_of_the_clock() -> None:
    """The log is in the order of writing; the script is ordered by period and played time."""
    sheet = Sheet()
    third = sheet.write("shot", "12:00", period=2)
    second = sheet.write("shot", "7:42")
    first = sheet.write("shot", "9:15")
    assert sheet.order == [first, second, third]


def test_readings_become_played_tenths_of_their_period() -> None:
    """A reading of 7:42 in a period of 15:00 that is counted down is 7:18 played."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42", period=2)
    assert sheet.find(goal) == Placed(sheet.events[-1], 2, 4380)


def test_a_board_that_counts_up() -> None:
    """Where the board shows what is over, a greater reading is later."""
    sheet = Sheet(Ruleset(game=GameRules(reading="elapsed")))
    later = sheet.write("shot", "9:15")
    earlier = sheet.write("shot", "7:42")
    assert sheet.order == [earlier, later]
    assert sheet.find(earlier).played == 4620


def test_an_overtime_has_its_own_length() -> None:
    """4:59.5 in an overtime of 5:00 is half a second played."""
    sheet = Sheet(Ruleset(overtime=Overtime(length=3000)))
    shot = sheet.write("shot", "4:59.5", period=4)
    assert sheet.find(shot).played == 5


def test_two_ways_to_write_a_reading_are_one_reading() -> None:
    """0:45 and 0:45.0 are one reading: what stands at them keeps the order written."""
    sheet = Sheet()
    stoppage, penalty = sheet.write("stoppage", "0:45.0"), sheet.write("penalty_assessed", "0:45")
    faceoff, late = sheet.write("faceoff", "0:45.0"), sheet.write("shot", "0:45")
    assert sheet.order == [stoppage, penalty, faceoff, late]


def test_what_is_not_in_the_script() -> None:
    """The opening of the record, voids, amendments and clock corrections are no events of the game; the closing is."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    shot = sheet.write("shot", "7:42")
    sheet.void(shot)
    sheet.amend(stoppage, reason="offside")
    sheet.write("clock_set", "7:42", to="7:50")
    closing = sheet.write("game_closed")
    assert sheet.order == [stoppage, closing]


# -- at one reading


def test_events_at_one_reading_keep_the_order_written() -> None:
    """Events at one reading keep the order in which they were written."""
    sheet = Sheet()
    written = [sheet.write(kind, "7:42") for kind in (*OTHERS, "faceoff", *OTHERS, "faceoff")]
    assert sheet.order == written


@pytest.mark.parametrize("stop", [*STOPS, "goal"])
def test_a_shot_before_the_faceoff_counts_before_the_stoppage(stop: str) -> None:
    """A shot written between a stoppage, or what implies one, and the faceoff of the same reading counts before it."""
    sheet = Sheet()
    whistle = sheet.write(stop, "7:42")
    shot = sheet.write("shot", "7:42")
    faceoff = sheet.write("faceoff", "7:42")
    assert sheet.order == [shot, whistle, faceoff]


@pytest.mark.parametrize("stop", STOPS)
def test_a_goal_before_the_faceoff_counts_before_the_stoppage(stop: str) -> None:
    """A goal written between a stoppage and the faceoff of the same reading counts before the stoppage."""
    sheet = Sheet()
    whistle = sheet.write(stop, "7:42")
    goal = sheet.write("goal", "7:42")
    faceoff = sheet.write("faceoff", "7:42")
    assert sheet.order == [goal, whistle, faceoff]


def test_two_goals_at_one_reading() -> None:
    """A second goal stays behind the first, before the other stoppages; a shot goes before all of them."""
    sheet = Sheet()
    penalty = sheet.write("penalty_assessed", "7:42")
    first, second = sheet.write("goal", "7:42"), sheet.write("goal", "7:42")
    shot = sheet.write("shot", "7:42")
    third = sheet.write("goal", "7:42")
    assert sheet.order == [shot, first, second, third, penalty]


def test_only_the_stoppage_that_play_has_not_resumed_from_is_meant() -> None:
    """A shot or goal behind the faceoff does not go before the stoppage before it."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    shot, goal = sheet.write("shot", "7:42"), sheet.write("goal", "7:42")
    again = sheet.write("penalty_assessed", "7:42")
    last = sheet.write("shot", "7:42")
    assert sheet.order == [stoppage, faceoff, shot, last, goal, again]


def test_what_stops_nothing_is_no_stoppage() -> None:
    """A shot stays behind a change of goalkeeper or a remark at its reading."""
    sheet = Sheet()
    written = [sheet.write(kind, "7:42") for kind in ("goalie_change", "remark", "observed_strength", "shot", "goal")]
    assert sheet.order == written


# -- late events


def test_late_is_what_comes_after_something_later_in_the_game() -> None:
    """A late shot goes before the first stoppage at its reading, not where one on time would go."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    on_time = sheet.write("shot", "7:42")
    later = sheet.write("shot", "7:30")
    late = sheet.write("shot", "7:42")
    assert sheet.order == [late, stoppage, faceoff, on_time, later]


def test_a_later_period_makes_late() -> None:
    """An event is late too if what was written before it belongs to a later period."""
    sheet = Sheet()
    faceoff = sheet.write("faceoff", "7:42")
    later = sheet.write("faceoff", "15:00", period=2)
    late = sheet.write("penalty_assessed", "7:42")
    assert sheet.order == [late, faceoff, later]


@pytest.mark.parametrize("kind", ["shot", "goal"])
def test_a_late_shot_or_goal_goes_before_the_first_stoppage(kind: str) -> None:
    """A late shot or goal takes its place before the first stoppage there, of two as well."""
    sheet = Sheet()
    before = sheet.write("faceoff", "8:00")
    there = [sheet.write(each, "7:42") for each in ("remark", "stoppage", "faceoff", "stoppage", "faceoff")]
    after = sheet.write("shot", "7:30")
    late = sheet.write(kind, "7:42")
    assert sheet.order == [before, there[0], late, *there[1:], after]


def test_a_late_goal_stays_behind_a_goal_at_its_reading() -> None:
    """Two goals at one reading keep the order written when the second is late, too."""
    sheet = Sheet()
    goal, penalty, faceoff = (sheet.write(each, "7:42") for each in ("goal", "penalty_assessed", "faceoff"))
    after = sheet.write("shot", "7:30")
    late = sheet.write("goal", "7:42")
    assert sheet.order == [goal, late, penalty, faceoff, after]


@pytest.mark.parametrize("kind", ["shot", "goal"])
def test_a_late_shot_or_goal_goes_before_a_faceoff_that_implies_the_stoppage(kind: str) -> None:
    """A faceoff with no stoppage written implies one at its reading: a late shot or goal goes before it."""
    sheet = Sheet()
    faceoff, after = sheet.write("faceoff", "7:42"), sheet.write("shot", "7:30")
    late = sheet.write(kind, "7:42")
    assert sheet.order == [late, faceoff, after]


def test_the_faceoff_that_opens_a_period_implies_no_stoppage() -> None:
    """A late shot at the opening reading goes behind the faceoff: there was no play before it."""
    sheet = Sheet()
    faceoff, after = sheet.write("faceoff", "15:00"), sheet.write("shot", "14:30")
    late = sheet.write("shot", "15:00")
    assert sheet.order == [faceoff, late, after]


def test_a_late_faceoff_goes_behind_everything_there() -> None:
    """A late faceoff takes its place after everything at its reading."""
    sheet = Sheet()
    there = [sheet.write(each, "7:42") for each in ("stoppage", "faceoff", "goal", "penalty_assessed")]
    after = sheet.write("shot", "7:30")
    late = sheet.write("faceoff", "7:42")
    assert sheet.order == [*there, late, after]


@pytest.mark.parametrize("kind", OTHERS)
def test_anything_else_late_goes_before_the_first_faceoff(kind: str) -> None:
    """Anything else that is late takes its place before the first faceoff at its reading."""
    sheet = Sheet()
    there = [sheet.write(each, "7:42") for each in ("goal", "timeout", "faceoff", "stoppage", "faceoff")]
    after = sheet.write("shot", "7:30")
    late = sheet.write(kind, "7:42")
    assert sheet.order == [*there[:2], late, *there[2:], after]


def test_late_where_nothing_stands() -> None:
    """A late event at a reading of its own just goes there."""
    sheet = Sheet()
    before, after = sheet.write("shot", "8:00"), sheet.write("shot", "7:00")
    late = sheet.write("penalty_assessed", "7:42")
    assert sheet.order == [before, late, after]


def test_what_was_voided_makes_nothing_late() -> None:
    """A reading that was mistyped and voided never counted: what was written since is on time."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    faceoff = sheet.write("faceoff", "7:42")
    mistyped = sheet.write("shot", "0:42")
    penalty = sheet.write("penalty_assessed", "7:42")
    assert sheet.order == [stoppage, penalty, faceoff, mistyped]
    sheet.void(mistyped)
    assert sheet.order == [stoppage, faceoff, penalty]


# -- after


def test_after_wins_over_the_stoppage() -> None:
    """A goal that was put after the stoppage stays there."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    goal = sheet.write("goal", "7:42", after=stoppage)
    faceoff = sheet.write("faceoff", "7:42", after=goal)
    assert sheet.order == [stoppage, goal, faceoff]


def test_after_wins_over_lateness() -> None:
    """A late event with `after` takes its place directly after that event."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    shot, after = sheet.write("shot", "7:42"), sheet.write("shot", "7:30")
    late = sheet.write("penalty_assessed", "7:42", after=faceoff)
    assert sheet.order == [stoppage, faceoff, late, shot, after]


def test_several_after_one() -> None:
    """Several events after the same one stand behind it in the order written, each with its own."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    first = sheet.write("remark", "7:42", after=stoppage)
    second = sheet.write("remark", "7:42", after=stoppage)
    between = sheet.write("remark", "7:42", after=first)
    assert sheet.order == [stoppage, first, between, second, faceoff]


def test_nothing_comes_between_an_event_and_what_was_put_after_it() -> None:
    """A shot that goes before a stoppage which was put after another event goes before that one."""
    sheet = Sheet()
    remark = sheet.write("remark", "7:42")
    stoppage = sheet.write("stoppage", "7:42", after=remark)
    shot = sheet.write("shot", "7:42")
    assert sheet.order == [shot, remark, stoppage]


def test_after_with_a_reading_of_its_own() -> None:
    """Where nothing lies between, `after` and a later reading agree: the event keeps its own instant."""
    sheet = Sheet()
    stoppage, later = sheet.write("stoppage", "7:42"), sheet.write("shot", "7:00")
    goal = sheet.write("goal", "7:30", after=stoppage)
    at_its_reading = sheet.write("penalty_assessed", "7:00", after=goal)
    assert sheet.order == [stoppage, goal, at_its_reading, later]
    assert [one.played for one in sheet.placed] == [4380, 4500, 4800, 4800]


@pytest.mark.parametrize("clock", ["6:00", "9:00"])
def test_after_wins_over_the_reading(clock: str) -> None:
    """Where `after` and the reading contradict each other the event happened at the instant of the other one."""
    sheet = Sheet()
    first = sheet.write("stoppage", "8:00")
    second, third = sheet.write("faceoff", "8:00"), sheet.write("shot", "7:00")
    goal = sheet.write("goal", clock, after=first)
    assert sheet.order == [first, goal, second, third]
    assert sheet.find(goal).played == 4200


def test_what_lay_between_is_voided() -> None:
    """Once what lay between is voided, `after` and the reading agree."""
    sheet = Sheet()
    first, between = sheet.write("stoppage", "8:00"), sheet.write("shot", "7:00")
    goal = sheet.write("goal", "6:00", after=first)
    assert sheet.find(goal).played == 4200
    sheet.void(between)
    assert sheet.find(goal).played == 5400


def test_after_the_opening_of_the_record() -> None:
    """What was put after line 1 comes before everything."""
    sheet = Sheet()
    shot = sheet.write("shot", "15:00")
    first = sheet.write("goalie_change", "15:00", after=1)
    second = sheet.write("goalie_change", "15:00", after=1)
    assert sheet.order == [first, second, shot]


def test_after_a_voided_event() -> None:
    """What was put after an event that is voided falls back to the ordinary rules; and comes back with it."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    remark = sheet.write("remark", "7:42")
    goal = sheet.write("goal", "7:42", after=stoppage)
    assert sheet.order == [stoppage, goal, faceoff, remark]
    void = sheet.void(stoppage)
    assert sheet.order == [faceoff, remark, goal]
    sheet.void(void)
    assert sheet.order == [stoppage, goal, faceoff, remark]


def test_after_a_correction() -> None:
    """A correction has no place in the game: what was put after it stands by the ordinary rules."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    amendment = sheet.amend(stoppage, reason="offside")
    shot = sheet.write("shot", "7:42", after=amendment)
    assert sheet.order == [stoppage, faceoff, shot]


def test_after_follows_an_event_that_is_moved() -> None:
    """What was put after an event goes where that one is moved to."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    remark = sheet.write("remark", "7:42", after=stoppage)
    shot = sheet.write("shot", "7:30")
    sheet.amend(stoppage, clock="7:20")
    assert sheet.order == [shot, stoppage, remark]
    assert sheet.find(remark).played == 4600
    second = sheet.write("remark", "7:42", after=remark)
    penalty = sheet.write("penalty_assessed", "7:20")
    assert sheet.order == [shot, stoppage, remark, second, penalty]
    sheet.void(penalty)
    assert sheet.order == [shot, stoppage, remark, second]


# -- amendments of the reading


def test_an_amended_reading_moves_like_a_late_entry() -> None:
    """An `amend` of `clock` moves an event as if it had been written at the amendment."""
    sheet = Sheet()
    mistyped = sheet.write("penalty_assessed", "8:42")
    goal, faceoff = sheet.write("goal", "7:42"), sheet.write("faceoff", "7:42")
    sheet.amend(mistyped, clock="7:42")
    assert sheet.order == [goal, faceoff, mistyped]
    shot = sheet.write("shot", "7:30")
    assert sheet.order == [goal, faceoff, mistyped, shot]
    sheet.amend(mistyped, clock="7:42.0", infraction="hooking")
    assert sheet.order == [goal, mistyped, faceoff, shot]


def test_an_amended_period_moves_too() -> None:
    """An `amend` of `period` moves an event to the same reading of the other period."""
    sheet = Sheet()
    shot, second = sheet.write("shot", "7:42"), sheet.write("faceoff", "15:00", period=2)
    goal = sheet.write("goal", "9:00", period=2)
    sheet.amend(shot, period=2)
    assert sheet.order == [second, goal, shot]
    assert (sheet.find(shot).period, sheet.find(shot).played) == (2, 4380)


def test_an_amendment_of_something_else_moves_nothing() -> None:
    """An `amend` of other fields changes the event at its place, a `clock` that stays the same among them."""
    sheet = Sheet()
    goal, penalty = sheet.write("goal", "7:42"), sheet.write("penalty_assessed", "7:42")
    faceoff, shot = sheet.write("faceoff", "7:42"), sheet.write("shot", "7:00")
    sheet.amend(penalty, player="9", clock="7:42")
    assert sheet.order == [goal, penalty, faceoff, shot]
    written = sheet.events[penalty - 1]
    assert isinstance(written, PenaltyAssessed)
    assert sheet.find(penalty).event == evolve(written, player="9")


def test_a_reading_amended_back_puts_the_event_back() -> None:
    """What is back at the reading at which it was written stands where it was written."""
    sheet = Sheet()
    penalty, faceoff = sheet.write("penalty_assessed", "7:42"), sheet.write("faceoff", "7:42")
    shot = sheet.write("shot", "7:42")
    sheet.amend(penalty, clock="7:30")
    assert sheet.order == [faceoff, shot, penalty]
    sheet.amend(penalty, clock="7:42")
    assert sheet.order == [penalty, faceoff, shot]


def test_an_amendment_that_is_voided_moves_nothing() -> None:
    """An amendment that is voided does not count: the event is back where it was."""
    sheet = Sheet()
    penalty, faceoff = sheet.write("penalty_assessed", "7:42"), sheet.write("faceoff", "7:42")
    amendment = sheet.amend(penalty, clock="7:30")
    assert sheet.order == [faceoff, penalty]
    sheet.void(amendment)
    assert sheet.order == [penalty, faceoff]


def test_after_can_be_amended() -> None:
    """An `after` that is amended, or cleared, gives the event its other place."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    remark = sheet.write("remark", "7:42", after=stoppage)
    sheet.amend(remark, after=faceoff)
    shot = sheet.write("shot", "7:42")
    assert sheet.order == [stoppage, faceoff, remark, shot]
    sheet.amend(shot, after=stoppage)
    assert sheet.order == [stoppage, shot, faceoff, remark]
    sheet.amend(shot, after=None)
    assert sheet.order == [stoppage, faceoff, remark, shot]


# -- without a reading


def test_a_shot_without_a_reading_stands_where_it_was_written() -> None:
    """It stands between the events around it, also behind a stoppage, and has no instant."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    shot = sheet.write("shot", period=1)
    faceoff, later = sheet.write("faceoff", "7:42"), sheet.write("shot", "7:30")
    assert sheet.order == [stoppage, shot, faceoff, later]
    assert sheet.find(shot) == Placed(sheet.events[shot - 1], 1, None)


def test_a_late_entry_before_it_does_not_take_a_shot_along() -> None:
    """A shot without a reading that is written behind a late entry stands where the game had come to."""
    sheet = Sheet()
    faceoff, goal = sheet.write("faceoff", "9:00"), sheet.write("goal", "7:42")
    late = sheet.write("penalty_assessed", "8:00")
    shot = sheet.write("shot", period=1)
    assert sheet.order == [faceoff, late, goal, shot]


def test_a_shot_of_a_period_that_is_over() -> None:
    """A shot without a reading whose period is over stands at its end."""
    sheet = Sheet()
    goal, horn = sheet.write("goal", "7:42"), sheet.write("period_end", "0:00")
    second = sheet.write("faceoff", "15:00", period=2)
    shot = sheet.write("shot", period=1)
    again = sheet.write("shot", "14:00", period=2)
    assert sheet.order == [goal, horn, shot, second, again]
    assert sheet.find(shot).period == 1


def test_a_shot_of_a_period_that_has_not_begun() -> None:
    """A shot without a reading of a period in which nothing stands yet stands at its start."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    shot = sheet.write("shot", period=2)
    remark = sheet.write("remark")
    second, late = sheet.write("faceoff", "15:00", period=2), sheet.write("period_end", "0:00")
    assert sheet.order == [goal, late, shot, remark, second]
    assert (sheet.find(shot).period, sheet.find(remark).period) == (2, 2)


@pytest.mark.parametrize("kind", ["remark", "roster_change", "figures"])
def test_without_period_and_reading(kind: str) -> None:
    """What has neither a period nor a reading stands where it was written, before the game and in it."""
    sheet = Sheet()
    before = sheet.write(kind)
    faceoff = sheet.write("faceoff", "15:00")
    stoppage = sheet.write("stoppage", "7:42", period=2)
    between = sheet.write(kind)
    shot = sheet.write("shot", "7:42", period=2)
    assert sheet.order == [before, faceoff, shot, stoppage, between]
    assert [(one.period, one.played) for one in sheet.placed if one.event.kind == kind] == [(1, None), (2, None)]


def test_a_shot_can_be_given_a_reading_and_lose_it() -> None:
    """A shot that is given a reading moves there like a late entry; one that loses it stands where it was written."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "8:00"), sheet.write("faceoff", "8:00")
    shot, goal = sheet.write("shot", period=1), sheet.write("goal", "7:42")
    sheet.amend(shot, clock="8:00")
    assert sheet.order == [shot, stoppage, faceoff, goal]
    sheet.amend(shot, clock=None)
    assert sheet.order == [stoppage, faceoff, shot, goal]


def test_a_shot_without_a_reading_can_be_put_after_another_event() -> None:
    """It stands directly after that event, and has no instant."""
    sheet = Sheet()
    faceoff, goal = sheet.write("faceoff", "8:00"), sheet.write("goal", "7:42")
    shot = sheet.write("shot", period=1, after=faceoff)
    assert sheet.order == [faceoff, shot, goal]
    assert sheet.find(shot).played is None


# -- the closing


def test_the_closing_is_last() -> None:
    """Whatever is amended after it, the closing of the record is the last event of the game."""
    sheet = Sheet()
    goal = sheet.write("goal", "7:42")
    closing = sheet.write("game_closed", "3:20")
    remark = sheet.write("remark")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(goal, 4380), (closing, 7000), (remark, None)]
    sheet.amend(goal, clock="3:00")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(goal, 7200), (closing, None), (remark, None)]


def test_a_closing_that_is_voided() -> None:
    """Voiding the closing reopens the record: the game goes on where it was."""
    sheet = Sheet()
    goal, closing = sheet.write("goal", "7:42"), sheet.write("game_closed")
    remark = sheet.write("remark")
    sheet.void(closing)
    faceoff = sheet.write("faceoff", "7:42")
    shot = sheet.write("shot", "7:42")
    again = sheet.write("game_closed")
    assert sheet.order == [goal, remark, faceoff, shot, again]


def test_what_was_put_after_an_event_follows_it_when_it_counts_again() -> None:
    """Also where the event counts on a later line, that of its new reading, than the one that was put after it."""
    sheet = Sheet()
    whistle = sheet.write("stoppage", "9:00")
    remark = sheet.write("remark", "8:50", after=whistle)
    wrong = sheet.void(whistle)
    sheet.amend(whistle, clock="8:00")
    sheet.void(wrong)
    assert sheet.order == [whistle, remark]


def test_a_second_closing_stands_behind_the_first() -> None:
    """A closing that was voided and counts again is passed: one behind it with an earlier reading has no instant."""
    sheet = Sheet()
    goal, closing = sheet.write("goal", "7:42"), sheet.write("game_closed", "3:20")
    opened = sheet.void(closing)
    again = sheet.write("game_closed", "5:00")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(goal, 4380), (again, 6000)]
    sheet.void(opened)
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(goal, 4380), (closing, 7000), (again, None)]
