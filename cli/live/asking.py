"""What pages may ask for, by name: who may, and what answers. Requests that change something are `WRITES`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import frozen
from starlette.responses import Response

from .addresses import address_list, qr_svg
from .answers import Refusal
from .completing import setup
from .entering import Form
from .horn import horn, open_game_of
from .keys import ROLES, Role
from .opening import check_opening, former_team, open_game, opening, roster_of, rules_of
from .present import present_entry
from .room import Room
from .signing import signoff

__all__ = ["READS", "WRITES", "Ask", "picture_of_address"]

Body = Mapping[str, Any]
ALL = frozenset({"write", "door", "read"})
TABLE = frozenset({"write", "door"})
WRITER = frozenset({"write"})


@frozen
class Ask:
    """One thing to be asked for."""

    work: Callable[[Room, Role, Body], dict[str, Any]]
    roles: frozenset[str] = WRITER


def _state(room: Room, role: Role, body: Body) -> dict[str, Any]:
    return room.state(role)


def _preview(room: Room, role: Role, body: Body) -> dict[str, Any]:
    return room.desk.preview(role, _text(body, "text"))


def _enter(room: Room, role: Role, body: Body) -> dict[str, Any]:
    return {**room.desk.enter(role, Form.of(body)), "state": room.state(role)}


def _clock(room: Room, role: Role, body: Body) -> dict[str, Any]:
    room.desk.move_clock(open_game_of(room), body)
    room.hub.ring()
    return {"clock": room.clock(), "stamp": sum(room.stamps())}


def _text(body: Body, name: str) -> str:
    value = body.get(name, "")
    if not isinstance(value, str):
        raise Refusal(400, "bad_request", f"Expected a text as {name!r}.", "Reload the page.")
    return value


READS: Mapping[str, Ask] = {
    "state": Ask(_state, ALL),
    "setup": Ask(setup, TABLE),
    "horn": Ask(horn, ALL),
    "signoff": Ask(signoff),
    "entry": Ask(present_entry),
    "opening": Ask(opening),
    "addresses": Ask(address_list),
}

WRITES: Mapping[str, Ask] = {
    "preview": Ask(_preview, TABLE),
    "enter": Ask(_enter, TABLE),
    "clock": Ask(_clock),
    "opening/rules": Ask(rules_of),
    "opening/roster": Ask(roster_of),
    "opening/former": Ask(former_team),
    "opening/check": Ask(check_opening),
    "opening/open": Ask(open_game),
}


def picture_of_address(room: Room, role: Role, name: str) -> Response:
    """The QR code of an address, for the writer."""
    which = name.removesuffix(".svg")
    wanted = next((one for one in ROLES if one.which == which), None)
    if role.name != "write" or wanted is None or not name.endswith(".svg"):
        raise Refusal(404, "not_found", "There is nothing at this address.")
    return Response(qr_svg(room, wanted), media_type="image/svg+xml")
