"""The secrets in the addresses: one for each role, all made from one key.

The key lies in a file beside the log while the server runs. A server that was killed finds it there and takes it up
again, so that the pages which are open go on; one that is quit removes it, and its addresses are worth nothing.
"""

from __future__ import annotations

import base64
import contextlib
import hmac
import json
import os
import secrets
from collections.abc import Iterable
from pathlib import Path
from typing import Any, Literal

from attrs import frozen

from ...timeline.events import Team

__all__ = ["ROLES", "KeyFile", "Keys", "Role", "RoleName"]

RoleName = Literal["write", "door", "read"]
KEY_BYTES = 32
SECRET_BYTES = 16
MOST_PORT = 65_535


@frozen
class Role:
    """What an address lets its bearer do.

    Attributes:
        name: ``write`` is the clock and the record, ``door`` one box, ``read`` looks on.
        side: whose box, for a door.
    """

    name: RoleName
    side: Team | None = None

    @property
    def which(self) -> str:
        """The role in one word: ``"write"``, ``"door-home"``, ``"door-away"``, ``"read"``."""
        return self.name if self.side is None else f"{self.name}-{self.side}"


ROLES = (Role("write"), Role("door", "home"), Role("door", "away"), Role("read"))


@frozen
class Keys:
    """The secrets of all roles."""

    key: bytes

    def secret(self, role: Role) -> str:
        """The secret of `role`, as it stands in the address."""
        digest = hmac.digest(self.key, role.which.encode(), "sha256")[:SECRET_BYTES]
        return base64.urlsafe_b64encode(digest).rstrip(b"=").decode()

    def role_of(self, secret: str) -> Role | None:
        """The role that `secret` gives; compared with each in constant time."""
        offered = secret.encode("utf-8", "replace")
        found = None
        for role in ROLES:
            if hmac.compare_digest(self.secret(role).encode(), offered):
                found = role
        return found


@frozen
class KeyFile:
    """The file beside the log in which a running server keeps its key and its port, and notes what it is writing.

    Its first line has the key; each other line is a note.
    """

    path: Path

    @classmethod
    def beside(cls, log: str | os.PathLike[str]) -> KeyFile:
        """The file for `log`: its own name with ``.live`` behind it."""
        return cls(Path(f"{os.path.realpath(log)}.live"))

    def read(self) -> tuple[Keys, int | None]:
        """The key and the port of a server that did not end by itself; a new key and no port where there is none."""
        with contextlib.suppress(IndexError, ValueError, KeyError, TypeError):
            kept = self._lines()[0]
            key, port = bytes.fromhex(kept["key"]), kept["port"]
            if len(key) == KEY_BYTES and type(port) is int and 0 < port <= MOST_PORT:
                return Keys(key), port
        return Keys(secrets.token_bytes(KEY_BYTES)), None

    def notes(self) -> list[Any]:
        """The notes of such a server, in the order written."""
        return self._lines()[1:]

    def _lines(self) -> list[Any]:
        """Every line that is whole."""
        found = []
        with contextlib.suppress(OSError, ValueError, RecursionError):
            for line in self.path.read_text(encoding="utf-8").splitlines():
                found.append(json.loads(line))
        return found

    def write(self, keys: Keys, port: int, notes: Iterable[Any] = ()) -> None:
        """Keep `keys`, `port` and `notes`, readable for the owner alone."""
        lines = [{"key": keys.key.hex(), "port": port}, *notes]
        self.remove()
        number = os.open(self.path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with open(number, "w", encoding="utf-8") as file:
            file.writelines(f"{json.dumps(line)}\n" for line in lines)

    def note(self, note: Any) -> None:
        """Add a note. It outlives the program, though not the loss of power; without room for it there is none."""
        with contextlib.suppress(OSError), self.path.open("a", encoding="utf-8") as file:
            file.write(f"{json.dumps(note)}\n")

    def remove(self) -> None:
        """Forget everything."""
        with contextlib.suppress(FileNotFoundError):
            self.path.unlink()
