"""The server as a program of its own: killed, cut off, flooded, quit."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx2 as httpx
import pytest
from live_server.program import SECONDS, Program, next_event

from rinkfold.timeline.record import read_log

posix = pytest.mark.skipif(os.name != "posix", reason="needs a system on which one program can be sent Ctrl-C")


def test_what_was_acknowledged_before_a_kill_is_in_the_file(program: Program, path: Path) -> None:
    """Killed while entries come in as fast as they can: each acknowledged one is there, and the file is whole."""
    acknowledged: list[int] = []
    version = program.version

    def enter() -> None:
        nonlocal version
        while True:
            try:
                answer = program.client.post("api/enter", json=program.form("home shot", version))
            except httpx.TransportError:
                return
            if answer.status_code == 200:
                acknowledged.append(answer.json()["seq"])
                version = answer.json()["state"]["version"]
            else:
                time.sleep(0.05)

    writer = threading.Thread(target=enter)
    writer.start()
    for _ in range(2_000):
        if len(acknowledged) >= 10:
            break
        time.sleep(0.01)
    program.kill()
    writer.join()
    log = read_log(path)
    assert len(acknowledged) >= 10
    assert acknowledged == list(range(3, 3 + len(acknowledged)))
    assert len(log.events) - acknowledged[-1] in (0, 1)  # one more may be on the disk, and its answer lost
    assert log.notes == ()


def test_a_torn_line_is_set_aside_and_nothing_is_lost(path: Path) -> None:
    """What a crash in the middle of a line leaves: it is not counted, and kept beside the log with the next entry."""
    with path.open("ab") as file:
        file.write(b'{"seq": 3, "kind": "sh')
    with Program(path) as program:
        assert program.version == 2
        assert program.client.post("api/enter", json=program.form("home shot", 2)).status_code == 200
    assert [event.kind for event in read_log(path).events[2:]] == ["shot"]
    assert Path(f"{path}.torn-1").read_bytes() == b'{"seq": 3, "kind": "sh'


def free_port() -> int:
    """A port that nobody else is likely to take meanwhile."""
    with socket.create_server(("127.0.0.1", 0)) as probe:
        return int(probe.getsockname()[1])


def test_after_a_crash_the_same_addresses_go_on(path: Path) -> None:
    """A page that was open finds the server again; what it sends again because no answer came is not written twice."""
    with Program(path, "--port", str(free_port())) as program:
        form = program.form("home shot", 2)
        assert program.client.post("api/enter", json=form).json()["seq"] == 3
        program.kill()
    with Program(path) as again:
        assert again.addresses == program.addresses
        answer = again.client.post("api/enter", json=form).json()
        assert (answer["seq"], answer["replayed"], again.version) == (3, True, 3)


def ended_for_good(program: Program, path: Path) -> None:
    """It said so, left no key behind, and the next one has other secrets."""
    assert program.process.stderr is not None
    assert program.process.stderr.read() == f"\nQuit. Everything that was acknowledged is in {path}.\n"
    assert not Path(f"{path}.live").exists()
    with Program(path) as again:
        assert not set(again.addresses.values()) & set(program.addresses.values())


@posix
def test_after_quitting_the_old_addresses_are_worth_nothing(program: Program, path: Path) -> None:
    """Ctrl-C: exit code 130, the key is gone, and a new start has other secrets."""
    assert program.interrupt() == 130
    ended_for_good(program, path)


@posix
@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP"])
def test_told_to_end_it_ends_as_with_ctrl_c(program: Program, path: Path, name: str) -> None:
    """By the system, or because its window was closed: who listens is told goodbye, and the key is gone."""
    with program.listening() as lines:
        next_event(lines, "state")
        program.process.send_signal(getattr(signal, name))
        assert next_event(lines, "bye") == "{}"
    assert program.process.wait(SECONDS) == 130
    ended_for_good(program, path)


@posix
def test_a_window_that_is_closed_leaves_no_key(path: Path) -> None:
    """Its terminal is gone, so that nothing can be said any more; that keeps nothing from being cleaned up."""
    import fcntl
    import pty
    import termios

    def in_its_own_window() -> None:
        fcntl.ioctl(0, termios.TIOCSCTTY, 0)

    ours, its = pty.openpty()
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser"]
    process = subprocess.Popen(
        command, stdin=its, stdout=its, stderr=its, start_new_session=True, preexec_fn=in_its_own_window
    )
    os.close(its)
    printed = b""
    while b"Ctrl-C quits" not in printed:
        printed += os.read(ours, 4096)
    assert Path(f"{path}.live").exists()
    os.close(ours)
    assert process.wait(SECONDS) == 130
    assert not Path(f"{path}.live").exists()


@posix
def test_what_it_was_started_to_ignore_it_ignores(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As under `nohup`: it goes on without its window."""
    monkeypatch.setattr("live_server.program.AS_IN_FRONT", lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN))
    with Program(path) as program:
        program.process.send_signal(signal.SIGHUP)
        time.sleep(0.5)
        assert program.version == 2


