"""The stream with --log: what was answered is on the disk."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from stream.pipes import POSIX, hear, say, started
from stream.talking import EXAMPLE, MINOR, OPENING, answers, codes, goal, ran, sent, talk

from rinkfold.cli.streaming.game import StreamedGame
from rinkfold.cli.streaming.session import Session
from rinkfold.timeline import Remark, append, event_from_dict, parse_log, read_log


def test_a_new_log_is_opened_and_kept(tmp_path: Path) -> None:
    """Chained, with times, the same game as without a log."""
    path = tmp_path / "game.jsonl"
    lines = [json.loads(line) for line in EXAMPLE.read_text("utf-8").splitlines()]
    run = ran(sent(lines), "--log", str(path))
    assert (run.returncode, run.stderr) == (0, b"")
    log = read_log(path)
    assert (log.chained, log.notes) == (True, ())
    told = answers(run.stdout)
    assert [answer["event"] for answer in told] == [json.loads(line) for line in path.read_bytes().splitlines()]
    assert all(event.recorded_at for event in log.events)
    assert told[-1]["head_code"] == log.head_code
    assert [answer["changes"] for answer in told] == [answer["changes"] for answer in talk(*lines)]


def test_an_event_is_in_the_log_before_its_answer(tmp_path: Path) -> None:
    """Whoever has the answer has the line."""
    path = tmp_path / "game.jsonl"
    with started("--log", str(path)) as program:
        for number, line in enumerate([OPENING, MINOR, goal("8:50")], 1):
            say(program, sent([line]))
            assert hear(program)["seq"] == number
            assert len(read_log(path).events) == number


def test_going_on_with_a_log(tmp_path: Path) -> None:
    """It is open already; what was in it counts, and a second opening is refused."""
    path = tmp_path / "game.jsonl"
    talk(OPENING, MINOR, log=path)
    again, goes_on, now = talk(OPENING, goal("8:50"), {"ask": "now"}, log=path)
    assert codes(again) == ["opened_again"]
    assert (goes_on["seq"], now["score"]) == (3, {"home": 0, "away": 1})
    assert [event.kind for event in read_log(path).events] == ["game_opened", "penalty_assessed", "goal"]


def test_a_log_without_chain_and_pinned_rules_stays_so(tmp_path: Path) -> None:
    """The example game up to a point, going on."""
    path = tmp_path / "game.jsonl"
    path.write_bytes(b"".join(EXAMPLE.read_bytes().splitlines(keepends=True)[:120]))
    answer = talk({"kind": "remark", "text": "x"}, log=path)[0]
    assert (answer["seq"], "prev" in answer["event"], "head_code" in answer) == (121, False, False)
    assert read_log(path).events[-1] == event_from_dict(answer["event"])


def test_what_is_refused_is_not_written(tmp_path: Path) -> None:
    """The file stays byte for byte as it was."""
    path = tmp_path / "game.jsonl"
    talk(OPENING, MINOR, log=path)
    before = path.read_bytes()
    for line in (goal("9:75"), {"kind": "void", "target": 9, "reason": "x"}, goal("8:50") | {"seq": 9}, b"{", OPENING):
        assert "problems" in talk(line, log=path)[0]
    assert path.read_bytes() == before


def test_a_log_that_cannot_be_written_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The event is in neither the log nor the game, and the same event can be sent again."""
    from rinkfold.timeline.record import writer

    path = tmp_path / "game.jsonl"
    write, calls = writer._write, []

    def full(file: Any, data: bytes) -> None:
        calls.append(data)
        if len(calls) == 3:
            raise OSError(28, "No space left on device")
        write(file, data)

    monkeypatch.setattr(writer, "_write", full)
    told = talk(OPENING, MINOR, goal("8:50"), {"ask": "now"}, goal("8:50"), {"ask": "now"}, log=path)
    assert codes(told[2]) == ["disk_full"]
    assert (told[3]["score"]["away"], told[4]["seq"], told[5]["score"]["away"]) == (0, 3, 1)
    assert len(read_log(path).events) == 3


def test_amended_rules_outlive_a_log_that_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The game as it was before the event that failed is played by the rules it had then."""
    from rinkfold.timeline.record import writer

    path = tmp_path / "game.jsonl"
    path.write_bytes(EXAMPLE.read_bytes().splitlines(keepends=True)[0])  # its rules are named and not pinned
    amend = {"kind": "amend", "target": 1, "changes": {"settings": {"lengths.minor": "1:30"}}, "reason": "x"}
    write, calls = writer._write, []

    def full(file: Any, data: bytes) -> None:
        calls.append(data)
        if len(calls) == 2:
            raise OSError(28, "No space left on device")
        write(file, data)

    monkeypatch.setattr(writer, "_write", full)
    changed, failed, called = talk(amend, MINOR, MINOR, log=path)
    assert (changed["seq"], codes(failed), called["seq"]) == (2, ["disk_full"], 3)
    assert "out at 7:45" in called["effect"]


def test_another_program_that_writes_to_the_log(tmp_path: Path) -> None:
    """The stream says so, has read it again, and goes on from there."""
    path = tmp_path / "game.jsonl"
    with started("--log", str(path)) as program:
        say(program, sent([OPENING]))
        hear(program)
        append(path, [Remark(seq=0, text="from elsewhere")])
        say(program, sent([MINOR]))
        grown = hear(program)
        assert codes(grown) == ["log_has_grown"]
        assert "the next seq is 3" in grown["problems"][0]["fix"]
        say(program, sent([MINOR]))
        assert hear(program)["seq"] == 3
    assert [event.kind for event in read_log(path).events] == ["game_opened", "remark", "penalty_assessed"]


@POSIX
def test_killed_at_any_time_what_was_answered_is_there(tmp_path: Path) -> None:
    """And at most one line more."""
    path = tmp_path / "game.jsonl"
    with started("--log", str(path)) as program:
        say(program, sent([OPENING, *({"kind": "remark", "text": str(n)} for n in range(50))]))
        answered = [hear(program) for _ in range(20)]
        program.kill()
        program.wait(60)
    log = parse_log(path.read_bytes())
    assert len(log.events) >= 20
    assert [event_from_dict(answer["event"]) for answer in answered] == list(log.events[:20])


def test_a_question_is_answered_from_the_log_as_it_is(tmp_path: Path) -> None:
    """What another program wrote meanwhile counts, without an event that notices it; what it broke is told."""
    path = tmp_path / "game.jsonl"
    session = Session(StreamedGame.of(str(path)))

    def ask(number: int) -> dict[str, Any]:
        return session.answer(number, b'{"ask": "now"}')

    for number, line in enumerate((OPENING, goal("8:50")), 1):
        session.answer(number, json.dumps(line).encode())
    assert ask(3)["score"] == {"home": 0, "away": 1}
    append(path, [event_from_dict({"seq": 3, **goal("8:00", "home")})])
    assert ask(4)["score"] == {"home": 1, "away": 1}
    assert session.answer(5, json.dumps(goal("7:00")).encode())["seq"] == 4
    path.write_bytes(b"nonsense\n")
    assert codes(ask(6)) == ["not_json"]
