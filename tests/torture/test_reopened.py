"""Records that are closed, opened again and closed again, entry by entry, beside a model of what may follow."""

from __future__ import annotations

import tempfile
from pathlib import Path

from attrs import Factory, define
from hypothesis import given, settings
from hypothesis import strategies as st
from torture.games import refusal, remark, short_game, texts

from rinkfold.timeline.events import Amend, Event, Figures, GameClosed, Goal, Remark, Void
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import append, log_bytes, read_log

CLOSED = GameClosed(seq=0, outcome="played", signed=("Wren Alder",))
GOAL = Goal(seq=0, period=1, clock="7:42", team="home", scorer="9")


def void(target: int) -> Void:
    return Void(seq=0, target=target, reason="not yet")


def test_a_record_is_closed_opened_and_closed_again(path: Path) -> None:
    """Between the closings anything may be entered; each closing keeps what comes before it."""
    for round_ in range(3):
        (closing,) = append(path, [CLOSED])
        before = path.read_bytes()
        assert refusal(lambda: append(path, [GOAL])) == ["after_closing"]
        assert refusal(lambda: append(path, [CLOSED])) == ["after_closing"]
        assert path.read_bytes() == before
        append(path, [remark(f"closed {round_}"), Figures(seq=0, team="home", goals=1, source="board")])
        append(path, [void(closing.seq)])
        append(path, [GOAL])
    append(path, [CLOSED])
    log = read_log(path)
    assert log.notes == ()
    assert texts(path)[1:] == ["closed 0", "closed 1", "closed 2"]
    assert sum(isinstance(event, GameClosed) for event in log.events) == 4
    assert isinstance(log.events[-1], GameClosed)


def test_a_void_of_the_void_closes_the_record_again(path: Path) -> None:
    """What was entered while it was open stays, and nothing more may follow."""
    append(path, [CLOSED])
    append(path, [void(7)])
    append(path, [GOAL])
    append(path, [void(8)])
    assert refusal(lambda: append(path, [GOAL])) == ["after_closing"]
    append(path, [void(10)])
    append(path, [GOAL, CLOSED])
    assert len(read_log(path).events) == 13


def test_a_torn_tail_after_a_closing(path: Path) -> None:
    """A crash while the record was opened again leaves it closed."""
    append(path, [CLOSED])
    whole = path.read_bytes()
    append(path, [void(7)])
    path.write_bytes(path.read_bytes()[:-9])
    assert refusal(lambda: append(path, [GOAL])) == ["after_closing"]
    append(path, [void(7)])
    append(path, [GOAL])
    assert path.read_bytes().startswith(whole)
    assert len(list(path.parent.glob("*.torn-1"))) == 1


@define
class Model:
    """The record as a list, with the plainest rules: an event counts unless a void that counts is written after it."""

    events: list[Event] = Factory(list)

    def counts(self, seq: int) -> bool:
        later = [event for event in self.events[seq:] if isinstance(event, Void) and event.target == seq]
        return not any(self.counts(self.events.index(event) + 1) for event in later)

    def closed(self) -> bool:
        seqs = [seq for seq, event in enumerate(self.events, 1) if isinstance(event, GameClosed)]
        return any(self.counts(seq) for seq in seqs)

    def takes(self, event: Event) -> bool:
        if isinstance(event, Void | Amend) and event.target > len(self.events):
            return False
        if isinstance(event, Amend) and not isinstance(self.events[event.target - 1], Remark):
            return False
        return isinstance(event, Void | Amend | Remark | Figures) or not self.closed()


@st.composite
def entries(draw: st.DrawFn) -> list[Event]:
    """Entries of which many close the record, or void a closing, or void such a void."""
    length = draw(st.integers(1, 14))
    made: list[Event] = []
    for number in range(length):
        target = draw(st.integers(7, 6 + max(number, 1)))
        amendment = Amend(seq=0, target=target, changes={"text": "read again"}, reason="x")
        made.append(
            draw(st.sampled_from([CLOSED, CLOSED, GOAL, GOAL, remark(), void(target), void(target), amendment]))
        )
    return made


@given(entries())
@settings(max_examples=60, deadline=None)
def test_what_may_follow_is_what_the_model_says(drawn: list[Event]) -> None:
    """Each entry is taken or refused as the model says, and the log is read after each."""
    model = Model(list(short_game()))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "game.jsonl"
        path.write_bytes(log_bytes(model.events))
        for event in drawn:
            expected = model.takes(event)
            try:
                (made,) = append(path, [event])
            except ProblemsFound:
                assert not expected, (event, read_log(path).events[6:])
            else:
                assert expected, (event, read_log(path).events[6:-1])
                model.events.append(made)
            assert len(read_log(path).events) == len(model.events)
