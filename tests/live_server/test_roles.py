"""The roles: what each may write and what each is shown. The server decides, not the page."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from attrs import evolve
from live_server import desk
from live_server.desk import NAMES, At, in_process, new_id

from rinkfold.cli.live.keys import ROLES, Role
from rinkfold.timeline.events import TeamSheet
from rinkfold.timeline.record import log_bytes, read_log

DOOR = "720 home door 12 open"


@pytest.mark.parametrize("name", ["api/enter", "api/preview", "api/clock", "api/opening/open", "api/opening/roster"])
def test_a_reader_writes_nothing(at: Callable[..., At], path: Path, name: str) -> None:
    """Whatever is sent, and be it right."""
    body = {"text": "home shot", "id": new_id(), "version": 2, "do": "start"}
    answer = at("read").post(name, body)
    assert (answer.status_code, answer.json()["error"]) == (403, "not_allowed")
    assert len(read_log(path).events) == 2


@pytest.mark.parametrize("name", ["api/setup", "api/signoff", "api/opening", "api/addresses"])
def test_a_reader_is_not_told_what_writers_need(at: Callable[..., At], name: str) -> None:
    """Rosters, the sign-off, the addresses."""
    assert at("read").get(name).status_code == 403


def test_a_door_writes_that_it_opened(at: Callable[..., At], path: Path) -> None:
    """Its one entry, with whose door it was; no warning keeps it from being written but one that is seen."""
    door = at("door", "home")
    answer = door.enter(DOOR)
    assert (answer["status"], [one["code"] for one in answer["warnings"]]) == (422, ["door_early"])
    assert door.enter(DOOR, override=["door_early"])["status"] == 200
    last = read_log(path).events[-1]
    assert (last.kind, last.by) == ("penalty_ended", "home door")


def test_a_door_takes_back_what_it_wrote_and_nothing_else(at: Callable[..., At]) -> None:
    """`undo` after its own entry; not after somebody else's."""
    door = at("door", "home")
    assert door.post("api/enter", {"text": "undo", "id": new_id(), "version": 2}).status_code == 403
    door.enter(DOOR, override=["door_early"])
    assert door.enter("undo")["status"] == 200


@pytest.mark.parametrize(
    "text",
    [
        "home shot",
        "720 h ruling 12",
        "720 away door 12 open",
        "850 a goal 17",
        "void 2 x",
        "amend 2 player 9",
        "close played",
    ],
)
@pytest.mark.parametrize("name", ["api/enter", "api/preview"])
def test_a_door_writes_nothing_else(at: Callable[..., At], path: Path, text: str, name: str) -> None:
    """No shot, no ruling, no correction, and not the other side's door."""
    answer = at("door", "home").post(name, {"text": text, "id": new_id(), "version": 2})
    assert answer.status_code in ((403,) if "away" not in text else (403, 422, 200))
    if answer.status_code == 200:  # not understood: nobody sits there
        assert not answer.json()["ok"]
    assert len(read_log(path).events) == 2


def test_the_other_door_does_not_open_this_box(at: Callable[..., At], path: Path) -> None:
    """A door is one side's."""
    answer = at("door", "away").post("api/enter", {"text": DOOR, "id": new_id(), "version": 2})
    assert answer.status_code == 403
    assert len(read_log(path).events) == 2


def fill_with_names(write: At) -> Iterator[str]:
    """Names in all places that can hold them, one entry at a time."""
    for text in (
        "remark Per Millbrook argued",
        "905 stop Ida Fernhollow hurt",
        '900 home penalty staff "Una Graymoor" game misconduct',
        "home roster 44 name Sol Wickham",
        "void 3 Tor Lindqvale said so",
        "amend 2 note Ida Fernhollow",
        'home figures shots 8 source "sheet of Tor Lindqvale"',
        '600 away penalty 17 minor hooking rule "as Sol Wickham read it" note "Per Millbrook"',
        '550 away timeout by "Una Graymoor" note "Ida Fernhollow"',
        "550 clock 551 Sol Wickham said so",
    ):
        assert write.enter(text, override=["not_playing", "cannot_serve"])["status"] == 200, text
        yield text


@pytest.mark.parametrize(("name", "side"), [("read", None), ("door", "home"), ("door", "away")])
def test_names_are_shown_to_the_writer_alone(at: Callable[..., At], name: str, side: str | None) -> None:
    """In the state, the horn, the words for completing and the page itself there are numbers only."""
    write, page = at("write"), at(name, side)
    for text in fill_with_names(write):
        shown = [page.get(asked).text for asked in ("api/state", "api/horn", "api/setup", "")]
        assert not [one for one in NAMES if any(one in each for each in shown)], text
    for one in NAMES:
        assert one in json.dumps([write.state(), write.get("api/setup").json()])


def test_a_spoilt_file_is_not_quoted_to_others(at: Callable[..., At], path: Path) -> None:
    """The writer is told what stands in it; a reader and a door only that something is wrong."""
    with path.open("ab") as file:
        file.write(b'{"seq": 3, "kind": "shot", "period": 2, "team": "Per Millbrook"}\n')
    at("write").room.table.refresh()
    assert "Per Millbrook" in at("write").state()["trouble"]["message"]
    for name, side in (("read", None), ("door", "home")):
        state = at(name, side).state()
        assert state["trouble"]["message"] == "The record cannot be read just now."
        assert "Millbrook" not in json.dumps(state)
    answer = at("door", "home").enter("720 home door 12 open")
    assert (answer["error"], answer["message"]) == ("log_trouble", "The record cannot be written just now.")


def test_names_are_shown_to_all_where_that_is_wanted(path: Path) -> None:
    """`--names`."""
    room = in_process(path, names=True)
    write = At(room)
    write.enter("remark Per Millbrook argued")
    assert "Millbrook" in json.dumps(At(room, Role("read")).state())


def test_findings_and_the_file_are_for_the_writer(at: Callable[..., At]) -> None:
    """Others are shown the game, not the work on it."""
    state = at("read").state()
    assert (state["findings"], state["missing"], state["file"], state["head_code"]) == ([], [], None, None)
    assert at("write").state()["missing"] == [
        "the officials",
        "the home starting goalkeeper",
        "the away starting goalkeeper",
    ]


def test_each_role_has_its_pages(at: Callable[..., At]) -> None:
    """The writer's pages are nobody else's."""
    for page in ("", "opening", "signoff", "addresses"):
        assert at("write").get(page).status_code == 200, page
        assert at("door", "home").get(page).status_code == (200 if page == "" else 404)
        assert at("read").get(page).status_code == (200 if page == "" else 404)


def test_a_hostile_name_is_text_on_every_page(path: Path) -> None:
    """Markup in a team's name stays text, also within the state that a page begins with, and nothing turns it round."""
    header = evolve(desk.header(), home=TeamSheet(name="</script><b>Elm", short="\u202emlE</title>"))
    path.write_bytes(log_bytes([header]))
    room = in_process(path)
    pages = [At(room).get(page).text for page in ("", "opening", "signoff", "addresses")]
    pages += [At(room, role).get("").text for role in ROLES[1:]]
    assert len(pages) == 7
    for text in pages:
        assert "</script><b>" not in text
        assert "mlE</title>" not in text
        assert "\u202e" not in text
