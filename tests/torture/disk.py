"""A folder on a disk with a cache: when the power is cut, what was not synced may be lost.

The files are real. Beside them stands what of them is on the disk for certain: the bytes that a file had when it was
last synced, and the names that the folder had when *it* was. Every call that the writer makes is a moment at which the
power may be cut; from then on each further call fails, so that no tidying up happens either.
"""

from __future__ import annotations

import builtins
import itertools
import operator
import os
import random
from collections.abc import Callable
from pathlib import Path
from typing import IO, Any

import pytest

from rinkfold.timeline.record import writer

__all__ = ["KEEPS", "Disk", "PowerCut"]

Keep = Callable[[bytes, bytes, random.Random], bytes]
"""What is left of a file, from the bytes that are certain, those it had, and chance."""


class PowerCut(BaseException):
    """The laptop is off: nothing that runs in it sees to anything any more."""


def only_synced(certain: bytes, _: bytes, __: random.Random) -> bytes:
    return certain


def everything(_: bytes, had: bytes, __: random.Random) -> bytes:
    return had


def a_part(certain: bytes, had: bytes, chance: random.Random) -> bytes:
    """The beginning of what was not synced."""
    same = sum(1 for _ in itertools.takewhile(operator.truth, map(operator.eq, certain, had)))
    return had[: chance.randint(same, len(had))]


def zeros(certain: bytes, had: bytes, chance: random.Random) -> bytes:
    """The length of the file reached the disk and its last bytes did not."""
    part = a_part(certain, had, chance)
    return part + bytes(len(had) - len(part))


KEEPS: dict[str, Keep] = {keep.__name__: keep for keep in (only_synced, everything, a_part, zeros)}


class Disk:
    """The disk that holds `folder`, with the power cut at the call number `last` (from 1), or never.

    Attributes:
        calls: what was done, in order: "write", "truncate", "sync", each with the file's name.
    """

    def __init__(self, folder: Path, patch: pytest.MonkeyPatch, last: int | None = None) -> None:
        self.folder = folder
        self.last = last
        self.calls: list[str] = []
        self.on = True
        self.certain = {file.stat().st_ino: file.read_bytes() for file in self._files()}
        self.names = {file.name: file.stat().st_ino for file in self._files()}
        self._sync = os.fsync
        patch.setattr(writer, "open", self._open, raising=False)
        patch.setattr(os, "fsync", self.sync)

    def _files(self) -> list[Path]:
        return [file for file in sorted(self.folder.iterdir()) if not file.name.endswith(".lock")]

    def call(self, what: str) -> None:
        """Note a call.

        Raises:
            PowerCut: it is the one in which the power is cut, or a later one.
        """
        if not self.on:
            raise PowerCut
        self.calls.append(what)
        if len(self.calls) == self.last:
            self.on = False
            raise PowerCut

    def _open(self, path: Path, mode: str, **how: Any) -> File:
        self.call(f"open {Path(path).name}")
        file = builtins.open(path, mode, **how)  # noqa: SIM115  # the writer closes it
        if "x" in mode:
            self.certain[os.fstat(file.fileno()).st_ino] = b""
        return File(file, self, Path(path).name)

    def sync(self, number: int) -> None:
        """In place of `os.fsync`: note that the file's bytes, or the folder's names, are on the disk."""
        found = os.fstat(number).st_ino
        if found == self.folder.stat().st_ino:
            self.call("sync folder")
            self.names = {file.name: file.stat().st_ino for file in self._files()}
            return
        (synced,) = [file for file in self._files() if file.stat().st_ino == found]
        self.call(f"sync {synced.name}")
        self.certain[found] = synced.read_bytes()

    def not_certain(self) -> set[str]:
        """The names of the files of which something would be lost now."""
        return {
            file.name
            for file in self._files()
            if self.names.get(file.name) != file.stat().st_ino or self.certain[file.stat().st_ino] != file.read_bytes()
        }

    def start_again(self, keep: Keep, chance: random.Random) -> None:
        """Leave in the folder what a power cut leaves of it."""
        for file in self._files():
            number = file.stat().st_ino
            left = keep(self.certain[number], file.read_bytes(), chance)
            if self.names.get(file.name) == number or keep is everything:
                file.write_bytes(left)
            else:
                file.unlink()


class File:
    """A file on a `Disk`."""

    def __init__(self, file: IO[Any], disk: Disk, name: str) -> None:
        self.file = file
        self.disk = disk
        self.name = name

    def __enter__(self) -> File:
        return self

    def __exit__(self, *_: object) -> None:
        self.file.close()

    def write(self, data: bytes) -> int:
        try:
            self.disk.call(f"write {self.name}")
        except PowerCut:
            self.file.write(data[: len(data) // 2])
            raise
        return self.file.write(data)

    def truncate(self, size: int) -> int:
        self.disk.call(f"truncate {self.name}")
        return self.file.truncate(size)

    def __getattr__(self, name: str) -> Any:
        return getattr(self.file, name)
