"""Bits that flip, and hands that change a line: where the chain says so, and where only the head code does."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import pytest
from attrs import evolve
from torture.games import example_bytes, example_events, short_game

from rinkfold.cli.main import app
from rinkfold.timeline.events import Event, Remark
from rinkfold.timeline.problems import Problem, ProblemsFound
from rinkfold.timeline.record import head_code, is_head_code_of, log_bytes, parse_log

SHORT = log_bytes(short_game())


def flipped(data: bytes, bit: int) -> bytes:
    """`data` with one bit the other way."""
    changed = bytearray(data)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def bits_before_the_last_line(data: bytes) -> range:
    """Every bit up to the newline before the last line, that one included."""
    return range((data.rindex(b"\n", 0, -1) + 1) * 8)


def problems_of(data: bytes) -> tuple[Problem, ...]:
    """What the log is refused with."""
    with pytest.raises(ProblemsFound) as caught:
        parse_log(data)
    return caught.value.problems


def names(problem: Problem, line: int) -> bool:
    """Whether `problem` leads to `line`."""
    by_the_chain = problem.code == "chain_broken" and f"Line {line} was changed" in problem.fix
    return problem.line == line or by_the_chain


def check_flip(data: bytes, bit: int) -> None:
    line = data.count(b"\n", 0, bit // 8) + 1
    found = problems_of(flipped(data, bit))
    assert any(names(problem, line) for problem in found), (bit, line, found)


def test_each_bit_of_a_short_log_that_flips_is_found() -> None:
    """Before the last line, with the line named."""
    for bit in bits_before_the_last_line(SHORT):
        check_flip(SHORT, bit)


def test_a_bit_of_a_long_log_that_flips_is_found() -> None:
    """The same in the example game, at bits drawn anywhere."""
    for bit in random.Random(20260110).sample(bits_before_the_last_line(example_bytes()), 300):
        check_flip(example_bytes(), bit)


@pytest.mark.full
def test_many_bits_of_a_long_log_that_flip_are_found() -> None:
    """The same at one bit of each byte."""
    chance = random.Random(20260111)
    for byte in range(0, len(bits_before_the_last_line(example_bytes())) // 8, 5):
        check_flip(example_bytes(), byte * 8 + chance.randrange(8))


def test_the_chain_names_the_line_that_a_hand_changed() -> None:
    """A change that fits the format is seen in the next line's `prev` alone."""
    changed = example_bytes().replace(b'"clock": "14:52"', b'"clock": "14:51"', 1)
    line = example_bytes()[: example_bytes().index(b'"clock": "14:52"')].count(b"\n") + 1
    (problem,) = problems_of(changed)
    assert (problem.code, problem.line) == ("chain_broken", line + 1)
    assert problem.fix.startswith(f"Line {line} was changed")


def test_a_bit_of_the_last_line_that_flips_is_found_by_the_head_code() -> None:
    """Where the log is still read, its head code is another."""
    code = parse_log(SHORT).head_code
    first = bits_before_the_last_line(SHORT).stop
    read = 0
    for bit in range(first, len(SHORT) * 8):
        try:
            log = parse_log(flipped(SHORT, bit))
        except ProblemsFound:
            continue
        read += 1
        assert not is_head_code_of(code, log.head)
        assert log.head_code != code
    assert read > 50


def rewritten() -> Iterator[bytes]:
    """The short game with each line changed in turn, and the chain made anew from there."""
    for index, event in enumerate(short_game()):
        events: list[Event] = short_game()
        events[index] = evolve(event, note="changed")
        yield log_bytes(events)


def test_a_chain_that_was_made_anew_is_found_by_the_head_code() -> None:
    """The log is whole and unbroken, and not the one that was signed."""
    code = parse_log(SHORT).head_code
    for data in rewritten():
        log = parse_log(data)
        assert (log.chained, log.notes) == (True, ())
        assert not is_head_code_of(code, log.head)
    shorter = parse_log(log_bytes(short_game()[:-1]))
    longer = parse_log(log_bytes([*short_game(), Remark(seq=7, text="x")]))
    assert not is_head_code_of(code, shorter.head)
    assert not is_head_code_of(code, longer.head)
    assert is_head_code_of(code, parse_log(log_bytes(short_game())).head)


def test_a_chain_that_was_taken_out_is_noted() -> None:
    """Whoever takes every `prev` out leaves a log that says so."""
    log = parse_log(log_bytes(example_events(), chained=False))
    assert [note.code for note in log.notes] == ["unchained"]
    assert not is_head_code_of(parse_log(example_bytes()).head_code, log.head)


def verify(path: Path, code: str) -> object:
    """The exit code of ``rinkfold verify --against``."""
    with pytest.raises(SystemExit) as end:
        app(["verify", str(path), "--against", code])
    return end.value.code


def test_the_command_tells_the_log_that_was_signed_from_another(tmp_path: Path) -> None:
    """Exit code 0 for the one, 1 for one with another line, another last line or a chain made anew."""
    path = tmp_path / "game.jsonl"
    path.write_bytes(SHORT)
    code = head_code(parse_log(SHORT).head)
    assert verify(path, code) == 0
    others = list(rewritten())
    others += [flipped(SHORT, SHORT.index(b"9:15") * 8), SHORT.replace(b"puck out", b"puck in"), SHORT[:-30]]
    for data in others:
        path.write_bytes(data)
        assert verify(path, code) == 1
