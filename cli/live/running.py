"""Whether the live page of a game is open already: a second command leads to it instead of starting another."""

from __future__ import annotations

import contextlib
import http.client
import json

from .keys import ROLES, Keys

__all__ = ["running_address"]

SECONDS = 2.0


def running_address(keys: Keys, port: int | None) -> str | None:
    """The writer's address of the server that noted `keys` and `port`, if it still answers; else None."""
    if port is None:
        return None
    path = f"/{keys.secret(ROLES[0])}/"
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)
    with contextlib.closing(connection), contextlib.suppress(OSError, ValueError, http.client.HTTPException):
        connection.request("GET", f"{path}api/state")
        answer = connection.getresponse()
        if answer.status == 200 and json.loads(answer.read()).get("role") == "write":
            return f"http://127.0.0.1:{port}{path}"
    return None
