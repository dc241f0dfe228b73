"""Appending in programs of their own: killed in the middle, at once with another, on a disk that is full."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from strategies import header

from rinkfold.timeline.events import Remark
from rinkfold.timeline.record import append, create, read_log

APPENDER = """
import sys
from rinkfold.timeline.events import Remark
from rinkfold.timeline.record import append
path, name, many = sys.argv[1:]
for number in range(int(many)):
    (made,) = append(path, [Remark(seq=0, text=f"{name} {number}")])
    print(made.seq, flush=True)
"""

ON_A_FULL_DISK = """
import resource, signal, sys
from pathlib import Path
from rinkfold.timeline.events import Remark
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append
path = sys.argv[1]
size = Path(path).stat().st_size
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (size + 40, size + 40))
try:
    append(path, [Remark(seq=0, text="x" * 100)])
except ProblemsFound as found:
    print([problem.code for problem in found.problems])
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "game.jsonl"
    create(made, header())
    return made


def program(text: str, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen([sys.executable, "-c", text, *arguments], stdout=subprocess.PIPE, text=True)


def test_two_programs_append_at_once(path: Path) -> None:
    """Every acknowledged event is there once, in its writer's order, and the chain holds."""
    names, each = ("a", "b"), 12
    programs = [program(APPENDER, str(path), name, str(each)) for name in names]
    acknowledged = [int(seq) for one in programs for seq in one.communicate(timeout=60)[0].split()]
    log = read_log(path)
    assert log.notes == ()
    assert sorted(acknowledged) == list(range(2, 2 + 2 * each))
    texts = [event.text for event in log.events if isinstance(event, Remark)]
    for name in names:
        assert [text for text in texts if text.startswith(name)] == [f"{name} {number}" for number in range(each)]


@pytest.mark.parametrize("after", [1, 5, 20])
def test_a_killed_program_loses_nothing_that_it_acknowledged(path: Path, after: int) -> None:
    """The log is readable at once, and the next append goes on."""
    writer = program(APPENDER, str(path), "a", "100000")
    assert writer.stdout is not None
    acknowledged = [int(writer.stdout.readline()) for _ in range(after)]
    writer.kill()
    writer.communicate(timeout=60)
    log = read_log(path)
    assert len(log.events) >= acknowledged[-1]
    append(path, [Remark(seq=0, text="after")])
    assert len(read_log(path).events) == len(log.events) + 1


@pytest.mark.skipif(sys.platform == "win32", reason="a limit on the size of files is set the POSIX way")
def test_a_full_disk_leaves_the_log_as_it_was(path: Path) -> None:
    """The system itself takes only a part of the line, and that part is taken back."""
    before = path.read_bytes()
    said, _ = program(ON_A_FULL_DISK, str(path)).communicate(timeout=60)
    assert said.strip() == "['disk_full']"
    assert path.read_bytes() == before
