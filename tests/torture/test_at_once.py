"""Several programs that append to one game at once."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from torture.games import started, texts

from rinkfold.timeline.record import read_log

LONG = pytest.mark.full


@pytest.mark.parametrize(
    ("programs", "entries"), [(2, 12), (4, 6), pytest.param(2, 200, marks=LONG), pytest.param(4, 100, marks=LONG)]
)
def test_programs_that_append_at_once_lose_nothing(programs: int, entries: int, path: Path) -> None:
    """Every entry is there once, whole and in one piece, in its writer's order; seq has no gaps and the chain holds."""
    before = path.read_bytes()
    names = "abcd"[:programs]
    running = [started("appending", path, name, entries) for name in names]
    for program in running:
        assert program.stdout is not None
        assert program.stdout.readline() == "ready\n"
    for program in running:
        assert program.stdin is not None
        program.stdin.write("go\n")
        program.stdin.flush()
    said = [program.communicate(timeout=100)[0].splitlines() for program in running]

    log = read_log(path)
    assert log.notes == ()
    assert path.read_bytes().startswith(before)
    assert [event.seq for event in log.events] == list(range(1, len(log.events) + 1))
    there = {event.seq: getattr(event, "text", None) for event in log.events}
    acknowledged: set[int] = set()
    for name, lines in zip(names, said, strict=True):
        assert len(lines) == entries
        for entry, line in enumerate(lines):
            seqs = [int(seq) for seq in line.split()]
            assert seqs == list(range(seqs[0], seqs[0] + 1 + entry % 3))
            assert [there[seq] for seq in seqs] == [f"{name} {entry} {part}" for part in range(len(seqs))]
            assert acknowledged.isdisjoint(seqs)
            acknowledged.update(seqs)
    assert acknowledged == set(range(7, len(log.events) + 1))
    assert _took_turns(path)


def _took_turns(path: Path) -> bool:
    """Whether the programs really worked at the same time: at least one came between two entries of another."""
    writers = [writer for writer, _ in itertools.groupby(text[0] for text in texts(path) if text[1:2] == " ")]
    return len(writers) > len(set(writers))
