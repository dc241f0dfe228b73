"""The program in a process of its own, talked to line by line."""

from __future__ import annotations

import contextlib
import json
import os
import subprocess
from collections.abc import Iterator
from typing import Any

import pytest
from interrupts import AS_IN_FRONT
from stream.talking import COMMAND

POSIX = pytest.mark.skipif(os.name == "nt", reason="Windows has neither these pipes nor these signals")


@contextlib.contextmanager
def started(*arguments: str, **more: Any) -> Iterator[subprocess.Popen[bytes]]:
    """The program, running; whatever happens it does not outlive the test."""
    pipes: dict[str, Any] = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen([*COMMAND, *arguments], **(pipes | more), preexec_fn=AS_IN_FRONT) as program:
        try:
            yield program
        finally:
            program.kill()


def say(program: subprocess.Popen[bytes], data: bytes) -> None:
    assert program.stdin is not None
    program.stdin.write(data)
    program.stdin.flush()


def hear(program: subprocess.Popen[bytes]) -> dict[str, Any]:
    """The next answer."""
    assert program.stdout is not None
    answer: dict[str, Any] = json.loads(program.stdout.readline())
    return answer
