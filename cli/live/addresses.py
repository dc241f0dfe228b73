"""The addresses of the server: for this computer, or for the rink's network, as text and as QR codes."""

from __future__ import annotations

import contextlib
import io
import socket
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from .keys import ROLES, Role

if TYPE_CHECKING:
    from .room import Room

__all__ = ["TITLES", "address", "address_list", "lan_address", "qr_lines", "qr_svg"]

TITLES: Mapping[str, str] = {
    "write": "clock and record, may write",
    "door-home": "home box, may write doors",
    "door-away": "away box, may write doors",
    "read": "reading only",
}

_ANYWHERE = ("10.255.255.255", 9)
"""An address of no network in particular; asking for the way there sends nothing."""


def lan_address() -> str | None:
    """This computer's number in the network it is in; None if it is in none."""
    return next((number for number in _own_numbers() if not number.startswith(("127.", "0."))), None)


def _own_numbers() -> Iterator[str]:
    """The number on the way out, then those that the computer's own name stands for, where there is no way out."""
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect(_ANYWHERE)
        yield str(probe.getsockname()[0])
    with contextlib.suppress(OSError):
        yield from socket.gethostbyname_ex(socket.gethostname())[2]


def address(room: Room, role: Role) -> str:
    """The address that gives `role`."""
    host = (lan_address() if room.door.lan else None) or "127.0.0.1"
    return f"http://{host}:{room.door.port}/{room.keys.secret(role)}/"


def address_list(room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """``{"lan", "addresses": [{"which", "title", "url", "qr"}]}``."""
    return {
        "lan": room.door.lan,
        "addresses": [
            {"which": one.which, "title": TITLES[one.which], "url": address(room, one), "qr": f"api/qr/{one.which}.svg"}
            for one in ROLES
        ],
    }


def qr_svg(room: Room, role: Role) -> bytes:
    """The address as a QR code, a picture of its own."""
    import segno

    out = io.BytesIO()
    segno.make_qr(address(room, role)).save(out, kind="svg", scale=8, border=4, light="#fff", dark="#000")
    return out.getvalue()


def qr_lines(text: str) -> list[str]:
    """`text` as a QR code of characters, for a terminal."""
    import segno

    out = io.StringIO()
    segno.make_qr(text).terminal(out, compact=True, border=2)
    return out.getvalue().splitlines()
