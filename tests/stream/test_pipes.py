"""The program in a process of its own: pipes, ends, long lines, slow readers, and a log on the disk."""

from __future__ import annotations

import contextlib
import io
import json
import os
import select
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from stream.pipes import POSIX, hear, say, started
from stream.talking import COMMAND, EXAMPLE, MINOR, OPENING, answers, codes, goal, ran, sent

from rinkfold.cli.main import app
from rinkfold.cli.streaming.lines import LONGEST, lines_of

# -- whole runs


def test_a_whole_game_through_the_pipe() -> None:
    """One answer a line, in order, each one line of ASCII; nothing on standard error; exit code 0."""
    data = EXAMPLE.read_bytes()
    run = ran(data + b'{"ask": "summary"}\n')
    assert (run.returncode, run.stderr) == (0, b"")
    assert run.stdout.isascii()
    told = answers(run.stdout)
    assert [answer["line"] for answer in told] == list(range(1, len(data.splitlines()) + 2))
    assert [answer.get("seq") for answer in told[:-1]] == list(range(1, len(told)))
    assert (told[-1]["final"]["home"], told[-1]["final"]["away"]) == (5, 4)


def test_errors_stand_on_their_line_and_the_stream_goes_on() -> None:
    """Whatever the answers were, the end of the input is the end, exit code 0."""
    run = ran(sent([OPENING, b"nonsense", b"", b"\xff", MINOR]))
    told = answers(run.stdout)
    assert (run.returncode, [answer["line"] for answer in told]) == (0, [1, 2, 3, 4, 5])
    assert [codes(answer) for answer in told[1:4]] == [["not_json"], ["empty_line"], ["not_utf8"]]
    assert (told[4]["seq"], run.stderr) == (2, b"")


def test_no_input_no_answer() -> None:
    """An empty input and a standard input that is closed both end at once."""
    assert (ran(b"").returncode, ran(b"").stdout) == (0, b"")
    with started(stdin=subprocess.DEVNULL) as program:
        assert program.communicate(timeout=60) == (b"", b"")
        assert program.returncode == 0


@POSIX
def test_started_without_a_standard_input() -> None:
    """Closed before the program began."""
    run = subprocess.run(["sh", "-c", 'exec "$@" <&-', "sh", *COMMAND], capture_output=True, timeout=60)
    assert (run.returncode, run.stdout, run.stderr) == (0, b"", b"")


def test_carriage_returns_do_no_harm() -> None:
    """Lines of a program on Windows."""
    run = ran(sent([OPENING, {"ask": "now"}]).replace(b"\n", b"\r\n"))
    assert ["problems" in answer for answer in answers(run.stdout)] == [False, False]


@pytest.mark.parametrize(("last", "right"), [(json.dumps(MINOR).encode(), True), (b'{"kind": "goal", "per', False)])
def test_a_last_line_without_its_newline(last: bytes, right: bool) -> None:
    """A whole one is taken in; half of one is a problem and never half an event."""
    told = answers(ran(sent([OPENING]) + last).stdout)
    assert len(told) == 2
    assert ("problems" not in told[1]) is right


def test_wrong_usage() -> None:
    """Exit code 2 and no answer for an option that is not there, a file that is no log, a folder that is not there."""
    for arguments in (
        ("--lgo", "g.jsonl"),
        ("g.jsonl",),
        ("--log", str(EXAMPLE.with_name("README.md"))),
        ("--log", "/no/such/folder/g.jsonl"),
    ):
        run = ran(sent([OPENING]), *arguments)
        assert (run.returncode, run.stdout) == (2, b""), arguments
        assert b"Traceback" not in run.stderr
        assert run.stderr


# -- lines


@pytest.mark.parametrize("end", [b"\n", b""])
def test_lines_at_the_bound(end: bytes) -> None:
    """A line of exactly so many bytes is a line; one more is too many, and what follows is read as usual."""
    fits, too_long = b"a" * 10, b"b" * 11
    assert list(lines_of(io.BytesIO(fits + b"\n" + fits + end), 10)) == [fits, fits]
    assert list(lines_of(io.BytesIO(too_long + b"\n" + fits + end), 10)) == [None, fits]
    assert list(lines_of(io.BytesIO(fits + b"\n" + too_long * 100000 + end), 10)) == [fits, None]
    assert list(lines_of(io.BytesIO(b"\n\n" + end), 10)) == ([b"", b"", b""] if end else [b"", b""])


def test_a_very_long_line() -> None:
    """Is answered as too long on its own number; a line of the greatest length is taken in."""
    remark = {"kind": "remark", "text": ""}
    greatest = json.dumps(remark | {"text": "x" * (LONGEST - len(json.dumps(remark)))}).encode()
    assert len(greatest) == LONGEST
    run = ran(sent([OPENING, greatest + b" ", greatest, {"ask": "now"}]))
    told = answers(run.stdout)
    assert (run.returncode, [answer["line"] for answer in told]) == (0, [1, 2, 3, 4])
    assert codes(told[1]) == ["line_too_long"]
    assert told[2]["seq"] == 2


