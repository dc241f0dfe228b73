"""What becomes of the script when the officials correct the clock."""

from __future__ import annotations

from rinkfold.timeline.script import Placed
from script.sheet import Sheet


def test_the_stoppage_just_before_moves() -> None:
    """The stoppage just before happened at the reading `to`; the event keeps the reading that was written."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    assert list(sheet.placed) == [Placed(sheet.events[stoppage - 1], 1, 4300)]
    assert sheet.events[stoppage - 1].clock == "7:42"


def test_what_was_written_at_that_reading_since_moves_along() -> None:
    """Everything written at the reading of the stoppage since it moves there, and keeps its order."""
    sheet = Sheet()
    shot = sheet.write("shot", "7:42")
    stoppage = sheet.write("stoppage", "7:42")
    penalty, change = sheet.write("penalty_assessed", "7:42"), sheet.write("goalie_change", "7:42")
    late_shot, tally = sheet.write("shot", "7:42"), sheet.write("shot", period=1)
    sheet.write("clock_set", "7:42", to="7:50")
    faceoff = sheet.write("faceoff", "7:50")
    assert sheet.order == [late_shot, stoppage, penalty, change, tally, faceoff, shot]
    assert [one.played for one in sheet.placed] == [4300, 4300, 4300, 4300, None, 4300, 4380]


def test_time_that_was_run_off() -> None:
    """A clock that had stood too long is set on: the stoppage happened later than it was written."""
    sheet = Sheet()
    before, stoppage = sheet.write("shot", "7:42"), sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:42", to="7:36")
    faceoff = sheet.write("faceoff", "7:36")
    assert sheet.order == [before, stoppage, faceoff]
    assert [one.played for one in sheet.placed] == [4380, 4440, 4440]


def test_a_faceoff_written_before_the_correction_moves_too() -> None:
    """A faceoff at the reading that was wrong moves with the stoppage."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "7:42"), sheet.write("faceoff", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(stoppage, 4300), (faceoff, 4300)]


def test_the_stoppage_before_the_faceoff_stays() -> None:
    """Of two stoppages at one reading with a faceoff between them the second moves."""
    sheet = Sheet()
    first, faceoff = sheet.write("goal", "7:42"), sheet.write("faceoff", "7:42")
    second, penalty = sheet.write("stoppage", "7:42"), sheet.write("penalty_assessed", "7:42")
    sheet.write("clock_set", "7:42", to="7:40")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [
        (first, 4380),
        (faceoff, 4380),
        (second, 4400),
        (penalty, 4400),
    ]


def test_several_events_are_one_stoppage() -> None:
    """A goal and the call at its reading are one stoppage: both move."""
    sheet = Sheet()
    goal, penalty = sheet.write("goal", "7:42"), sheet.write("penalty_assessed", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    assert sheet.order == [goal, penalty]
    assert sheet.find(goal).played == 4300


def test_the_horn_was_too_late() -> None:
    """Time put back after the horn: the period goes on, and ends once more."""
    sheet = Sheet()
    horn = sheet.write("period_end", "0:00")
    sheet.write("clock_set", "0:00", to="0:02.5")
    faceoff, again = sheet.write("faceoff", "0:02.5"), sheet.write("period_end", "0:00")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(horn, 8975), (faceoff, 8975), (again, 9000)]


def test_it_moves_behind_what_stood_there() -> None:
    """The stoppage moves behind the faceoff that was held at the reading `to` before."""
    sheet = Sheet()
    first, faceoff = sheet.write("stoppage", "7:50"), sheet.write("faceoff", "7:50")
    stoppage = sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    penalty, again = sheet.write("penalty_assessed", "7:50"), sheet.write("faceoff", "7:50")
    assert sheet.order == [first, faceoff, stoppage, penalty, again]


def test_what_was_recorded_while_the_clock_ran_wrongly() -> None:
    """A door that opened in time taken back makes nothing late that is written after the correction."""
    sheet = Sheet()
    faceoff = sheet.write("faceoff", "7:50")
    door, stoppage = sheet.write("penalty_ended", "7:48"), sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    penalty, again = sheet.write("penalty_assessed", "7:50"), sheet.write("faceoff", "7:50")
    assert sheet.order == [faceoff, stoppage, penalty, again, door]