@posix
def test_quitting_does_not_wait_for_those_who_listen(program: Program) -> None:
    """A page that listens is told goodbye, and the program ends at once."""
    with program.listening() as lines:
        next_event(lines, "state")
        assert program.interrupt() == 130
        assert next_event(lines, "bye") == "{}"


def test_a_page_is_sent_what_another_enters(program: Program) -> None:
    """The clock, a door and a reader listen; one enters; each gets the new state, and a reader no names."""
    with (
        program.listening("may write") as one,
        program.listening("home box") as two,
        program.listening("reading") as three,
    ):
        everybody = (one, two, three)
        assert [json.loads(next_event(lines, "state"))["version"] for lines in everybody] == [2, 2, 2]
        program.client.post("api/enter", json=program.form("850 a goal 17", 2))
        states = [json.loads(next_event(lines, "state")) for lines in everybody]
    assert [(state["version"], state["score"]["away"]) for state in states] == [(3, 1)] * 3
    assert [state["role"] for state in states] == ["write", "door", "read"]


def test_what_a_terminal_records_comes_to_the_pages(program: Program, path: Path) -> None:
    """`rinkfold record` while the page is open."""
    with program.listening() as lines:
        next_event(lines, "state")
        command = [sys.executable, "-m", "rinkfold.cli.main", "record", str(path), "850 away goal 17"]
        subprocess.run(command, check=True, capture_output=True)
        state = json.loads(next_event(lines, "state"))
    assert (state["version"], state["notice"]) == (3, "One entry came from another program.")


def test_a_listener_that_was_cut_off_is_forgotten_and_can_come_again(program: Program) -> None:
    """Forty readers may listen; those whose connection was cut make room for others."""
    for _ in range(3):
        sockets = []
        url = httpx.URL(next(url for title, url in program.addresses.items() if "reading" in title))
        for _ in range(30):
            cut = socket.create_connection((url.host, url.port))
            cut.sendall(f"GET {url.path}api/events HTTP/1.1\r\nHost: {url.host}:{url.port}\r\n\r\n".encode())
            assert cut.recv(12) == b"HTTP/1.1 200"
            sockets.append(cut)
        for cut in sockets:
            cut.close()
        program.client.post("api/enter", json=program.form("home shot", program.version))
        time.sleep(0.5)
    with program.listening("reading") as lines:
        assert json.loads(next_event(lines, "state"))["version"] == 5


def test_two_writers_at_once_lose_nothing(program: Program, path: Path) -> None:
    """Both enter as fast as they can; who is late is told so and sends again; every entry is there once."""

    def enter(team: str) -> list[int]:
        seqs = []
        with program.page("may write") as page:
            version = program.version
            for _ in range(15):
                form = program.form(f"{team} shot", version)
                while (answer := page.post("api/enter", json=form)).status_code != 200:
                    assert answer.status_code in (409, 429), answer.text
                    form["version"] = answer.json().get("version", form["version"])
                seqs.append(answer.json()["seq"])
                version = answer.json()["state"]["version"]
        return seqs

    with ThreadPoolExecutor() as pool:
        home, away = pool.map(enter, ("home", "away"))
    assert sorted([*home, *away]) == list(range(3, 33))
    teams = Counter(getattr(event, "team", None) for event in read_log(path).events[2:])
    assert teams == {"home": 15, "away": 15}


def test_a_thousand_entries_a_second_neither_lose_nor_hang(program: Program, path: Path) -> None:
    """A flood from many connections: what is acknowledged is in the file; the rest is refused; a page is answered."""
    statuses: Counter[int] = Counter()
    seqs: list[int] = []

    def flood(_: int) -> None:
        with program.page("may write") as page:
            for _ in range(50):
                answer = page.post("api/enter", json=program.form("home shot", 2 + len(seqs)))
                statuses[answer.status_code] += 1
                if answer.status_code == 200:
                    seqs.append(answer.json()["seq"])

    with ThreadPoolExecutor(20) as pool:
        list(pool.map(flood, range(20)))
    assert sum(statuses.values()) == 1000
    assert set(statuses) <= {200, 409, 429}
    assert statuses[429] > 0
    with program.page("reading") as page:
        state = page.get("api/state").json()
    assert sorted(seqs) == list(range(3, 3 + len(seqs)))
    assert state["version"] == 2 + len(seqs) == len(read_log(path).events)


