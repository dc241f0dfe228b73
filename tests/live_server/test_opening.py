"""A game opened on the page: nothing that is missing blocks, nothing that is wrong is written."""

from __future__ import annotations

import errno
import json
import os
import shutil
from pathlib import Path
from typing import Any

import pytest
from live_server.desk import EXAMPLE, At, in_process, short_log

from rinkfold import rulesets
from rinkfold.cli.live.roster_text import read_lines
from rinkfold.timeline import read_log, replay
from rinkfold.timeline.record import log_bytes

FORM: dict[str, Any] = {
    "ruleset": "youth-10u",
    "settings": {"lengths.minor": "1:00", "overtime.skaters": "3"},
    "home": {
        "name": "Elm Otters",
        "short": "ELM",
        "colour": "",
        "roster": [
            {"number": "9", "name": "Ida Fernhollow", "letter": "C", "position": "", "status": "absent"},
            {"number": "31", "position": "goalkeeper"},
        ],
        "staff": [{"name": "Una Graymoor", "role": "coach"}],
    },
    "away": {"name": "Oak Badgers"},
    "date": "2026-11-28",
    "rink": "",
    "officials": {"referees": ["Jo Hale", ""], "linespersons": []},
    "goalies": {"home": "31", "away": None},
}


@pytest.fixture
def new(tmp_path: Path) -> At:
    """A server whose game is not opened yet."""
    return At(in_process(tmp_path / "new.jsonl"))


def test_a_game_that_is_not_there_is_opened_on_the_page(new: At) -> None:
    """The console leads to the opening; the state says that nothing is opened yet."""
    assert new.get("").headers["location"] == "opening"
    assert new.get("opening").status_code == 200
    state = new.state()
    assert (state["stage"], state["version"], state["file"]) == ("opening", 0, "new.jsonl")


def test_the_rulesets_are_offered_with_what_they_apply(new: At) -> None:
    """Each with the line to confirm, and the settings that leagues change most."""
    offered = new.get("api/opening").json()
    assert [one["name"] for one in offered["rulesets"]] == list(rulesets.names())
    assert all(one["applied"].startswith("minor ") for one in offered["rulesets"])
    assert offered["settings"][0] == {"name": "lengths.minor", "title": "minor", "value": "2:00", "values": []}
    assert (offered["opened"], offered["header"]) == (False, None)


def test_a_leagues_own_file_is_offered_first(tmp_path: Path) -> None:
    """As it was named when the page was started."""
    file = tmp_path / "league.toml"
    file.write_text('extends = "youth-12u"\ntitle = "Our league"\n[lengths]\nminor = "1:45"\n')
    room = in_process(tmp_path / "new.jsonl")
    room.own_ruleset = str(file)
    offered = At(room).get("api/opening").json()["rulesets"][0]
    assert (offered["name"], offered["title"]) == (str(file), "Our league")
    answer = At(room).post("api/opening/rules", {"ruleset": str(file)})
    assert answer.json()["applied"].startswith("minor 1:45")


def test_settings_change_the_line_to_be_confirmed(new: At) -> None:
    """As it will be applied; a setting that cannot be is told."""
    answer = new.post("api/opening/rules", {"ruleset": "youth-10u", "settings": FORM["settings"]}).json()
    assert answer["applied"] == "minor 1:00 · period 12:00 · board counts down · overtime 5:00, 3 on 3"
    wrong = new.post("api/opening/rules", {"ruleset": "youth-10u", "settings": {"lengths.minor": "soon"}})
    assert wrong.status_code == 422
    assert "lengths.minor" in json.dumps(wrong.json()["problems"])
    assert new.post("api/opening/rules", {"ruleset": "nobody"}).json()["problems"][0]["field"] == "ruleset"
    assert new.post("api/opening/rules", {"ruleset": "adult", "settings": []}).status_code == 200
    assert new.post("api/opening/rules", {"ruleset": "adult", "settings": "x"}).status_code == 400


def test_what_is_left_as_it_was_is_no_setting(new: At) -> None:
    """A form sends all its boxes; the log names only what differs from the ruleset."""
    settings = {"lengths.minor": "1:30", "overtime.skaters": "3", "game.periods": 3}
    form = {"ruleset": "youth-10u", "settings": settings, "home": {"name": "Elm"}, "away": {"name": "Oak"}}
    assert new.post("api/opening/open", form).status_code == 200
    assert read_log(new.room.table.path).header.settings == {"overtime.skaters": 3}
    assert new.state()["rules"]["overridden"] == "overtime.skaters 3"