def test_afterwards_readings_count_as_written() -> None:
    """After the correction readings are taken as they stand, the old one among them."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:42", to="7:50")
    faceoff, shot = sheet.write("faceoff", "7:50"), sheet.write("shot", "7:42")
    whistle, late = sheet.write("stoppage", "7:30"), sheet.write("goal", "7:42")
    assert sheet.order == [stoppage, faceoff, shot, late, whistle]
    assert sheet.find(late).played == 4380


def test_a_second_correction() -> None:
    """The stoppage that was moved is the one just before the next correction, with what was written since."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    first = sheet.write("clock_set", "7:42", to="7:50")
    penalty = sheet.write("penalty_assessed", "7:50")
    second = sheet.write("clock_set", "7:50", to="7:49")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(stoppage, 4310), (penalty, 4310)]
    sheet.void(second)
    assert [one.played for one in sheet.placed] == [4300, 4300]
    sheet.void(first)
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(penalty, 4300), (stoppage, 4380)]


def test_a_stoppage_that_nobody_wrote() -> None:
    """Where play had gone on since the last stoppage written, that one stays: another one was corrected."""
    sheet = Sheet()
    penalty, shot = sheet.write("penalty_assessed", "12:00"), sheet.write("shot", "7:44")
    sheet.write("clock_set", "7:42", to="7:50")
    after = sheet.write("faceoff", "7:50")
    assert sheet.order == [penalty, after, shot]
    assert sheet.find(penalty).played == 1800


def test_a_stoppage_that_the_clock_ran_past() -> None:
    """Time that is taken back to before the last stoppage takes that stoppage back, whatever the board showed."""
    sheet = Sheet()
    stoppage = sheet.write("stoppage", "7:42")
    sheet.write("clock_set", "7:40", to="7:50")
    assert sheet.find(stoppage).played == 4300


def test_no_stoppage_in_the_period() -> None:
    """A stoppage of another period is not the one just before."""
    sheet = Sheet()
    horn = sheet.write("period_end", "0:00")
    sheet.write("clock_set", "15:00", period=2, to="14:00")
    assert sheet.find(horn) == Placed(sheet.events[horn - 1], 1, 9000)


def test_a_correction_that_is_written_late() -> None:
    """A `clock_set` at a reading that the game has passed corrects the stoppage at that reading."""
    sheet = Sheet()
    stoppage, faceoff = sheet.write("stoppage", "9:00"), sheet.write("faceoff", "9:00")
    goal, shot = sheet.write("goal", "7:42"), sheet.write("shot", "7:42")
    sheet.write("clock_set", "9:00", to="8:57")
    again = sheet.write("faceoff", "7:42")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [
        (stoppage, 3630),
        (faceoff, 3630),
        (shot, 4380),
        (goal, 4380),
        (again, 4380),
    ]


def test_a_late_entry_before_it_is_not_the_stoppage() -> None:
    """A late entry that was written between the stoppage and the correction is not the stoppage just before."""
    sheet = Sheet()
    stoppage, late = sheet.write("stoppage", "7:42"), sheet.write("penalty_assessed", "12:00")
    sheet.write("clock_set", "7:42", to="7:50")
    assert (sheet.find(late).played, sheet.find(stoppage).played) == (1800, 4300)


def test_what_was_put_after_an_event_moves_with_it_or_stays_with_it() -> None:
    """`after` wins: what was put after an event of the stoppage moves, what was put after one before it stays."""
    sheet = Sheet()
    shot, stoppage = sheet.write("shot", "7:42"), sheet.write("stoppage", "7:42")
    stays, moves = sheet.write("remark", "7:42", after=shot), sheet.write("remark", "7:42", after=stoppage)
    sheet.write("clock_set", "7:42", to="7:50")
    penalty = sheet.write("penalty_assessed", "7:50")
    assert sheet.order == [stoppage, moves, penalty, shot, stays]


def test_an_amended_correction() -> None:
    """Amending `to` moves the stoppage to the other reading; voiding what it moved leaves the rest."""
    sheet = Sheet()
    stoppage, penalty = sheet.write("stoppage", "7:42"), sheet.write("penalty_assessed", "7:42")
    clock = sheet.write("clock_set", "7:42", to="7:50")
    faceoff = sheet.write("faceoff", "7:50")
    sheet.amend(clock, to="7:52")
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(stoppage, 4280), (penalty, 4280), (faceoff, 4300)]
    sheet.void(stoppage)
    assert [(one.event.seq, one.played) for one in sheet.placed] == [(penalty, 4280), (faceoff, 4300)]
