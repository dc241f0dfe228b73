"""The server as a program of its own, which can be killed."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any

import httpx2 as httpx
from interrupts import AS_IN_FRONT
from live_server.desk import new_id

SECONDS = 20


class Program:
    """`rinkfold live` over the log at `path`."""

    def __init__(self, path: Path, *options: str) -> None:
        self.path = path
        self.options = options
        self.process = self._started()
        self.addresses = self._addresses()
        self.client = self._client("write")

    def _started(self) -> subprocess.Popen[str]:
        command = [sys.executable, "-m", "rinkfold.cli.main", "live", str(self.path), "--no-browser", *self.options]
        return subprocess.Popen(
            command,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
            preexec_fn=AS_IN_FRONT,
        )

    def _addresses(self) -> Mapping[str, str]:
        """The addresses as they are printed, by what they are for."""
        assert self.process.stdout is not None
        found: dict[str, str] = {}
        title = ""
        for line in self.process.stdout:
            if match := re.fullmatch(r" {4}(http://\S+)\n", line):
                found[title] = match[1]
            elif line.startswith("  "):
                title = line.strip()
            if line.startswith("Ctrl-C"):
                return found
        raise AssertionError(self.process.stderr.read() if self.process.stderr else "")

    def _client(self, which: str) -> httpx.Client:
        url = next(url for title, url in self.addresses.items() if which in title)
        return httpx.Client(base_url=url, headers={"origin": url[: url.index("/", 8)]}, timeout=SECONDS)

    def page(self, which: str) -> httpx.Client:
        """Requests with the address whose title has `which` in it."""
        return self._client(which)

    @property
    def version(self) -> int:
        """How many events the server has."""
        return int(self.client.get("api/state").json()["version"])

    def form(self, text: str, version: int) -> dict[str, Any]:
        """An entry as a page sends it."""
        return {"text": text, "id": new_id(), "version": version, "override": []}

    @contextmanager
    def listening(self, which: str = "may write") -> Iterator[Iterator[str]]:
        """The lines that a listening page gets."""
        with self._client(which) as client, client.stream("GET", "api/events", timeout=SECONDS) as answer:
            yield answer.iter_lines()

    def kill(self) -> None:
        """End it at once, as a crash does."""
        self.process.kill()
        self.process.wait(SECONDS)

    def interrupt(self) -> int:
        """Press Ctrl-C; the exit code."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(SECONDS)

    def __enter__(self) -> Program:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.client.close()
        if self.process.poll() is None:
            self.kill()
        for pipe in (self.process.stdout, self.process.stderr):
            if pipe is not None:
                pipe.close()


def next_event(lines: Iterator[str], name: str) -> str:
    """The data of the next event called `name`."""
    for line in lines:
        if line == f"event: {name}":
            return next(lines).removeprefix("data: ")
    raise AssertionError(f"no {name}")
