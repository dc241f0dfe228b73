"""Whether the live page of a game is open already: a second command leads to it instead of starting another."""

from __future__ import annotations

import contextlib
import http.client
import json

from .keys import ROLES, Keys

__all__ = ["running_address"]

SECONDS = 2.0
MOST_BYTES = 4 * 1024 * 1024
"""Of an answer; the state of a long game has a hundredth of that."""


def running_address(keys: Keys, port: int | None) -> str | None:
    """The writer's address of the server that noted `keys` and `port`, if it still answers; else None."""
    if port is None:
        return None
    path = f"/{keys.secret(ROLES[0])}/"
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
    with contextlib.closing(connection), contextlib.suppress(OSError, http.client.HTTPException):
        connection.request("GET", f"{path}api/state")
        answer = connection.getresponse()
        if answer.status == 200 and _is_for_the_writer(answer.read(MOST_BYTES)):
            return f"http://127.0.0.1:{port}{path}"
    return None


def _is_for_the_writer(body: bytes) -> bool:
    """Whether `body` is a state as this server gives it; at the port there may be any other program by now."""
    try:
        state = json.loads(body)
    except (ValueError, RecursionError):
        return False
    return isinstance(state, dict) and state.get("role") == "write"
