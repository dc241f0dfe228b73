"""The page of a box: what it may write moves the game on for everybody, so the server bounds it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from live_server.desk import At, in_process

from rinkfold.cli.live.doors import AHEAD
from rinkfold.cli.live.keys import KeyFile, Role
from rinkfold.cli.live.repeats import Repeats
from rinkfold.timeline.record import read_log

EVERYTHING = ["door_early", "door_late", "nobody_inside", "period_missing", "no_such_period", "written_ahead"]


@pytest.fixture
def door(at: Callable[..., At]) -> At:
    """The page of the home box; home 12 sits in it from 9:15 to 7:15 of the second period."""
    return at("door", "home")


def refused(answer: Any) -> str:
    """Why the role may not write an entry."""
    assert (answer["status"], answer["error"]) == (403, "not_allowed"), answer
    return str(answer["message"])


@pytest.mark.parametrize("signed", ['by "Referee Hale"', 'recorded "2026-01-10T18:30:05Z"', "after #1"])
@pytest.mark.parametrize("text", ["900 home door #2 open", "undo taken back"])
def test_a_door_signs_as_itself_and_nobody_else(door: At, path: Path, text: str, signed: str) -> None:
    """Nor does it say when its entry was written, or where in the record it stands."""
    door.enter("900 home door #2 open", override=["door_early"])
    before = path.read_bytes()
    assert "signed, timed and placed" in refused(door.enter(f"{text} {signed}", override=EVERYTHING))
    assert path.read_bytes() == before
    assert read_log(path).events[-1].by == "home door"


def test_the_writer_may_sign_as_somebody(write: At, path: Path) -> None:
    """At the clock everything is written, with whose word it was."""
    assert write.enter('900 home door #2 open by "Referee Hale"', override=["door_early"])["status"] == 200
    assert read_log(path).events[-1].by == "Referee Hale"


def test_a_door_cannot_take_back_what_another_signed(write: At, door: At) -> None:
    """Its own entry has its own signature; that of the clock has not."""
    write.enter("715 home door #2 open")
    refused(door.enter("void 3"))


@pytest.mark.parametrize("reading", ["1 0:30", "3 15:00", "3 0:01", "4 4:00", "50 1:00"])
def test_a_door_writes_only_in_the_period_that_is_on(door: At, path: Path, reading: str) -> None:
    """The second is on: neither the first nor the third, whatever is overridden, and every page goes on as it was."""
    assert "in the 2nd can" in refused(door.enter(f"late p{reading} home door #2 open", override=EVERYTHING))
    state = door.state()
    assert (state["version"], state["reading"]["clock"], len(state["box"]["home"])) == (2, "9:15", 1)
    assert len(read_log(path).events) == 2


def test_behind_the_horn_the_next_period_may_have_begun(write: At, door: At) -> None:
    """The door of a penalty that goes on opens before the first entry of that period is written."""
    write.enter("0:30 home penalty 9 minor hooking")
    write.enter("end period")
    assert "in the 2nd or the 3rd" in refused(door.enter("4 1:00 home door #3 open"))
    assert refused(door.enter("3 12:00 home door #3 open", override=EVERYTHING))
    assert door.enter("3 13:30 home door #3 open")["status"] == 200


def test_after_a_decided_game_no_period_follows(write: At, door: At) -> None:
    """A goal decides, and then the horn of the third is the end."""
    write.enter("850 home goal 9")
    write.enter("3 1:00 home penalty 12 minor hooking")
    write.enter("3 0:00 end period")
    assert "in the 3rd can" in refused(door.enter("4 4:00 home door #4 open"))


@pytest.mark.parametrize(("reading", "status"), [("7:15", 200), ("6:15", 200), ("6:14", 403), ("0:01", 403)])
def test_a_door_is_never_far_beyond_what_is_written(door: At, reading: str, status: int) -> None:
    """In play nothing may have been written for two minutes; the penalty says when its door is due, and so how far."""
    assert AHEAD == 600
    answer = door.enter(f"{reading} home door #2 open", override=EVERYTHING)
    assert answer["status"] == status
    if status == 403:
        assert refused(answer) == f"By what is written this door opens by 7:15; {reading} is far beyond that."


def test_a_door_does_not_go_on_from_its_own_entries(write: At, door: At) -> None:
    """Of who is not due in this period nothing says how far: entry upon entry, the game goes on by a minute in all."""
    write.enter("910 home penalty 9 misconduct arguing")
    stood = door.state()["reading"]["played_t"]
    tried = [f"{clock} home door #3 open" for clock in ("8:50", "8:30", "8:10", "7:50", "7:30")]
    answers = [door.enter(text, override=["door_early"])["status"] for text in tried]
    assert answers == [200, 200, 200, 403, 403]
    assert door.state()["reading"]["played_t"] <= stood + AHEAD


def test_a_door_overrides_only_what_is_seen_at_the_door(door: At, write: At) -> None:
    """That it was early or late. Everything else is for the clock, which is told by the words of the warning."""
    assert door.enter("900 home door #2 open")["error"] == "warned"
    assert door.enter("900 home door #2 open", override=["door_early"])["status"] == 200
    write.enter("715 home door #2 open")
    answer = door.enter("714 home door #2 open", override=EVERYTHING)
    assert "nobody sits for it" in refused(answer)
    assert answer["fix"] == "Tell the person at the clock. It can be written there."
    assert write.enter("714 home door #2 open", override=EVERYTHING)["status"] == 200


@pytest.mark.parametrize(("target", "code"), [(999, "no_target"), (4, "no_target"), (3, "later_target")])
@pytest.mark.parametrize("role", [("write",), ("door", "home")])
def test_an_entry_that_is_not_there_cannot_be_taken_back(
    at: Callable[..., At], role: tuple[str, ...], target: int, code: str
) -> None:
    """The answer is the same for a door and for the clock, and no fault of the server."""
    page = at(*role)
    answer = page.enter(f"void {target}")
    assert (answer["status"], answer["error"], answer["problems"][0]["code"]) == (422, "not_understood", code)
    assert page.preview(f"void {target}")["problems"][0]["code"] == code


def test_a_door_has_no_long_entries(door: At, path: Path) -> None:
    """Reading one takes time in which nobody else is answered; its page needs forty characters."""
    text = 'late 715 home door #2 open note "{}"'
    assert refused(door.enter(text.format("x" * 200)))
    assert door.post("api/preview", {"text": text.format("x" * 3_000)}).status_code == 403
    assert door.enter(text.format("x" * 100))["status"] == 200


def test_a_door_leaves_a_closed_record_as_it_was_signed(write: At, door: At, path: Path) -> None:
    """The writer can still correct it, with a new head code; from a door not even its own entry is taken back."""
    door.enter("715 home door #2 open")
    assert write.enter("close played", override=EVERYTHING)["state"]["stage"] == "closed"
    before, code = path.read_bytes(), write.state()["head_code"]
    for text in ("void 3", "714 home door #2 open"):
        assert refused(door.enter(text, override=EVERYTHING)) == "The record is closed."
    assert (path.read_bytes(), write.state()["head_code"]) == (before, code)
    assert write.enter("void 3")["head_code"] not in (None, code)


def test_the_head_code_is_the_writers(at: Callable[..., At], path: Path) -> None:
    """Also where a server that was started again answers once more, after the record was closed."""
    file = KeyFile.beside(path)
    file.write(at().room.keys, 1)
    at().room.desk.repeats = Repeats.kept_in(file)
    assert at("door", "home").enter("715 home door #2 open", id="the-same-one")["status"] == 200
    assert at().enter("close played", override=EVERYTHING, id="the-last-one")["head_code"] is not None
    again = in_process(path)
    again.desk.repeats = Repeats.kept_in(file)
    answer = At(again, Role("door", "home")).enter("715 home door #2 open", id="the-same-one")
    assert (answer["replayed"], answer["head_code"]) == (True, None)
    assert At(again).enter("close played", id="the-last-one")["head_code"] is not None
