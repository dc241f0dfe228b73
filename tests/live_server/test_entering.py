"""Entries: previewed, written once, and not before everything about them was seen."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest
from attrs import evolve
from live_server.desk import EXAMPLE, At, in_process, new_id

from rinkfold.cli.entries import print_entry
from rinkfold.cli.live.keys import KeyFile, Keys
from rinkfold.cli.live.repeats import Repeats
from rinkfold.cli.main import app
from rinkfold.cli.standing import context_of
from rinkfold.timeline import Remark
from rinkfold.timeline.record import log_bytes, read_log


def written(path: Path) -> list[str]:
    """The kinds of the events on the disk, the first line apart."""
    return [event.kind for event in read_log(path).events[1:]]


def record_in_a_terminal(path: Path) -> None:
    """Another program appends a goal."""
    with pytest.raises(SystemExit) as end:
        app(["record", str(path), "850 away goal 17"])
    assert end.value.code == 0


def test_a_preview_says_what_would_be_written_and_writes_nothing(write: At, path: Path) -> None:
    """The entry in whole words, the reading it writes and its effect, with the file untouched."""
    before = path.read_bytes()
    answer = write.preview("850 a goal 17 from 4")
    assert answer["ok"]
    assert answer["understood"] == "2 8:50 away goal 17 from 4"
    assert answer["reading"] == {"period": 2, "clock": "8:50"}
    assert answer["effect"].endswith("ended the minor of 12; home 12 leaves the box · home 5 on 5")
    assert (answer["warnings"], answer["hints"]) == ([], [])
    assert path.read_bytes() == before


def test_what_is_not_understood_comes_with_what_would_be(write: At) -> None:
    """A reading that has passed is offered as the next period and as late."""
    answer = write.preview("14:40 away goal 17")
    assert not answer["ok"]
    (problem,) = answer["problems"]
    assert problem["code"] == "entry_past"
    assert problem["offers"] == ["3 14:40 away goal 17", "late 14:40 away goal 17"]


def test_an_empty_line_has_neither_effect_nor_problem(write: At) -> None:
    """Nothing typed is nothing wrong."""
    assert write.preview("  ") == {"ok": False, "version": 2, "problems": []}


def test_an_entry_is_on_the_disk_when_it_is_acknowledged(write: At, path: Path) -> None:
    """The answer has the number of the entry, what it does, and the state with it."""
    answer = write.enter("850 a goal 17 from 4")
    assert (answer["status"], answer["seq"], answer["replayed"]) == (200, 3, False)
    assert answer["state"]["score"] == {"home": 0, "away": 1}
    assert answer["state"]["version"] == 3
    last = read_log(path).events[-1]
    assert (last.kind, last.clock, last.by, last.note) == ("goal", "8:50", None, None)
    assert last.recorded_at is not None


def test_a_shot_is_written_without_a_reading(write: At, path: Path) -> None:
    """The commonest entry needs nobody to look at the board."""
    assert write.enter("home shot")["status"] == 200
    last = read_log(path).events[-1]
    assert (last.kind, last.period, last.clock) == ("shot", 2, None)


def test_the_same_form_sent_again_is_written_once(write: At, path: Path) -> None:
    """An id is one entry: the second answer is the first, marked as replayed, also when the game has gone on."""
    name = new_id()
    first = write.enter("home shot", id=name)
    write.enter("away shot")
    again = write.enter("home shot", id=name, version=2)
    assert (again["status"], again["seq"], again["replayed"]) == (200, first["seq"], True)
    assert again["state"]["version"] == 4
    assert written(path) == ["penalty_assessed", "shot", "shot"]


def test_one_id_for_two_entries_is_refused(write: At, path: Path) -> None:
    """An id that was used for another text is a fault of the page, and nothing is written."""
    name = new_id()
    write.enter("home shot", id=name)
    answer = write.enter("away shot", id=name)
    assert (answer["status"], answer["error"]) == (400, "bad_request")
    assert written(path) == ["penalty_assessed", "shot"]


def test_an_entry_on_an_outdated_state_is_shown_what_changed(write: At, path: Path) -> None:
    """It is not written; what was entered since stands in the answer; sent with the new version it is written."""
    name = new_id()
    write.enter("850 a goal 17")
    answer = write.enter("840 h goal 9", id=name, version=2)
    assert (answer["status"], answer["error"], answer["version"]) == (409, "stale", 3)
    assert answer["since"] == [{"seq": 3, "text": "2 8:50 away goal 17", "by": None}]
    assert answer["preview"]["understood"] == "2 8:40 home goal 9"
    assert written(path) == ["penalty_assessed", "goal"]
    assert write.enter("840 h goal 9", id=name, version=answer["version"])["status"] == 200


def test_an_entry_that_was_written_before_a_crash_is_not_written_again(write: At, path: Path) -> None:
    """Its id was noted before it was written: a server that was started again knows it, and no other."""
    file = KeyFile.beside(path)
    file.write(write.room.keys, 1)
    write.room.desk.repeats = Repeats.kept_in(file)
    name = new_id()
    assert write.enter("850 a goal 17", id=name)["seq"] == 3
    again = At(in_process(path))
    again.room.desk.repeats = Repeats.kept_in(file)
    answer = again.enter("850 a goal 17", id=name, version=2)
    assert (answer["status"], answer["seq"], answer["replayed"]) == (200, 3, True)
    assert answer["understood"] == "2 8:50 away goal 17"
    assert again.enter("850 a goal 17", version=2)["error"] == "stale"
    assert written(path) == ["penalty_assessed", "goal"]


def test_an_entry_that_a_crash_kept_from_being_written_is_written(write: At, path: Path) -> None:
    """Its id was noted and its line is not there, or is another's: sent again it is new."""
    file = KeyFile.beside(path)
    file.write(write.room.keys, 1)
    name = new_id()
    Repeats(file).about_to_write(name, 3, Remark(seq=3, text="lost"))
    write.enter("home shot")
    write.room.desk.repeats = Repeats.kept_in(file)
    answer = write.enter("remark lost", id=name)
    assert (answer["status"], answer["seq"], answer["replayed"]) == (200, 4, False)


