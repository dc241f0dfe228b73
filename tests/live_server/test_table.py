"""The file at the table, where another program is as quick as the page."""

from __future__ import annotations

import threading
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from live_server.desk import At, header, in_process, short_log
from starlette.testclient import TestClient

from rinkfold.cli.errors import refuse
from rinkfold.cli.live import table as module
from rinkfold.cli.live.app import application
from rinkfold.cli.live.table import Table
from rinkfold.timeline.events import Event, PenaltyAssessed, Shot
from rinkfold.timeline.record import append, log_bytes, read_log


def shot(team: Any) -> Shot:
    """A shot of the second period."""
    return Shot(seq=0, period=2, team=team)


@pytest.fixture
def followed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program that appends as soon as an entry of the page has let the file go."""

    def append_then_another(path: str, events: Iterable[Event], **options: Any) -> tuple[Event, ...]:
        written = append(path, events, **options)
        append(path, [shot("away")])
        return written

    monkeypatch.setattr(module, "append", append_then_another)


@pytest.mark.usefixtures("followed")
def test_an_entry_right_behind_ours_is_shown_at_the_next_look(path: Path) -> None:
    """`rinkfold record` in a terminal, between our line and our look at the file: it is not taken for ours."""
    table = Table(str(path))
    table.append([shot("home")])
    assert (table.version, len(read_log(path).events)) == (3, 4)
    assert table.refresh()
    assert (table.version, table.notice) == (4, "One entry came from another program.")
    assert not table.refresh()


@pytest.mark.usefixtures("followed")
def test_entry_upon_entry_both_are_there(path: Path) -> None:
    """Where the file has not been looked at since, the next entry looks first."""
    write = At(in_process(path))
    for version in (2, 4, 6):
        assert write.enter("home shot", version=version)["status"] == 200
        write.room.table.refresh()
    assert [getattr(one, "team", None) for one in read_log(path).events[2:]] == ["home", "away"] * 3
    assert write.state()["version"] == 8


def test_our_own_line_is_not_read_again(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The file grew by what was written and nothing else: it is as it is known."""
    table = Table(str(path))
    table.append([shot("home"), shot("away")])
    monkeypatch.setattr(module, "read_log", lambda path: pytest.fail("read again"))
    assert not table.refresh()


def test_a_file_that_is_taken_away_after_a_torn_line_was_set_aside_is_told(path: Path) -> None:
    """Then the size is not the expected one; that is no reason to take a file that is gone for one that never was."""
    with path.open("ab") as file:
        file.write(b'{"seq": 3')
    table = Table(str(path))
    table.append([shot("home")])
    path.unlink()
    assert table.refresh()
    assert table.trouble is not None


def test_findings_of_a_file_that_was_exchanged_are_its_own(path: Path) -> None:
    """Another game with as many entries: what was found in the one before is not told of it."""
    wrong = PenaltyAssessed(
        seq=0, period=2, clock="9:15", team="home", player="88", parts=("minor",), infraction="tripping"
    )
    table = Table(str(path))
    assert "not_on_roster" not in [one.code for one in table.findings]
    path.write_bytes(log_bytes([evolve(header(), game="another"), wrong]))
    assert table.refresh()
    assert "not_on_roster" in [one.code for one in table.findings]
    path.write_bytes(short_log())
    assert table.refresh()
    assert "not_on_roster" not in [one.code for one in table.findings]


def test_a_fault_at_looking_is_told_once_and_looking_goes_on(
    path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The file is looked at twice a second: that does not fill the terminal with one line. Another fault is another."""
    faults = [RuntimeError("one"), RuntimeError("one"), RuntimeError("two"), RuntimeError("two")]
    looked = threading.Semaphore(0)

    def look() -> bool:
        looked.release()
        if faults:
            raise faults.pop(0)
        return False

    room = in_process(path)
    monkeypatch.setattr(room.table, "refresh", look)
    monkeypatch.setattr("rinkfold.cli.live.app.LOOK_SECONDS", 0.01)
    with TestClient(application(room)):
        assert all(looked.acquire(timeout=10) for _ in range(7))
    told = capsys.readouterr().err
    assert [told.count(f"RuntimeError: {name}.") for name in ("one", "two")] == [1, 1]


def test_a_fault_that_cannot_be_told_stops_nothing(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The terminal is gone, as under `nohup`: the page is answered, and the file is still looked at."""

    def gone(text: str) -> None:
        refuse("not_written", "The answer cannot be written: Input/output error.")

    monkeypatch.setattr("rinkfold.cli.live.answers.complain", gone)
    write = At(in_process(path))
    monkeypatch.setattr(type(write.room), "state", lambda self, role: 1 // 0)
    assert write.get("api/state").json()["error"] == "fault"