def test_a_spoilt_ruleset_keeps_no_other_back(new: At, tmp_path: Path) -> None:
    """The file was changed since the page was started."""
    new.room.own_ruleset = str(tmp_path / "gone.toml")
    offered = new.get("api/opening").json()["rulesets"]
    assert [one["name"] for one in offered] == list(rulesets.names())


def test_a_game_by_a_file_that_is_not_to_choose_from_can_still_be_completed(new: At, tmp_path: Path) -> None:
    """The rules are pinned in its log: what the form has of them is as it was."""
    file = tmp_path / "league.toml"
    file.write_text('extends = "youth-12u"\n[lengths]\nminor = "1:45"\n')
    new.room.own_ruleset = str(file)
    form = {"ruleset": str(file), "home": {"name": "Elm"}, "away": {"name": "Oak"}}
    assert new.post("api/opening/open", form).status_code == 200
    new.room.own_ruleset = None
    shown = new.get("api/opening").json()
    settings = {one["name"]: one["value"] for one in shown["settings"]}
    later = {**shown["header"], "settings": settings, "rink": "North"}
    assert new.post("api/opening/open", later).status_code == 200
    log = read_log(new.room.table.path)
    assert getattr(log.events[1], "changes", None) == {"rink": "North"}


def test_what_is_missing_is_listed_and_blocks_nothing(new: At) -> None:
    """Two names and a ruleset are enough; the list says what a complete record needs."""
    bare = {"ruleset": "adult", "home": {"name": "Elm"}, "away": {"name": "Oak"}}
    checked = new.post("api/opening/check", bare).json()
    expected = ["the officials", *(f"the {team} roster" for team in ("home", "away"))]
    expected += [f"the {team} starting goalkeeper" for team in ("home", "away")]
    assert (checked["missing"], checked["problems"]) == (expected, [])
    assert not Path(new.room.table.path).exists()
    assert new.post("api/opening/open", bare).status_code == 200
    assert read_log(new.room.table.path).header.home.name == "Elm"


def test_the_opening_is_written_whole(new: At) -> None:
    """Teams, rosters, officials and the ruleset in the first line, and a line for each starter that was named."""
    assert new.post("api/opening/check", FORM).json()["missing"] == ["the away roster", "the away starting goalkeeper"]
    answer = new.post("api/opening/open", FORM)
    assert answer.status_code == 200, answer.text
    assert answer.json()["state"]["stage"] == "game"
    log = read_log(new.room.table.path)
    header = log.header
    assert (header.home.short, header.home.colour, header.rink, header.date) == ("ELM", None, None, "2026-11-28")
    assert [(one.number, one.letter, one.status) for one in header.home.roster or ()] == [
        ("9", "C", "absent"),
        ("31", None, None),
    ]
    assert header.officials is not None
    assert header.officials.referees == ("Jo Hale",)
    assert replay(log).rules.lengths.minor == 600
    assert [(event.kind, event.clock) for event in log.events[1:]] == [("goalie_change", "12:00")]
    assert log.chained


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"home": {"name": " "}}, "home.name"),
        ({"away": "Oak"}, "away.name"),
        ({"home": {"name": "Elm", "roster": [{"number": 9}]}}, "home.roster[0].number"),
        ({"home": {"name": "Elm", "roster": [{"number": "9", "letter": "X"}]}}, "home.roster[0].letter"),
        ({"home": {"name": "Elm", "born": "2014"}}, "home.born"),
        ({"officials": {"referees": "Jo"}}, "officials.referees"),
        ({"ruleset": "nobody"}, "ruleset"),
    ],
)
def test_what_is_wrong_is_told_with_its_place_and_nothing_is_written(
    new: At, wrong: dict[str, Any], field: str
) -> None:
    """In the check and in the opening alike."""
    form = {**FORM, **wrong}
    checked = new.post("api/opening/check", form).json()
    assert field in [one.get("field") for one in checked["problems"]]
    answer = new.post("api/opening/open", form)
    assert answer.status_code == 422
    assert field in [one.get("field") for one in answer.json()["problems"]]
    assert not Path(new.room.table.path).exists()


def test_an_opening_sent_again_writes_nothing(new: At) -> None:
    """Nothing differs from what is there."""
    new.post("api/opening/open", FORM)
    before = Path(new.room.table.path).read_bytes()
    assert new.post("api/opening/open", FORM).status_code == 200
    assert Path(new.room.table.path).read_bytes() == before


