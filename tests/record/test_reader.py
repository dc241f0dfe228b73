"""Reading logs that are whole, torn, unchained, upgraded, or not there."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from strategies import header, logs

from rinkfold.timeline.events import Event, Faceoff, Goal, Remark
from rinkfold.timeline.problems import ProblemsFound, render
from rinkfold.timeline.record import Log, line_hash, log_bytes, parse_log, read_log
from rinkfold.timeline.record.upgrades import FORMAT, FORMATS, Formats

GAME = (
    header(),
    Faceoff(seq=2, period=1, clock="12:00"),
    Goal(seq=3, period=1, clock="8:50", team="away", scorer="17"),
)


def without_prev(events: tuple[Event, ...]) -> tuple[Event, ...]:
    return tuple(evolve(event, prev=None) for event in events)


@given(logs(), st.booleans())
def test_a_whole_log_comes_back(events: tuple[Event, ...], chained: bool) -> None:
    """Reading what was written gives the events that were written, in their order."""
    data = log_bytes(events, chained=chained)
    log = parse_log(data, "g.jsonl")
    assert without_prev(log.events) == events
    assert log.header == log.events[0]
    assert log.chained is chained
    assert log.head == line_hash(data.splitlines()[-1] if b"\r" not in data else data.split(b"\n")[-2])
    assert log_bytes(log.events, chained=chained) == data


@given(logs(most=5), st.data())
def test_a_torn_tail_is_left_out_and_noted(events: tuple[Event, ...], data: st.DataObject) -> None:
    """Wherever a crash cuts the last line, the events before it are read; a last line that is whole counts."""
    whole = log_bytes(events, chained=False)
    begin = whole.rstrip(b"\n").rfind(b"\n") + 1
    cut = data.draw(st.integers(begin + 1, len(whole) - 1))
    if cut == len(whole) - 1:
        assert parse_log(whole[:cut]).events == events
    elif begin == 0:
        with pytest.raises(ProblemsFound):
            parse_log(whole[:cut])
    else:
        log = parse_log(whole[:cut])
        assert log.events == events[:-1]
        assert [(note.code, note.severity) for note in log.notes] == [("torn_tail", "note"), ("unchained", "note")]


def test_the_note_on_a_torn_tail() -> None:
    """It says how much is left out, and that nothing is lost."""
    log = parse_log(log_bytes(GAME) + b'{"seq": 4, "ki', "g.jsonl")
    assert [render(note) for note in log.notes] == [
        "g.jsonl:4: note: The last 14 bytes are the beginning of a line that was never finished, and are left out. "
        "The next entry moves them to a file beside the log."
    ]


@pytest.mark.parametrize("tail", [b"\x00" * 40, b"\xff", b"{", b'{"seq": 4, "text": "\xc3', b"  "])
def test_whatever_a_crash_leaves_is_a_torn_tail(tail: bytes) -> None:
    """Zeros, half a character, a brace: none of them is a whole event."""
    log = parse_log(log_bytes(GAME) + tail)
    assert len(log.events) == 3
    assert [note.code for note in log.notes] == ["torn_tail"]


def test_a_chained_log_has_nothing_to_note() -> None:
    """A log that the tool wrote is read without a word, and has its head code."""
    log = parse_log(log_bytes(GAME))
    assert (log.chained, log.notes) == (True, ())
    assert log.head_code.replace("-", "") == log.head[:16]


def test_an_unchained_log_is_read_and_noted() -> None:
    """A log by another program, without `prev`, is readable, and is said to be unchained."""
    log = parse_log(log_bytes(GAME, chained=False), "g.jsonl")
    assert not log.chained
    assert [render(note) for note in log.notes] == [
        "g.jsonl: note: The log carries no chain: whether it was changed after it was written cannot be seen."
    ]


@given(logs(most=6), st.data())
def test_a_changed_byte_shows_in_a_chained_log(events: tuple[Event, ...], data: st.DataObject) -> None:
    """Whoever changes any byte of a line that another follows is found out, or the head is no longer the same."""
    whole = log_bytes(events)
    log = parse_log(whole)
    place = data.draw(st.integers(0, len(whole) - 2))
    byte = data.draw(st.integers(0, 255).filter(lambda byte: byte != whole[place]))
    changed = whole[:place] + bytes([byte]) + whole[place + 1 :]
    assert _head_of(changed) != log.head


def _head_of(data: bytes) -> str | None:
    """The head of the log, or None where it is refused."""
    try:
        return parse_log(data).head
    except ProblemsFound:
        return None


def test_blanks_inside_a_line_are_the_writers_own() -> None:
    """The chain is of the bytes as they stand, so another program may lay out its JSON as it likes."""
    first = json.dumps({"prev": "", "kind": "game_opened"} | _header_fields(), separators=(",", ":")).encode()
    second = json.dumps(
        {"kind": "remark", "seq": 2, "text": "x", "prev": line_hash(first)}, separators=(" ,  ", ":")
    ).encode()
    assert parse_log(first + b"\n" + second + b"\n").chained


def _header_fields() -> dict[str, Any]:
    return {"seq": 1, "format": 1, "game": "g", "ruleset": "adult", "home": {"name": "Larks"}, "away": {"name": "Owls"}}


def test_a_goal_may_end_a_penalty_that_is_written_later() -> None:
    """`ends` points at a penalty that may have been entered late; only the other pointers must point back."""
    log = parse_log(log_bytes([*GAME[:2], evolve(GAME[2], ends=4), Remark(seq=4, text="x")]))
    assert len(log.events) == 4


@pytest.mark.parametrize("name", ["missing.jsonl", "no/such/folder/game.jsonl"])
def test_a_log_that_is_not_there(name: str, tmp_path: Path) -> None:
    """The problem says so, and what to look for."""
    with pytest.raises(ProblemsFound) as caught:
        read_log(tmp_path / name)
    assert str(caught.value) == (
        f"{tmp_path / name}: The file cannot be read: it, or the folder it is in, is not there. "
        "Look for a wrong name, or a drive that was taken out."
    )


def test_a_folder_is_no_log(tmp_path: Path) -> None:
    """Naming a folder is a problem with a remedy, not a traceback."""
    with pytest.raises(ProblemsFound) as caught:
        read_log(tmp_path)
    assert [problem.file for problem in caught.value.problems] == [str(tmp_path)]


def test_a_log_is_read_from_disk(tmp_path: Path) -> None:
    """`read_log` is `parse_log` of the file's bytes, named as the caller named it."""
    path = tmp_path / "jäger 1.jsonl"
    path.write_bytes(log_bytes(GAME))
    assert read_log(str(path)) == parse_log(log_bytes(GAME), str(path))