def test_requests_that_do_not_arrive_keep_nobody_waiting(program: Program) -> None:
    """A door sends the heads of thirty entries and the rest never: the writer writes on."""
    url = httpx.URL(next(url for title, url in program.addresses.items() if "home box" in title))
    head = (
        f"POST {url.path}api/preview HTTP/1.1\r\nHost: {url.host}:{url.port}\r\nOrigin: http://{url.host}:{url.port}\r\n"
        "Content-Type: application/json\r\nContent-Length: 50\r\n\r\n{"
    )
    held = []
    for _ in range(30):
        held.append(socket.create_connection((url.host, url.port)))
        held[-1].sendall(head.encode())
    time.sleep(0.5)
    assert program.client.post("api/enter", json=program.form("home shot", 2)).status_code == 200
    for one in held:
        one.close()


def test_an_entry_of_ten_megabytes_is_refused_at_once(program: Program, path: Path) -> None:
    """Nothing of it is kept, and the server goes on."""
    url = httpx.URL(next(iter(program.addresses.values())))
    head = (
        f"POST {url.path}api/enter HTTP/1.1\r\nHost: {url.host}:{url.port}\r\nOrigin: http://{url.host}:{url.port}\r\n"
        "Content-Type: application/json\r\n"
    )
    for length in ("Content-Length: 10000000\r\n\r\n", "Transfer-Encoding: chunked\r\n\r\n"):
        with socket.create_connection((url.host, url.port)) as sender:
            sender.sendall((head + length).encode())
            if "chunked" in length:
                sender.sendall(b"20000\r\n" + b"x" * 0x20000 + b"\r\n")
            assert sender.recv(12) == b"HTTP/1.1 413"
    assert program.client.post("api/enter", json=program.form("home shot", 2)).status_code == 200


def test_a_second_command_leads_to_the_page_that_is_open(program: Program, path: Path) -> None:
    """It says the address and ends; the first goes on. With other options it is told to be quit first."""
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser"]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=20)
    assert (ran.returncode, ran.stderr) == (0, "")
    url = next(iter(program.addresses.values()))
    assert ran.stdout == f"The live page of this game is open already: {url}\n"
    ran = subprocess.run([*command, "--lan"], capture_output=True, text=True, timeout=20)
    assert ran.returncode == 2
    assert ran.stderr.startswith(f"The live page of this game is open already, at {url}")
    assert program.version == 2


def test_a_port_that_is_taken_is_told(path: Path) -> None:
    """Exit code 2 and what to do; the other program is left alone."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser", "--port", str(port)]
        ran = subprocess.run(command, capture_output=True, text=True, timeout=20)
    assert ran.returncode == 2
    assert ran.stderr.startswith(f"Port {port} is taken by another program. Choose another, or leave out --port")
    assert not Path(f"{path}.live").exists()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--port", "x"], "--port 'x' is no number."),
        (["--port", "70000"], "--port 70000: a port is a number up to 65535."),
        (["--ruleset", "nothing.toml"], "nothing.toml"),
    ],
)
def test_wrong_options_are_told(path: Path, options: list[str], said: str) -> None:
    """Exit code 2 and one line that says what is wrong."""
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser", *options]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=20)
    assert ran.returncode == 2
    assert said in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a file that is always full")
def test_addresses_that_cannot_be_said_leave_no_key(path: Path) -> None:
    """Exit code 2 and why; nothing is served, so nothing is to go on with."""
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser"]
    with open("/dev/full", "w") as full:
        ran = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, timeout=20)
    assert (ran.returncode, ran.stderr) == (2, "The answer cannot be written: No space left on device.\n")
    assert not Path(f"{path}.live").exists()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    """Before anything is served; no folder is made."""
    path = tmp_path / "nowhere" / "game.jsonl"
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser"]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=20)
    assert (ran.returncode, ran.stderr) == (2, f"{path}: The folder for the log is not there. Look for a wrong name.\n")
    assert not path.parent.exists()


@pytest.mark.parametrize("content", [b"", b"hello\n", b'{"seq": 1}\n', b"\xff\xfe"])
def test_a_file_that_is_no_log_is_told_and_left_alone(path: Path, content: bytes) -> None:
    """Exit code 2, as in every other command."""
    path.write_bytes(content)
    command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(path), "--no-browser"]
    ran = subprocess.run(command, capture_output=True, text=True, timeout=20)
    assert ran.returncode == 2
    assert str(path) in ran.stderr
    assert "Traceback" not in ran.stderr
    assert path.read_bytes() == content
