"""What `check` would find, said before the entry is written; what is overridden is written down."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest
from live_server.desk import EXAMPLE, ROOT, At, in_process, new_id

from rinkfold import rulesets
from rinkfold.cli.entries import print_entry
from rinkfold.cli.live.entering import Form
from rinkfold.cli.live.keys import ROLES
from rinkfold.cli.standing import context_of
from rinkfold.cli.warned import new_findings
from rinkfold.timeline.live import LiveGame
from rinkfold.timeline.record import log_bytes, read_log
from rinkfold.timeline.views.findings.checks import KINDS


@pytest.mark.parametrize(
    ("entry", "code", "message"),
    [
        (
            "850 h goal 17",
            "other_side",
            "home 17 scored, but 17 is not on the home roster; away has one.",
        ),
        ("850 h goal 77", "not_on_roster", "home 77 scored, but 77 is not on the home roster."),
        ("850 h goal 12", "in_the_box", "home 12 scored while sitting in the box with 1:35 to serve (penalty #2)."),
        ("850 a goal 17 from 4 4", "same_assist", "One player has two assists on the goal: 4, 4."),
        ("850 a goal 17 from 17", "assists_himself", "away 17 scored the goal and assists on it."),
    ],
)
def test_what_cannot_be_right_is_said_in_the_preview(write: At, entry: str, code: str, message: str) -> None:
    """The finding that `check` would make of the entry, with its words."""
    found = {one["code"]: one["message"] for one in write.preview(entry)["warnings"]}
    assert code in found
    assert found[code] == message


def test_a_third_assist_is_said(write: At) -> None:
    """More assists than the rules allow."""
    assert "too_many_assists" in [one["code"] for one in write.preview("850 a goal 17 from 4 30 5")["warnings"]]


def test_the_remedy_does_not_speak_of_an_entry_that_is_not_there_yet(write: At) -> None:
    """Nothing is written, so there is nothing to amend: the remedy is that of the kind of finding."""
    (warning,) = write.preview("850 h goal 17")["warnings"]
    assert warning["fix"] == "Write the right number, or the right side."
    assert warning["fix"] in [kind.remedy for kind in KINDS]


@pytest.mark.parametrize(
    ("entry", "code"), [("850 a goal ?", "number_to_come"), ("850 a bench minor too many players", "no_stand_in")]
)
def test_what_is_still_to_come_is_a_hint_and_no_obstacle(write: At, entry: str, code: str) -> None:
    """A number still to come and a penalty without its stand-in are said, and written without another question."""
    assert [one["code"] for one in write.preview(entry)["hints"]] == [code]
    assert write.enter(entry)["status"] == 200


def test_a_warning_stops_an_entry_once(write: At, path: Path) -> None:
    """It is not written; with the code in the override it is, and its note says what was overridden."""
    name = new_id()
    answer = write.enter("850 h goal 17", id=name)
    assert (answer["status"], answer["error"]) == (422, "warned")
    assert [one["code"] for one in answer["warnings"]] == ["other_side"]
    assert len(read_log(path).events) == 2
    answer = write.enter("850 h goal 17", id=name, override=["other_side"])
    assert answer["status"] == 200
    expected = "written although: home 17 scored, but 17 is not on the home roster; away has one. (other_side)"
    assert read_log(path).events[-1].note == expected


def test_overriding_one_warning_overrides_no_other(write: At, path: Path) -> None:
    """Every warning has to be seen."""
    answer = write.enter("850 h goal 17 from 88", override=["other_side"])
    assert [one["code"] for one in answer["warnings"]] == ["not_on_roster"]
    assert len(read_log(path).events) == 2


def test_the_note_of_the_writer_stays(write: At, path: Path) -> None:
    """What the writer noted stands before what was overridden."""
    write.enter("850 h goal 17 note the net was off", override=["other_side"])
    note = read_log(path).events[-1].note
    assert note is not None
    assert note.startswith("the net was off; written although: ")


def test_what_was_wrong_before_is_not_said_again(write: At) -> None:
    """Only what is new with the entry is its warning."""
    write.enter("850 h goal 17", override=["other_side"])
    assert write.preview("830 stop")["warnings"] == []


def test_the_example_game_is_entered_without_a_single_warning(tmp_path: Path) -> None:
    """A well-kept game, event by event: nothing has to be overridden, so that a warning is heeded."""
    events = read_log(EXAMPLE).events
    path = tmp_path / "game.jsonl"
    path.write_bytes(log_bytes(events[:1]))
    live = LiveGame.of(read_log(path), rulesets.of(read_log(path)))
    before = live.game.findings
    for event in events[1:]:
        live.record(event)
        after = live.game.findings
        assert new_findings(before, after, event.seq).warnings == (), event
        before = after


def test_a_legal_game_is_entered_without_a_single_warning(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A random one, with doors, corrections and whatever the rules allow; the game here is that of its log."""
    monkeypatch.syspath_prepend(str(ROOT / "examples"))
    events = importlib.import_module("random_games").random_game(9, 3).events
    path = tmp_path / "game.jsonl"
    path.write_bytes(log_bytes(events[:1]))
    room = in_process(path)
    for event in events[1:]:
        game = room.table.game
        assert game is not None
        form = Form(print_entry(event, context_of(game)), room.table.version, new_id())
        assert room.desk.enter(ROLES[0], form)["seq"] == event.seq
    assert room.table.live is not None
    room.table.live._check()
    assert room.state(ROLES[0])["stage"] == "closed"


def test_what_is_asked_at_the_command_line_is_a_barrier_here(write: At, path: Path) -> None:
    """An entry that is taken back twice or skips a period is written when its writer says so, with a note."""
    assert write.enter("850 stop")["status"] == 200
    assert write.enter("void 3 wrong")["status"] == 200
    for entry, code in (("void 3", "already_voided"), ("8 0:30 a goal 17", "no_such_period")):
        answer = write.enter(entry)
        assert (answer["status"], code in [one["code"] for one in answer["warnings"]]) == (422, True)
        overridden = [one["code"] for one in answer["warnings"]]
        assert write.enter(entry, override=overridden)["status"] == 200
        assert f"({code})" in str(read_log(path).events[-1].note)


def test_a_shootout_in_a_game_that_goes_on(write: At) -> None:
    """It is asked about before it is written."""
    assert "shootout_too_early" in [one["code"] for one in write.preview("850 h so 9 scored")["warnings"]]
