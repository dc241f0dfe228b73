"""Appends in child processes that are killed at random moments: ``python -m torture.killing LOG APPENDS SEED``.

A child prints an acknowledgement after each append, into a pipe. The parent kills it and looks at the file before the
next child begins. At the end it prints what was acknowledged and what was seen, as JSON.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import time
import traceback
from pathlib import Path
from typing import BinaryIO, NoReturn

from attrs import asdict, define

from rinkfold.timeline.events import Remark
from rinkfold.timeline.record import append, parse_log, writer

APPENDS_A_LIFE = 6
"""How long a child lives at the most, in appends; on the slow disk one takes as long as many."""


@define
class Seen:
    """What happened.

    Attributes:
        acknowledged: the seq and the text of each append that was.
        attempts: how many appends were begun, as far as their children could tell.
        kills: how many children were killed.
        torn: how many of them left a torn tail that was not there before.
        tail: the torn tail that is there now.
        whole: how many left a whole line that they could not acknowledge any more.
    """

    acknowledged: list[tuple[int, str]]
    attempts: int = 0
    kills: int = 0
    torn: int = 0
    tail: bytes = b""
    whole: int = 0


def write_slowly(file: BinaryIO, data: bytes) -> None:
    """Write `data` a few bytes at a time, as a disk does that is about to fail; the order is the writer's own."""
    for start in range(0, len(data), 16):
        file.write(data[start : start + 16])
        time.sleep(0.0001)
    os.fsync(file.fileno())


def child(path: str, name: str, slowly: bool, out: int) -> NoReturn:
    """Append until killed, and acknowledge each event after it was appended."""
    if slowly:
        writer._write = write_slowly
    try:
        for number in range(1_000_000):
            text = f"{name}.{number}"
            os.write(out, f"begin {text}\n".encode())
            (made,) = append(path, [Remark(seq=0, text=text)])
            os.write(out, f"done {made.seq} {text}\n".encode())
    except BaseException:
        os.write(out, b"failed " + ascii(traceback.format_exc()).encode() + b"\n")
    os._exit(1)


def killed(path: str, name: str, most: float, chance: random.Random) -> list[list[str]]:
    """What a child said that lived for up to `most` seconds, word by word."""
    incoming, outgoing = os.pipe()
    slowly, seconds = chance.random() < 0.5, chance.uniform(0, most)
    pid = os.fork()
    if pid == 0:
        os.close(incoming)
        child(path, name, slowly, outgoing)
    os.close(outgoing)
    with open(incoming, "rb") as said:
        first = said.readline()  # it has begun
        time.sleep(seconds)
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        lines = [first, *said]
    return [line.decode().split(" ", 2) for line in lines]


def look(path: str, before: bytes, said: list[list[str]], seen: Seen) -> bytes:
    """Check the log after a kill; its bytes without a torn tail."""
    assert not any(words[0] == "failed" for words in said), said
    done = [(int(words[1]), words[2].strip()) for words in said if words[0] == "done"]
    data = Path(path).read_bytes()
    log = parse_log(data, path)
    notes = [note.code for note in log.notes]
    whole = data[: data.rindex(b"\n") + 1] if "torn_tail" in notes else data
    assert set(notes) <= {"torn_tail"}, notes
    assert whole.startswith(before), "an earlier line was changed"
    added = [(event.seq, event.text) for event in parse_log(whole).events if isinstance(event, Remark)]
    new = added[len(seen.acknowledged) + seen.whole :]
    assert new[: len(done)] == done, (new, done)
    assert len(new) <= len(done) + 1, (new, done)
    seen.acknowledged += done
    seen.attempts += sum(words[0] == "begin" for words in said)
    seen.kills += 1
    torn = data[len(whole) :]
    seen.torn += torn not in (b"", seen.tail)
    seen.tail = torn
    seen.whole += len(new) - len(done)
    return whole


def warmed_up(path: str, seen: Seen) -> float:
    """The seconds that an append takes, in the parent: children then begin with everything loaded."""
    append(path, [])
    began = time.perf_counter()
    for number in range(5):
        (made,) = append(path, [Remark(seq=0, text=f"before any kill {number}")])
        seen.acknowledged.append((made.seq, f"before any kill {number}"))
    return (time.perf_counter() - began) / 5


def main(path: str, appends: str, seed: str) -> None:
    """Kill until `appends` appends were begun."""
    chance, seen = random.Random(int(seed)), Seen([])
    most = APPENDS_A_LIFE * warmed_up(path, seen)
    before = Path(path).read_bytes()
    while seen.attempts < int(appends):
        before = look(path, before, killed(path, str(seen.kills), most, chance), seen)
    print(json.dumps(asdict(seen, filter=lambda field, _: field.name != "tail")))


if __name__ == "__main__":
    main(*sys.argv[1:])
