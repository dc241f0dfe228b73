"""The page's copy of the clock: set against the board, compared with entries, written nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import define
from live_server.desk import At


@define
class Time:
    """A time that goes on when the test says so."""

    now: float = 1_000.0
    slept: float = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def time(monkeypatch: pytest.MonkeyPatch) -> Time:
    """The time that the copy goes by."""
    made = Time()
    monkeypatch.setattr("rinkfold.cli.live.clock_copy.monotonic", made)
    monkeypatch.setattr("rinkfold.cli.live.clock_copy.time", lambda: made.now + made.slept)
    return made


def move(write: At, **body: object) -> dict[str, object]:
    """Move the copy; what it shows then."""
    answer = write.post("api/clock", body)
    assert answer.status_code == 200, answer.text
    return dict(answer.json()["clock"])


def test_without_being_set_there_is_none(write: At) -> None:
    """Nothing depends on it."""
    assert write.state()["clock"] == {"set": False}


def test_it_runs_from_the_latest_reading_when_it_is_only_started(write: At, time: Time) -> None:
    """One key is enough; it goes on by itself and stands when it is stopped."""
    assert move(write, do="start") == {
        "set": True,
        "running": True,
        "period": 2,
        "clock": "9:15",
        "played_t": 3450,
        "set_ago_s": 0,
        "moved_ago_s": 0,
        "check": False,
    }
    time.now += 20.5
    assert move(write, do="stop")["clock"] == "8:55"
    time.now += 60
    shown = write.state()["clock"]
    assert (shown["clock"], shown["played_t"], shown["running"], shown["set_ago_s"]) == ("8:55", 3655, False, 80)


@pytest.mark.parametrize(("typed", "clock"), [("742", "7:42"), ("7:42", "7:42"), (" 58 ", "0:58"), ("15:00", "15:00")])
def test_it_is_set_by_typing_a_reading(write: At, time: Time, typed: str, clock: str) -> None:
    """As readings are typed everywhere; whether it runs stays as it is unless that is said too."""
    assert move(write, do="set", reading=typed)["clock"] == clock
    assert move(write, do="set", reading=typed, running=True)["running"] is True
    assert move(write, do="set", reading=typed)["running"] is True


@pytest.mark.parametrize("typed", ["", "x", "1601", "99:99", "-1"])
def test_what_is_no_reading_is_told(write: At, typed: str) -> None:
    """Longer than the period, or none at all; the copy stays as it was."""
    answer = write.post("api/clock", {"do": "set", "reading": typed})
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["code"] == "entry_reading"
    assert write.state()["clock"] == {"set": False}


@pytest.mark.parametrize(
    "body", [{}, {"do": "fly"}, {"do": "set", "reading": "900", "period": "2"}, {"do": "set", "period": 0}]
)
def test_what_cannot_be_done_with_it_is_refused(write: At, body: dict[str, object]) -> None:
    """A fault of the page, not of what was typed."""
    assert write.post("api/clock", body).status_code == 400


def test_it_never_goes_beyond_the_period(write: At, time: Time) -> None:
    """At the end it stands."""
    move(write, do="set", reading="0:05", running=True)
    time.now += 60
    shown = write.state()["clock"]
    assert (shown["clock"], shown["running"]) == ("0:00", False)


def test_an_entry_with_another_reading_makes_it_doubtful(write: At, time: Time) -> None:
    """Check the board: until it is set again, or an entry has its reading."""
    move(write, do="set", reading="9:00")
    time.now += 5
    write.enter("840 stop icing")
    assert write.state()["clock"]["check"] is True
    assert move(write, do="set", reading="840")["check"] is False


def test_an_entry_with_its_reading_confirms_it(write: At, time: Time) -> None:
    """Somebody looked at the board and wrote the same."""
    move(write, do="set", reading="9:00")
    time.now += 30
    write.enter("900 stop icing")
    shown = write.state()["clock"]
    assert (shown["check"], shown["set_ago_s"]) == (False, 0)


def test_a_running_copy_may_have_gone_on_while_somebody_typed(write: At, time: Time) -> None:
    """Some seconds behind the whistle it is neither confirmed nor doubtful; ahead of it, it is doubtful."""
    move(write, do="set", reading="9:10", running=True)
    time.now += 12
    write.enter("905 stop icing")
    shown = write.state()["clock"]
    assert (shown["check"], shown["set_ago_s"]) == (False, 12)
    assert write.enter("850 go", override=["clock_jumped"])["status"] == 200
    assert write.state()["clock"]["check"] is True


def test_it_says_whether_it_was_moved_after_the_last_entry(write: At, time: Time) -> None:
    """Then it is the better witness of what the board shows; an entry with a reading is from then on."""
    move(write, do="set", reading="9:00")
    time.now += 4
    assert write.state()["clock"]["moved_ago_s"] == 4
    write.enter("home shot")
    assert write.state()["clock"]["moved_ago_s"] == 4
    write.enter("900 stop icing")
    assert write.state()["clock"]["moved_ago_s"] is None
    assert move(write, do="start")["moved_ago_s"] == 0


def test_late_entries_and_shots_say_nothing_about_it(write: At, time: Time) -> None:
    """A shot has no reading, and what comes late was not read from the board now."""
    move(write, do="set", reading="8:00")
    write.enter("home shot")
    write.enter("late 1 500 away goal 17")
    assert write.state()["clock"]["check"] is False


def test_after_the_end_of_a_period_it_starts_with_the_next(write: At, time: Time) -> None:
    """Nobody has to set it in the intermission."""
    move(write, do="set", reading="0:00")
    write.enter("end period")
    shown = move(write, do="start")
    assert (shown["period"], shown["clock"]) == (3, "15:00")


def test_it_is_written_nowhere_and_can_be_done_without(write: At, path: Path) -> None:
    """The file stays as it was."""
    before = path.read_bytes()
    move(write, do="start")
    assert move(write, do="forget") == {"set": False}
    assert path.read_bytes() == before


def test_after_the_lid_was_closed_it_is_doubtful(write: At, time: Time) -> None:
    """The clock that it goes by stood meanwhile; set again it is as good as before."""
    move(write, do="start")
    time.slept += 90
    assert write.state()["clock"]["check"] is True
    assert move(write, do="set", reading="700")["check"] is False
