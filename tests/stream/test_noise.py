"""Anything at all is sent, and each line has its answer."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import events
from stream.talking import OPENING, codes, talk

from rinkfold.cli.streaming.asks import ASKS
from rinkfold.timeline import event_to_dict

noise = st.binary(max_size=40).map(lambda line: line.replace(b"\n", b" "))
json_noise = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["ask", "at", "kind", "seq"]), inner),
    max_leaves=6,
).map(lambda value: json.dumps(value).encode())
questions = st.fixed_dictionaries(
    {"ask": st.sampled_from([*ASKS, "x"])}, optional={"at": st.text("OT123 :.9", max_size=7)}
)


@st.composite
def entries(draw: st.DrawFn) -> dict[str, Any]:
    """An event of any kind that leaves its number to the stream and points at early lines."""
    line = event_to_dict(draw(events()))
    for name in ("seq", "prev"):
        line.pop(name, None)
    for name in ("after", "target", "penalty", "ends"):
        if isinstance(line.get(name), int):
            line[name] = draw(st.integers(1, 6))
    return line


@settings(max_examples=150)
@given(st.lists(noise | json_noise | questions | entries(), max_size=14))
def test_every_line_has_one_answer_and_none_is_a_fault(lines: list[Any]) -> None:
    """Right or wrong, on its number, as JSON; events that are taken in are numbered without gaps."""
    answers = talk(OPENING, *lines)
    assert [answer["line"] for answer in answers] == list(range(1, len(lines) + 2))
    seqs = []
    for answer in answers:
        json.dumps(answer, allow_nan=False)
        if "problems" in answer:
            assert answer["problems"]
            assert "fault" not in codes(answer)
        elif "seq" in answer:
            seqs.append(answer["seq"])
        else:
            assert answer["ask"] in ASKS
    assert seqs == list(range(1, len(seqs) + 1))


@settings(max_examples=60)
@given(st.lists(entries() | noise, max_size=10))
def test_what_is_refused_leaves_no_trace(lines: list[Any]) -> None:
    """The game is that of the lines that were taken in."""
    answers = talk(OPENING, *lines, {"ask": "summary"}, {"ask": "box"})
    good = [line for line, answer in zip(lines, answers[1:-2], strict=True) if "problems" not in answer]
    again = talk(OPENING, *good, {"ask": "summary"}, {"ask": "box"})
    for one, other in zip(answers[-2:], again[-2:], strict=True):
        assert one | {"line": 0} == other | {"line": 0}
