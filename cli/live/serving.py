"""The server itself: a free port, the addresses in the terminal, and an end that loses nothing."""

from __future__ import annotations

import contextlib
import errno
import logging
import os
import socket
import sys
import threading
from pathlib import Path
from types import FrameType

import uvicorn
from attrs import frozen

from ...timeline.problems import ProblemsFound
from ..errors import refuse
from ..paper import complain, say
from .addresses import TITLES, address, qr_lines
from .app import application
from .connections import FROM_OTHERS, Counted, bounded
from .ending import told_to_end
from .keys import ROLES, KeyFile
from .repeats import Repeats
from .room import Room
from .running import running_address
from .security import Door
from .table import Table

__all__ = ["Wanted", "serve"]

FIRST_PORT = 8723
PORTS = range(FIRST_PORT, FIRST_PORT + 10)
BACKLOG = 128
CONNECTIONS = FROM_OTHERS + 100
"""Open connections, those of this computer among them; beyond that a request is told to come again later."""
HEADER_BYTES = 16 * 1024
SECONDS_TO_END = 2
SECONDS_KEPT = 75


@frozen(kw_only=True)
class Wanted:
    """How the server is to be run.

    Attributes:
        port: None for any that is free.
        names: readers and doors are shown names too.
    """

    path: str
    lan: bool = False
    port: int | None = None
    browser: bool = True
    names: bool = False
    ruleset: str | None = None


def serve(wanted: Wanted) -> None:
    """Serve the live page until it is told to end; where it is served already, lead there.

    Raises:
        ProblemsFound: the log cannot be read, or the port is taken.
        KeyboardInterrupt: it was served, and has been quit, with Ctrl-C or otherwise.
    """
    if not Path(wanted.path).resolve().parent.is_dir():
        refuse("no_folder", "The folder for the log is not there.", "Look for a wrong name.", file=wanted.path)
    table = Table(wanted.path)
    key_file = KeyFile.beside(wanted.path)
    keys, last_port = key_file.read()
    if (there := running_address(keys, last_port)) is not None:
        _lead_to(there, wanted)
        return
    listening = _listening(wanted, last_port)
    port = listening.getsockname()[1]
    room = Room(table, keys, Door(wanted.lan, port), names_for_all=wanted.names, own_ruleset=wanted.ruleset)
    room.desk.repeats = Repeats.kept_in(key_file)
    server = _Server(room, browser=wanted.browser)
    with told_to_end(server.end):
        try:
            key_file.write(keys, port, room.desk.repeats.notes)
            server.run(sockets=[listening])
        except ProblemsFound:  # the addresses could not be said
            key_file.remove()
            raise
        except KeyboardInterrupt:
            pass
        key_file.remove()
    with contextlib.suppress(ProblemsFound):  # the terminal was closed
        complain(f"\nQuit. Everything that was acknowledged is in {wanted.path}.")
    raise KeyboardInterrupt


def _lead_to(address: str, wanted: Wanted) -> None:
    """Show the page that is served already."""
    if wanted.lan or wanted.port is not None:
        fix = "Quit it first with Ctrl-C in its terminal."
        refuse("open_already", f"The live page of this game is open already, at {address}", fix)
    say([f"The live page of this game is open already: {address}"])
    if wanted.browser:
        _open_browser(address)


def _listening(wanted: Wanted, last_port: int | None) -> socket.socket:
    """The socket to listen at: the port that was asked for, the one of a server that was killed, or a free one."""
    host = "0.0.0.0" if wanted.lan else "127.0.0.1"
    if wanted.port is not None:
        return _bound(host, wanted.port)
    for port in (*([last_port] if last_port else []), *PORTS):
        with contextlib.suppress(OSError):
            return _socket_at(host, port)
    return _bound(host, 0)


def _bound(host: str, port: int) -> socket.socket:
    if not 0 <= port <= 65535:
        refuse("bad_port", f"--port {port}: a port is a number up to 65535.", f"For example --port {FIRST_PORT}.")
    try:
        return _socket_at(host, port)
    except OSError as error:
        if error.errno == errno.EACCES:
            refuse("port_denied", f"Port {port} is not for everybody.", "Choose one from 1024 up, or leave out --port.")
        fix = "Choose another, or leave out --port: a free one is taken. Is the live page open already?"
        refuse("port_in_use", f"Port {port} is taken by another program.", fix)


def _socket_at(host: str, port: int) -> socket.socket:
    """A socket bound to `port`.

    Raises:
        OSError: it is taken.
    """
    # Named as TCP, asyncio sends small answers at once; else the system holds back the second half for 40 ms.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        if os.name == "posix":  # a port whose connections have only just ended is free
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        else:  # Windows would let two programs have one port
            listening.setsockopt(socket.SOL_SOCKET, getattr(socket, "SO_EXCLUSIVEADDRUSE", ~socket.SO_REUSEADDR), 1)
        listening.bind((host, port))
        listening.listen()
    except BaseException:
        listening.close()
        raise
    return listening


class _Server(uvicorn.Server):
    """Uvicorn, told to be quiet and to send the listeners home before it ends."""

    def __init__(self, room: Room, *, browser: bool) -> None:
        logging.getLogger("uvicorn").setLevel(logging.CRITICAL + 1)
        super().__init__(
            uvicorn.Config(
                application(room),
                http=bounded(Counted()),
                ws="none",
                log_config=None,
                access_log=False,
                proxy_headers=False,
                server_header=False,
                limit_concurrency=CONNECTIONS,
                backlog=BACKLOG,
                h11_max_incomplete_event_size=HEADER_BYTES,
                timeout_keep_alive=SECONDS_KEPT,
                timeout_graceful_shutdown=SECONDS_TO_END,
            )
        )
        self._room = room
        self._browser = browser

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        say(_greeting(self._room))
        if self._browser:
            threading.Thread(target=_open_browser, args=(address(self._room, ROLES[0]),), daemon=True).start()

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        self._room.hub.close()
        super().handle_exit(sig, frame)

    def end(self) -> None:
        """Send the listeners home, then end."""
        self._room.hub.close()
        self.should_exit = True


def _open_browser(url: str) -> None:
    import webbrowser

    with contextlib.suppress(webbrowser.Error, OSError):
        webbrowser.open(url)


def _greeting(room: Room) -> list[str]:
    """The addresses, in the network as codes to be scanned too, and how to end it."""
    name = room.table.file_name
    what = f"The live page of {name}" if room.table.live is not None else f"A page to open {name}"
    lines = [f"{what}. Each address gives another view:", ""]
    for role in ROLES:
        lines += [f"  {TITLES[role.which]}", f"    {address(room, role)}"]
        if room.door.lan and role.side is None and sys.stdout is not None and sys.stdout.isatty():
            lines += ["", *(f"    {line}" for line in qr_lines(address(room, role)))]
        lines += [""]
    if room.door.lan:
        lines += [
            "Whoever is in this network and has an address sees what it shows. Give the first to nobody",
            "who should not write. The network is not encrypted: use one that you know.",
        ]
    else:
        lines += ["They work on this computer alone; with --lan in the rink's network too."]
    return [*lines, "Ctrl-C quits; whatever the page acknowledged is in the file."]