def test_what_comes_later_is_a_correction_of_the_first_line(new: At) -> None:
    """One entry with what differs, the rest as it was, and the other starter."""
    new.post("api/opening/open", FORM)
    away = {"name": "Oak Badgers", "roster": [{"number": "30", "position": "goalkeeper"}]}
    later = {**FORM, "settings": {"lengths.minor": "1:30"}, "away": away, "goalies": {"home": "31", "away": "30"}}
    assert new.post("api/opening/open", later).status_code == 200
    log = read_log(new.room.table.path)
    assert [event.kind for event in log.events[1:]] == ["goalie_change", "amend", "goalie_change"]
    changes = getattr(log.events[2], "changes", {})
    assert sorted(changes) == ["away", "pinned", "settings"]
    game = replay(log, rulesets.of(log))
    assert game.rules.lengths.minor == 900
    assert [one.number for one in game.header.away.roster or ()] == ["30"]
    assert new.state()["missing"] == []


def disk_is_full(*_: object) -> None:
    """What the writer gets from a drive that has no room."""
    raise OSError(errno.ENOSPC, "No space left on device")


def test_a_disk_that_is_full_before_the_first_line_leaves_no_file(new: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing was written, as the answer says; with room again the same form opens the game."""
    with monkeypatch.context() as disk:
        disk.setattr("rinkfold.timeline.record.writer.os.fsync", disk_is_full)
        answer = new.post("api/opening/open", FORM)
    assert (answer.status_code, answer.json()["code"], "opened" in answer.json()) == (503, "disk_full", False)
    assert not Path(new.room.table.path).exists()
    assert new.post("api/opening/open", FORM).status_code == 200


def test_a_disk_that_is_full_behind_the_first_line_is_told_as_it_is(new: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """The game is open and the answer says so; sent again, the form writes the starter and nothing else."""
    with monkeypatch.context() as disk:
        disk.setattr("rinkfold.timeline.record.writer._add", disk_is_full)
        answer = new.post("api/opening/open", FORM)
    told = answer.json()
    assert (answer.status_code, told["error"], told["code"], told["opened"]) == (503, "log_trouble", "disk_full", True)
    assert told["message"].startswith("The game is open, but the starting goalkeepers could not be written.")
    log = read_log(new.room.table.path)
    assert (len(log.events), log.notes, new.state()["stage"], new.state()["version"]) == (1, (), "game", 1)
    assert new.post("api/opening/open", FORM).status_code == 200
    assert [event.kind for event in read_log(new.room.table.path).events] == ["game_opened", "goalie_change"]


def test_what_completes_an_opening_is_written_whole_or_not_at_all(new: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """The correction and the starter are one write: full at the first or at the second, the log is as it was."""
    new.post("api/opening/open", FORM)
    path = Path(new.room.table.path)
    before = path.read_bytes()
    away = {"name": "Oak Badgers", "roster": [{"number": "30", "position": "goalkeeper"}]}
    later = {**FORM, "away": away, "goalies": {"home": "31", "away": "30"}}
    writes = iter([None, disk_is_full])
    real = os.fsync

    def full_at_the_second(number: int) -> None:
        (next(writes, None) or real)(number)

    with monkeypatch.context() as disk:
        disk.setattr("rinkfold.timeline.record.writer.os.fsync", full_at_the_second)
        assert new.post("api/opening/open", later).status_code == 200
    assert [event.kind for event in read_log(path).events[2:]] == ["amend", "goalie_change"]
    path.write_bytes(before)
    with monkeypatch.context() as disk:
        disk.setattr("rinkfold.timeline.record.writer.os.fsync", disk_is_full)
        answer = new.post("api/opening/open", later)
    assert (answer.status_code, "opened" in answer.json(), path.read_bytes()) == (503, False, before)


def test_another_page_may_have_opened_it(new: At) -> None:
    """A file that came meanwhile is never written over."""
    path = Path(new.room.table.path)
    path.write_bytes(short_log())
    before = path.read_bytes()
    form = {"ruleset": "youth-14u", "home": {"name": "Elm Otters"}, "away": {"name": "Oak Badgers"}}
    new.post("api/opening/open", form)
    assert path.read_bytes().startswith(before)


@pytest.mark.parametrize(
    ("line", "player"),
    [
        ("12 Pia Holm C", {"number": "12", "name": "Pia Holm", "letter": "C"}),
        ("#31 goalie", {"number": "31", "position": "goalkeeper"}),
        ("7, Remy Ash, D, A", {"number": "7", "name": "Remy Ash", "position": "defence", "letter": "A"}),
        ("Remy Ash\t7", {"number": "7", "name": "Remy Ash"}),
        ("00", {"number": "00"}),
        ("4. Ann-Kari O'Dell (A)", {"number": "4", "name": "Ann-Kari O'Dell", "letter": "A"}),
        ("11; Åse Čermák; absent", {"number": "11", "name": "Åse Čermák", "status": "absent"}),
        ("No. 5 - Bo Dahl - G", {"number": "5", "name": "Bo Dahl", "position": "goalkeeper"}),
        ("8 D", {"number": "8", "position": "defence"}),
    ],
)
def test_a_roster_line_is_read_as_people_write_it(line: str, player: dict[str, str]) -> None:
    """The number, the name, and what stands behind it."""
    assert read_lines(line) == ([player], [])


def test_lines_that_are_not_understood_keep_no_others_back(new: At) -> None:
    """The others are given, and for each of these what is wrong."""
    answer = new.post("api/opening/roster", {"text": "Home team\n12 Pia Holm\n\n12 Ann Bo\n9 Ida"}).json()
    assert [one["number"] for one in answer["players"]] == ["12", "9"]
    assert [(one["line"], one["text"]) for one in answer["problems"]] == [(1, "Home team"), (4, "12 Ann Bo")]
    assert "line 2" in answer["problems"][1]["message"]


def test_a_spreadsheet_is_pasted_with_its_heads(new: At) -> None:
    """The table that `rinkfold new` takes; heads that are none are told."""
    text = "number\tname\tposition\n9\tIda Fernhollow\tF\n31\tSol Wickham\tgoalie\n"
    answer = new.post("api/opening/roster", {"text": text}).json()
    assert [one.get("position") for one in answer["players"]] == ["forward", "goalkeeper"]
    wrong = new.post("api/opening/roster", {"text": "number,born\n9,2014\n"})
    assert (wrong.status_code, wrong.json()["problems"][0]["code"]) == (422, "roster_heads")
    assert new.post("api/opening/roster", {"text": 5}).status_code == 400


def test_a_roster_is_taken_from_a_former_game(new: At, tmp_path: Path) -> None:
    """As it stood at that game's end; who was absent plays again, who was suspended is still marked."""
    shutil.copy(EXAMPLE, tmp_path / "former.jsonl")
    (tmp_path / "notes.jsonl").write_text("no log\n")
    former = new.get("api/opening").json()["former"]
    assert [(one["file"], one["team"]) for one in former] == [
        ("former.jsonl", "Copperfell Pikes"),
        ("former.jsonl", "Larkmoor Lanterns"),
    ]
    team = new.post("api/opening/former", {"file": "former.jsonl", "team": "Larkmoor Lanterns"}).json()["team"]
    assert (team["short"], team["colour"]) == ("LAN", "green")
    assert {one.get("status") for one in team["roster"]} <= {None, "suspended"}
    assert len(team["roster"]) >= 17


@pytest.mark.parametrize("file", ["../former.jsonl", "/etc/passwd", "notes.jsonl", "", None, 5])
def test_no_other_file_is_read(new: At, file: object) -> None:
    """Only those that were listed."""
    assert new.post("api/opening/former", {"file": file, "team": "x"}).status_code == 404


def test_roster_changes_of_the_former_game_count(new: At, tmp_path: Path) -> None:
    """A new number and a late arrival."""
    path = tmp_path / "former.jsonl"
    path.write_bytes(short_log())
    at = At(in_process(path))
    for text in ("home roster 19 was 12", "home roster 44 name Kim Rask", "home roster 9 suspended"):
        assert at.enter(text)["status"] == 200
    team = new.post("api/opening/former", {"file": "former.jsonl", "team": "Elm Otters"}).json()["team"]
    found = {one["number"]: (one.get("name"), one.get("status")) for one in team["roster"]}
    assert found["19"] == ("Per Millbrook", None)
    assert found["44"] == ("Kim Rask", None)
    assert found["9"] == ("Ida Fernhollow", "suspended")
    assert "12" not in found


def test_the_whole_example_can_be_opened_here(new: At) -> None:
    """Its header as a form gives its header again."""
    header = read_log(EXAMPLE).header
    known = json.loads(log_bytes([header]).splitlines()[0])
    form = {name: known[name] for name in ("ruleset", "settings", "home", "away", "date", "officials") if name in known}
    assert new.post("api/opening/open", form).status_code == 200
    opened = read_log(new.room.table.path).header
    assert (opened.home, opened.away, opened.officials) == (header.home, header.away, header.officials)
