"""Logs from the vocabulary with noise in their bytes; `torture.fuzz` does the same for many more."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from torture import fuzz, reading
from torture.games import short_game
from torture.noise import KINDS_OF_NOISE

from rinkfold.timeline.events import Event
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import Log, log_bytes, parse_log


@given(fuzz.closable_logs(most=5), st.booleans(), st.integers(0, 2**32))
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_spoilt_log_is_refused_or_shows_it(events: tuple[Event, ...], chained: bool, seed: int) -> None:
    """No crash, no hang, no silent acceptance; and what is read can be appended to."""
    tally = fuzz.Tally()
    fuzz.spoil(events, chained, seed, 8, tally)
    assert tally.files == 8


@pytest.mark.parametrize("name", KINDS_OF_NOISE)
def test_each_kind_of_noise_spoils(name: str) -> None:
    """It changes the bytes of a log, if not each time."""
    data = log_bytes(short_game())
    assert any(KINDS_OF_NOISE[name](data, random.Random(seed)) != data for seed in range(5))


def silent(data: bytes, name: str = "") -> Log:
    """A reader that leaves out a last line that it cannot read, and says nothing."""
    lines = data.splitlines(keepends=True)
    while True:
        try:
            return parse_log(b"".join(lines), name)
        except ProblemsFound:
            if len(lines) <= 1:
                raise
            lines.pop()


def slow(data: bytes, name: str = "") -> Log:
    while True:
        pass


def crashing(data: bytes, name: str = "") -> Log:
    return parse_log(data.decode().encode(), name)


@pytest.mark.parametrize(
    ("reader", "said"), [(silent, "AssertionError"), (slow, "TooSlow"), (crashing, "UnicodeDecodeError")]
)
def test_a_bad_reader_is_found_out(
    reader: Callable[[bytes, str], Log], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rules can be broken: by a reader that is silent, slow or crashes."""
    monkeypatch.setattr(reading, "parse_log", reader)
    monkeypatch.setattr(fuzz, "LIMIT_SECONDS", 0.5)
    with pytest.raises(AssertionError, match=said):
        fuzz.spoil(tuple(short_game()), True, 1, 500, fuzz.Tally())


def test_the_command_writes_its_result_down(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the counts, the seed and the versions."""
    result = tmp_path / "result.txt"
    monkeypatch.setattr("sys.argv", ["fuzz", "--examples", "50", "--seed", "7", "--output", str(result)])
    fuzz.main()
    text = result.read_text(encoding="utf-8")
    assert text.startswith("50 files made of 2 logs, seed 7: ")
    assert re.search(r"^\d{4}-\d\d-\d\d, Python 3\.\d+\.\d+, rinkfold \d", text, flags=re.MULTILINE)


def test_the_result_that_is_kept_is_of_many_files() -> None:
    """It is the command's own text."""
    first = fuzz.RESULT.read_text(encoding="utf-8").splitlines()[0]
    found = re.fullmatch(r"(\d+) files made of \d+ logs, seed \d+: no crash, no hang, no silent acceptance\.", first)
    assert found
    assert int(found[1]) >= 100_000


@pytest.mark.parametrize(
    "line",
    [
        b"{" + b", ".join(b'"k%d": 1' % number for number in range(50_000)) + b', "k49999": 2}',
        b'{"pinned": ' + b"[" * 200_000 + b"]" * 200_000 + b"}",
        b'{"note": ' + b"9" * 1_000_000 + b"}",
        b'{"kind": "' + b"game_opened" * 50_000 + b'"}',
        b"\n" * 50_000,
    ],
    ids=["keys", "brackets", "digits", "letters", "lines"],
)
def test_a_line_of_endless_length_is_refused_in_good_time(line: bytes) -> None:
    """No length of anything in it makes the reader take long."""
    with reading.time_limit(10), pytest.raises(ProblemsFound):
        parse_log(line + b"\n")