def memory_kb(program: subprocess.Popen[bytes], kind: str) -> int:
    """How much memory the program has or had at most, in kB."""
    text = Path(f"/proc/{program.pid}/status").read_text()
    return next(int(line.split()[1]) for line in text.splitlines() if line.startswith(kind))


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="needs /proc to see another process's memory")
def test_an_endless_line_takes_no_memory() -> None:
    """Of 64 MiB without a newline nothing is kept."""
    with started() as program:
        say(program, sent([OPENING]))
        hear(program)
        before = memory_kb(program, "VmRSS")
        for _ in range(64):
            say(program, b"x" * 1024 * 1024)
        say(program, b"\n")
        assert codes(hear(program)) == ["line_too_long"]
        assert memory_kb(program, "VmHWM") - before < 16 * 1024


def test_a_part_of_a_line_waits() -> None:
    """Until its newline comes there is no answer, and then there is one."""
    with started() as program:
        line = sent([OPENING])
        say(program, line[:20])
        assert program.stdout is not None
        if os.name != "nt":
            assert select.select([program.stdout], [], [], 0.5)[0] == []
        say(program, line[20:])
        assert hear(program)["seq"] == 1


def test_each_answer_comes_before_the_next_line_is_sent() -> None:
    """Nothing waits in a buffer for more."""
    with started() as program:
        for number, line in enumerate([OPENING, MINOR, goal("8:50"), {"ask": "now"}], 1):
            say(program, sent([line]))
            assert hear(program)["line"] == number


@POSIX
def test_a_reader_who_does_not_read_stops_the_writer() -> None:
    """Back pressure: soon nothing more is taken, memory stays as it is, and later every answer comes in order."""
    with started() as program:
        assert program.stdin is not None
        assert program.stdout is not None
        say(program, sent([OPENING]))
        hear(program)
        os.set_blocking(program.stdin.fileno(), False)
        question = b'{"ask": "box"}\n'
        accepted = fill(program.stdin.fileno(), question * 1000)
        assert accepted < 4 * 1024 * 1024
        assert fill(program.stdin.fileno(), question) == 0
        os.set_blocking(program.stdin.fileno(), True)
        whole, rest = divmod(accepted, len(question))
        reader = Hearing(program)
        reader.start()
        say(program, question[rest:] if rest else b"")
        program.stdin.close()
        reader.join(60)
        assert reader.numbers == list(range(2, 2 + whole + (1 if rest else 0)))
        assert program.wait(60) == 0


class Hearing(threading.Thread):
    """Hears everything that the program has still to say."""

    def __init__(self, program: subprocess.Popen[bytes]) -> None:
        super().__init__(daemon=True)
        self.program = program
        self.numbers: list[int] = []

    def run(self) -> None:
        assert self.program.stdout is not None
        self.numbers += [json.loads(line)["line"] for line in self.program.stdout]


def fill(pipe: int, data: bytes) -> int:
    """Write until nothing has been taken for two seconds; how many bytes were."""
    accepted, since = 0, time.monotonic()
    while time.monotonic() - since < 2 and accepted < 8 * 1024 * 1024:
        try:
            accepted += os.write(pipe, data[accepted % len(data) :] if accepted % len(data) else data)
            since = time.monotonic()
        except BlockingIOError:
            time.sleep(0.01)
    return accepted


# -- ends


@POSIX
def test_nobody_reads_the_answers() -> None:
    """The program ends without a word, exit code 0, and takes nothing more in."""
    with started() as program:
        say(program, sent([OPENING]))
        hear(program)
        assert program.stdout is not None
        program.stdout.close()
        say(program, sent([MINOR]))
        with contextlib.suppress(BrokenPipeError):
            say(program, sent([MINOR]) * 10000)
        assert program.wait(60) == 0
        assert program.stderr is not None
        assert program.stderr.read() == b""
        with contextlib.suppress(BrokenPipeError):
            assert program.stdin is not None
            program.stdin.close()


@POSIX
def test_interrupted() -> None:
    """Ctrl-C: exit code 130, a word, no traceback."""
    with started() as program:
        say(program, sent([OPENING]))
        hear(program)
        program.send_signal(signal.SIGINT)
        assert program.wait(60) == 130
        assert program.stderr is not None
        assert program.stderr.read() == b"Interrupted.\n"


def test_a_terminal_is_told_what_is_expected(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """On standard error, so that answers stay answers."""

    class Terminal:
        buffer = io.BytesIO(sent([OPENING]))

        @staticmethod
        def isatty() -> bool:
            return True

    monkeypatch.setattr(sys, "stdin", Terminal())
    with pytest.raises(SystemExit) as end:
        app(["stream"])
    told = capsys.readouterr()
    assert (end.value.code, json.loads(told.out)["seq"]) == (0, 1)
    assert told.err == "Reads JSON lines from standard input, and ends with it.\n"


def test_a_disk_that_is_full(tmp_path: Path) -> None:
    """Answers that cannot be written are an error, not a reader who has gone."""
    if not Path("/dev/full").exists():
        pytest.skip("needs /dev/full, a disk that is always full")
    with Path("/dev/full").open("wb") as full:
        run = subprocess.run([*COMMAND], input=sent([OPENING]), stdout=full, stderr=subprocess.PIPE, timeout=60)
    assert run.returncode == 2
    assert b"The answer cannot be written" in run.stderr