def upgrade_0_1(line: dict[str, Any]) -> dict[str, Any]:
    """A step from a format 0 that never was: remarks carried `words`, and the header said format 0."""
    line = dict(line)
    if "words" in line:
        line["text"] = line.pop("words")
    if "format" in line:
        line["format"] = 1
    return line


def _format_0() -> bytes:
    lines = [{"kind": "game_opened"} | _header_fields() | {"format": 0}, {"seq": 2, "kind": "remark", "words": "Fog"}]
    return b"".join(json.dumps(line).encode() + b"\n" for line in lines)


def test_an_earlier_format_is_upgraded_line_by_line() -> None:
    """A step brings each line to the next format; the log is then as if written in today's."""
    log: Log = parse_log(_format_0(), formats=Formats(newest=1, steps={0: upgrade_0_1}))
    assert log.events[1] == Remark(seq=2, text="Fog")
    assert log.header.format == 1
    assert log.head == line_hash(_format_0().split(b"\n")[1])


def test_a_format_without_a_step_is_refused() -> None:
    """A format that never was is named, and the lines are not guessed at."""
    with pytest.raises(ProblemsFound) as caught:
        parse_log(_format_0(), "g.jsonl")
    assert [problem.code for problem in caught.value.problems] == ["unknown_format"]


def test_steps_are_taken_one_after_the_other() -> None:
    """From format 1 to 3 goes by way of 2."""
    formats = Formats(newest=3, steps={1: lambda line: line | {"one": 1}, 2: lambda line: line | {"two": len(line)}})
    step = formats.upgrade_from(1)
    assert step is not None
    assert step({}) == {"one": 1, "two": 1}
    assert formats.upgrade_from(3) is None


def test_the_first_format_needs_no_step() -> None:
    """Today's format is 1 and nothing is older."""
    assert (FORMAT, FORMATS.newest, dict(FORMATS.steps)) == (1, 1, {})
    assert FORMATS.upgrade_from(1) is None
