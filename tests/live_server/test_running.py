"""Whether a server of this game is running already: what answers at its port may be another program."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from rinkfold.cli.live.keys import ROLES, Keys
from rinkfold.cli.live.running import running_address

KEYS = Keys(b"k" * 32)


@contextmanager
def answering(status: int, body: bytes) -> Iterator[tuple[int, list[str]]]:
    """A server that answers everything so: its port, and the paths that it was asked for."""
    asked: list[str] = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_response(status)
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, format: str, *args: object) -> None:
            pass

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
        yield server.server_address[1], asked
        server.shutdown()


def test_the_server_of_this_game_is_found() -> None:
    """It knows the writer's secret: the address is that of the person at the clock."""
    with answering(200, b'{"ok": true, "role": "write"}') as (port, asked):
        secret = KEYS.secret(ROLES[0])
        assert running_address(KEYS, port) == f"http://127.0.0.1:{port}/{secret}/"
        assert asked == [f"/{secret}/api/state"]


@pytest.mark.parametrize(
    ("status", "body"),
    [
        (200, b'{"ok": true, "role": "read"}'),
        (200, b'{"ok": true}'),
        (200, b"{}"),
        (200, b"[]"),
        (200, b"null"),
        (200, b'"write"'),
        (200, b"<html>Welcome</html>"),
        (200, b""),
        (200, b"\xff\xfe"),
        (200, b"[" * 100_000),
        (404, b'{"ok": false, "error": "not_found"}'),
        (404, b'{"ok": true, "role": "write"}'),
    ],
)
def test_another_program_at_the_port_is_not_taken_for_it(status: int, body: bytes) -> None:
    """A port that was free for a while belongs to somebody else: whatever is there, a new server is started."""
    with answering(status, body) as (port, _):
        assert running_address(KEYS, port) is None


def test_nobody_at_the_port_is_no_server() -> None:
    """It was killed; or there never was one."""
    with answering(200, b"") as (port, _):
        pass
    assert running_address(KEYS, port) is None
    assert running_address(KEYS, None) is None
