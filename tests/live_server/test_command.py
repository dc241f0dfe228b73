"""`rinkfold live`: what it serves, and where it says that it is."""

from __future__ import annotations

import socket
from datetime import date
from pathlib import Path

import pytest
from live_server.desk import PORT, At, in_process

from rinkfold.cli.live import addresses, serving
from rinkfold.cli.live.keys import ROLES, Role
from rinkfold.cli.main import app


def ran(*arguments: str) -> int | str | None:
    """The exit code."""
    with pytest.raises(SystemExit) as end:
        app(["live", *arguments])
    return end.value.code


@pytest.fixture
def wanted(monkeypatch: pytest.MonkeyPatch) -> list[serving.Wanted]:
    """What would be served; the server is quit at once."""
    asked: list[serving.Wanted] = []

    def serve(what: serving.Wanted) -> None:
        asked.append(what)
        raise KeyboardInterrupt

    monkeypatch.setattr(serving, "serve", serve)
    return asked


def test_without_a_name_the_log_is_called_by_the_day(wanted: list[serving.Wanted]) -> None:
    """Nobody has to think of a file name; only this computer is served, and the browser opened."""
    assert ran() == 130
    assert wanted == [serving.Wanted(path=f"game-{date.today().isoformat()}.jsonl")]


def test_every_option_arrives(wanted: list[serving.Wanted], tmp_path: Path) -> None:
    """As it was typed; the league's file is read before anything is served."""
    file = tmp_path / "league.toml"
    file.write_text('extends = "youth-12u"\n')
    options = ("--lan", "--port", "8000", "--no-browser", "--names", "--ruleset", str(file))
    assert ran("g.jsonl", *options) == 130
    assert wanted == [serving.Wanted(path="g.jsonl", lan=True, port=8000, browser=False, names=True, ruleset=str(file))]


def test_the_address_for_others_is_the_number_in_their_network(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not the number by which only this computer knows itself; without a network there is no other."""
    room = in_process(path, lan=True)
    monkeypatch.setattr(addresses, "_own_numbers", lambda: iter(["127.0.1.1", "0.0.0.0", "192.168.7.20"]))
    secret = room.keys.secret(ROLES[0])
    assert addresses.address(room, ROLES[0]) == f"http://192.168.7.20:{PORT}/{secret}/"
    monkeypatch.setattr(addresses, "_own_numbers", lambda: iter(["127.0.0.1"]))
    assert addresses.address(room, ROLES[0]) == f"http://127.0.0.1:{PORT}/{secret}/"


def test_without_the_network_it_is_this_computers(path: Path) -> None:
    """Whatever networks it is in."""
    room = in_process(path)
    assert addresses.address(room, ROLES[3]).startswith(f"http://127.0.0.1:{PORT}/")


def test_the_code_for_a_terminal_is_a_square(path: Path) -> None:
    """Two rows of it in a line of characters, each as wide as the others."""
    lines = addresses.qr_lines("http://192.168.7.20:8723/AAAAAAAAAAAAAAAAAAAAAA/")
    assert len({len(line) for line in lines}) == 1
    assert len(lines) * 2 in (len(lines[0]), len(lines[0]) + 1)


@pytest.mark.parametrize(("lan", "host"), [(False, "127.0.0.1"), (True, "0.0.0.0")])
def test_only_with_lan_other_computers_can_connect(monkeypatch: pytest.MonkeyPatch, lan: bool, host: str) -> None:
    """Without it the server listens where nothing from outside arrives."""
    bound: list[tuple[str, int]] = []

    def socket_at(host: str, port: int) -> socket.socket:
        bound.append((host, port))
        return socket.socket()

    monkeypatch.setattr(serving, "_socket_at", socket_at)
    serving._listening(serving.Wanted(path="g.jsonl", lan=lan), None).close()
    serving._listening(serving.Wanted(path="g.jsonl", lan=lan, port=9000), 8000).close()
    serving._listening(serving.Wanted(path="g.jsonl", lan=lan), 8000).close()
    assert bound == [(host, serving.FIRST_PORT), (host, 9000), (host, 8000)]


def test_in_the_network_it_answers_by_number_and_every_role_keeps_its_bounds(path: Path) -> None:
    """A tablet asks by the number that it scanned."""
    room = in_process(path, lan=True)
    reader = At(room, Role("read"))
    assert reader.get("api/state", host=f"192.168.7.20:{PORT}").json()["role"] == "read"
    assert reader.get("api/state", host=f"laptop.local:{PORT}").status_code == 403
    there = f"192.168.7.20:{PORT}"
    form = {"text": "home shot", "id": "entry-lan-1", "version": 2}
    assert reader.post("api/enter", form, host=there, origin=f"http://{there}").status_code == 403
    assert At(room).post("api/enter", form, host=there, origin=f"http://{there}").status_code == 200