def test_a_torn_note_is_passed_over(path: Path) -> None:
    """A crash in the middle of it: the entry was not written either."""
    file = KeyFile.beside(path)
    file.write(Keys(b"k" * 32), 1)
    file.note({"id": "entry-1", "seq": 2, "digest": "x"})
    with file.path.open("a") as notes:
        notes.write('{"id": "entry-2", "se')
    assert list(Repeats.kept_in(file).noted) == ["entry-1"]
    assert file.read() == (Keys(b"k" * 32), 1)


def test_what_is_shown_of_an_outdated_entry_has_no_names_for_a_door(at: Callable[..., At]) -> None:
    """A remark that came meanwhile is a remark."""
    at("write").enter("remark Per Millbrook argued")
    answer = at("door", "home").enter("720 home door 12 open", version=2)
    assert (answer["error"], answer["since"][0]["text"]) == ("stale", "remark")
    assert "Millbrook" not in str(answer)


def test_an_entry_has_the_time_at_which_it_was_written(write: At, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not that of the preview, which may have stood for minutes; one that was typed stays."""
    monkeypatch.setattr("rinkfold.cli.recording.now", lambda: "2026-01-10T18:30:00Z")
    write.preview("home shot")
    monkeypatch.setattr("rinkfold.cli.live.trial.now", lambda: "2026-01-10T18:33:00Z")
    write.enter("home shot")
    write.enter("away shot recorded 2026-01-10T18:00:05Z")
    assert [event.recorded_at for event in read_log(path).events[2:]] == [
        "2026-01-10T18:33:00Z",
        "2026-01-10T18:00:05Z",
    ]


def test_two_writers_see_each_other(at: Callable[..., At]) -> None:
    """What one page enters is in the state of the other at once."""
    one, other = at("write"), at("write")
    one.enter("home shot")
    assert other.state()["shots"]["home"] == [0, 1]


def test_what_another_program_appends_is_noticed(write: At, path: Path) -> None:
    """`rinkfold record` in a terminal: the next look at the file shows it, and says where it came from."""
    record_in_a_terminal(path)
    assert write.room.table.refresh()
    state = write.state()
    assert state["version"] == 3
    assert state["notice"] == "One entry came from another program."


def test_an_entry_meets_what_another_program_wrote_a_moment_ago(write: At, path: Path) -> None:
    """The file is looked at before anything is written: the entry is outdated, and nothing is lost."""
    record_in_a_terminal(path)
    answer = write.enter("840 h goal 9", version=2)
    assert (answer["status"], [one["seq"] for one in answer["since"]]) == (409, [3])
    assert written(path) == ["penalty_assessed", "goal"]


def test_a_full_disk_is_told_and_the_entry_can_be_sent_again(
    write: At, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing was written and nothing is shown as written; with room again the same form is written once."""
    before, name = path.read_bytes(), new_id()

    def full(number: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr("rinkfold.timeline.record.writer.os.fsync", full)
        answer = write.enter("home shot", id=name)
    assert (answer["status"], answer["error"], answer["code"]) == (503, "log_trouble", "disk_full")
    assert path.read_bytes() == before
    assert write.state()["version"] == 2
    assert write.enter("home shot", id=name)["seq"] == 3
    assert written(path) == ["penalty_assessed", "shot"]


def test_a_file_exchanged_for_one_of_the_same_length_takes_no_entry(write: At, path: Path) -> None:
    """The last line is compared by its hash before anything is written; the page is shown what is there."""
    data = path.read_bytes()
    path.write_bytes(data.replace(b'"infraction": "tripping"', b'"infraction": "slashing"'))
    write.room.table._seen = write.room.table._look()
    answer = write.enter("home shot", version=2)
    assert answer["error"] == "log_trouble"
    assert b"slashing" in path.read_bytes()
    assert path.read_bytes().count(b"\n") == 2
    assert write.state()["box"]["home"][0]["infraction"] == "slashing"


def test_undo_takes_back_the_last_entry(write: At) -> None:
    """Nothing is rubbed out: an entry that takes back, and the game as it was."""
    write.enter("850 a goal 17")
    answer = write.enter("undo")
    assert answer["understood"] == "void #3 taken back"
    assert answer["state"]["score"]["away"] == 0
    assert [one["voided"] for one in answer["state"]["entries"]] == [False, True, False]


def test_a_correction_that_takes_the_rules_away_is_written_and_told_so(write: At, path: Path) -> None:
    """Without its pinned rules the game goes on by those that the log names; what is on the disk is acknowledged."""
    answer = write.enter("amend 1 pinned null")
    assert (answer["status"], answer["seq"]) == (200, 3)
    assert len(read_log(path).events) == 3
    assert write.enter("home shot")["state"]["rules"]["name"] == "youth-14u"


def test_a_correction_says_what_is_different_since(write: At) -> None:
    """Moving the penalty moves the release, and the preview has the line for it."""
    answer = write.preview("amend 2 clock 9:35")
    first = answer["different"][0]
    assert (first["title"], first["first"]) == ("Who sits", True)
    assert first["rows"] == [["home 12 #2", "12 at 2 7:15", "12 at 2 7:35"]]


def test_time_in_net_alone_is_no_difference(write: At) -> None:
    """Taking back the last entry shortens it for everybody; shots that count for another goalkeeper are told."""
    for text in ("910 home goalie 31", "900 a pen 4 2 hooking"):
        write.enter(text)
    titles = [one["title"] for one in write.preview("undo")["different"]]
    assert titles[0] == "Who sits"
    assert "Goalkeepers" not in titles
    write.enter("away shot")
    assert "Goalkeepers" in [one["title"] for one in write.preview("amend 3 goalie ?")["different"]]


def test_a_request_that_is_no_entry_is_refused(write: At) -> None:
    """Without text, version or id, or with an override that is none, the page is told to reload."""
    good = {"text": "home shot", "id": new_id(), "version": 2}
    for wrong in ({"text": 5}, {"text": " "}, {"version": "2"}, {"version": True}, {"id": "x"}, {"id": "x" * 65}):
        assert write.post("api/enter", {**good, **wrong}).status_code == 400
    assert write.post("api/enter", {**good, "override": "x"}).status_code == 400
    assert write.post("api/enter", {**good, "override": [1]}).status_code == 400


@pytest.mark.parametrize(
    "text",
    [
        "open " + "[" * 3_900,
        "amend 1 home " + '{"a":' * 700,
        "9" * 3_999,
        'remark "\\ud800"',
        'home penalty staff "\\udfff" game misconduct',
        "home shot x" + "9" * 30,
        "void " + "9" * 3_000,
    ],
)
def test_odd_entries_are_problems_and_no_faults(write: At, path: Path, text: str) -> None:
    """Told as not understood; the server goes on."""
    assert write.preview(text)["problems"]
    assert write.enter(text)["error"] == "not_understood"
    assert len(read_log(path).events) == 2


def test_an_endless_entry_is_refused(write: At) -> None:
    """More characters than a line needs are a problem of the entry, told in words."""
    answer = write.preview("remark " + "x" * 5_000)
    assert answer["problems"][0]["code"] == "entry_too_long"


def test_the_example_game_is_entered_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each event of its first period and a half as the entry that says it: the log has the example's events."""
    monkeypatch.setattr("rinkfold.cli.live.room.Rates.take", lambda self, sender: None)
    events = read_log(EXAMPLE).events[:150]
    path = tmp_path / "game.jsonl"
    path.write_bytes(log_bytes(events[:1]))
    at = At(in_process(path))
    for event in events[1:]:
        game = at.room.table.game
        assert game is not None
        answer = at.enter(print_entry(event, context_of(game)))
        assert answer["status"] == 200, (event, answer)
    kept = [evolve(event, recorded_at=None, prev=None) for event in read_log(path).events]
    assert kept == [evolve(event, recorded_at=None, prev=None) for event in events]


def test_closing_gives_the_head_code(write: At, path: Path) -> None:
    """The answer to the closing holds the code to write down, and it is that of the file."""
    answer = write.enter("close played signed Jo Hale", override=["period_missing"])
    assert answer["head_code"] == read_log(path).head_code
    assert answer["state"]["stage"] == "closed"
    assert answer["state"]["head_code"] == answer["head_code"]
