"""The example game, cut at every byte: what a crash, a full disk or a half copied file leaves."""

from __future__ import annotations

import functools
import random
from bisect import bisect_right
from pathlib import Path

import pytest
from torture.games import example_bytes, files, refusal, remark

from rinkfold.timeline.events import Event
from rinkfold.timeline.record import append, parse_log, read_log


@functools.cache
def line_ends() -> list[int]:
    """Where each line of the game has its newline."""
    return [place for place, byte in enumerate(example_bytes()) if byte == ord("\n")]


@functools.cache
def events() -> tuple[Event, ...]:
    """The events of the game as they are in the chained file."""
    return parse_log(example_bytes()).events


def whole_lines(cut: int) -> int:
    """How many lines are whole in the first `cut` bytes, the last one with its newline or without."""
    return bisect_right(line_ends(), cut)


def check_cut(cut: int) -> None:
    """Read the first `cut` bytes: every whole line is there, and what is left over is noted."""
    count = whole_lines(cut)
    if count == 0:
        assert refusal(lambda: parse_log(example_bytes()[:cut])) == ["empty_file"]
        return
    log = parse_log(example_bytes()[:cut])
    assert log.events == events()[:count]
    torn = cut > line_ends()[count - 1] + 1
    assert [(note.code, note.line) for note in log.notes] == ([("torn_tail", count + 1)] if torn else [])


def some_cuts() -> list[int]:
    """Every byte of the first two lines and of the last, around every newline, and some more."""
    ends, size = line_ends(), len(example_bytes())
    cuts = {*range(0, ends[0], 7), *range(ends[0], ends[1] + 2), *range(ends[-2], size + 1)}
    cuts |= {end + step for end in ends[::6] for step in (-1, 0, 1, 2)}
    cuts |= set(random.Random(1).sample(range(size), 100))
    return sorted(cut for cut in cuts if cut <= size)


def test_a_game_that_was_cut_keeps_its_whole_lines() -> None:
    """It is read, or refused where not even the header is whole; nothing else happens and no whole line is lost."""
    for cut in some_cuts():
        check_cut(cut)


@pytest.mark.full
def test_a_game_that_was_cut_anywhere_keeps_its_whole_lines() -> None:
    """The same for every byte of the file."""
    for cut in range(len(example_bytes()) + 1):
        check_cut(cut)


def test_a_game_that_was_cut_goes_on(tmp_path: Path) -> None:
    """An append sets the torn bytes aside and follows the last whole line; without a header it changes nothing."""
    for cut in some_cuts()[::3]:
        folder = tmp_path / str(cut)
        folder.mkdir()
        check_going_on(cut, folder / "game.jsonl")


def check_going_on(cut: int, path: Path) -> None:
    """Append to the first `cut` bytes of the game."""
    left = example_bytes()[:cut]
    path.write_bytes(left)
    count = whole_lines(cut)
    if count == 0:
        assert refusal(lambda: append(path, [remark()])) == ["not_a_log"]
        assert files(path.parent) == {path.name: left}
        return
    (made,) = append(path, [remark()])
    log = read_log(path)
    assert (log.notes, log.events) == ((), (*events()[:count], made))
    end = line_ends()[count - 1] + 1
    assert path.read_bytes().startswith(example_bytes()[:end])
    assert {name: data for name, data in files(path.parent).items() if name != path.name} == (
        {f"{path.name}.torn-1": left[end:]} if left[end:] else {}
    )
