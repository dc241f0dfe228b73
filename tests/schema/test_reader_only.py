"""What only the reader can see: each item of the list in docs/log-format.md, shown."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from schema.reading import VALIDATOR

from rinkfold import rulesets
from rinkfold.timeline import ProblemsFound, Ruleset
from rinkfold.timeline.record import log_bytes, parse_log
from rinkfold.timeline.record.codec import event_from_dict

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "log-format.md").read_text(encoding="utf-8")
HEADER: dict[str, Any] = {
    "seq": 1,
    "kind": "game_opened",
    "format": 1,
    "game": "g",
    "ruleset": "adult",
    "home": {"name": "Larks"},
    "away": {"name": "Otters"},
}
REMARK = {"seq": 2, "kind": "remark", "text": "x"}
CLOSED = {"seq": 2, "kind": "game_closed", "outcome": "played"}
VOID = {"seq": 3, "kind": "void", "target": 2, "reason": "x"}


def lines(*events: Any) -> bytes:
    """A log of these lines, each an object or the text itself."""
    return b"".join((e if isinstance(e, str) else json.dumps(e)).encode() + b"\n" for e in events)


def chained() -> list[bytes]:
    """The lines of a chained log."""
    events = [event_from_dict(each) for each in (HEADER, REMARK, REMARK | {"seq": 3})]
    return log_bytes(events).splitlines(keepends=True)


def amend(**changes: Any) -> bytes:
    return lines(HEADER, REMARK, {"seq": 3, "kind": "amend", "target": 2, "changes": changes, "reason": "x"})


DEEP: Any = "x"
for _ in range(70):
    DEEP = [DEEP]

FILES: list[tuple[str, bytes]] = [
    ("not_json", lines(HEADER, {"seq": 2, "kind": "amend", "target": 1, "changes": {"game": DEEP}, "reason": "x"})),
    ("duplicate_key", lines(HEADER, '{"seq": 2, "kind": "remark", "text": "x", "text": "y"}')),
    (
        "not_a_number",
        lines(HEADER, '{"seq": 2, "kind": "amend", "target": 1, "changes": {"game": 1e999}, "reason": ""}'),
    ),
    ("not_a_number", lines(HEADER, '{"seq": 2, "kind": "amend", "target": 1, "changes": {"game": NaN}, "reason": ""}')),
    ("wrong_type", lines(HEADER, '{"seq": 2.0, "kind": "remark", "text": "x"}')),
    ("wrong_type", lines('{"format": 1.0, ' + json.dumps(HEADER | {"format": 1})[1:].replace('"format": 1, ', ""))),
    ("half_a_character", lines(HEADER, '{"seq": 2, "kind": "remark", "text": "\\ud800"}')),
    ("bad_time", lines(HEADER, REMARK | {"recorded_at": "2026-02-29T10:00:00Z"})),
    ("bad_time", lines(HEADER, REMARK | {"recorded_at": "0000-02-01T10:00:00Z"})),
    ("byte_order_mark", b"\xef\xbb\xbf" + lines(HEADER)),
    ("crlf", lines(HEADER).replace(b"\n", b"\r\n")),
    ("empty_line", lines(HEADER, "", REMARK)),
    ("not_opened", lines(REMARK | {"seq": 1})),
    ("opened_again", lines(HEADER, HEADER | {"seq": 2})),
    ("out_of_sequence", lines(HEADER, REMARK | {"seq": 3})),
    ("chain_broken", chained()[0] + chained()[1].replace(b'"x"', b'"y"') + chained()[2]),
    ("chain_missing", chained()[0] + lines(REMARK)),
    ("chain_mixed", lines(HEADER) + chained()[1]),
    ("no_target", lines(HEADER, VOID | {"seq": 2, "target": 9})),
    ("later_target", lines(HEADER, VOID | {"seq": 2, "target": 3}, REMARK | {"seq": 3})),
    ("header_void", lines(HEADER, VOID | {"seq": 2, "target": 1})),
    ("after_closing", lines(HEADER, CLOSED, {"seq": 3, "kind": "faceoff", "period": 1, "clock": "9:15"})),
    ("rules_disagree", lines(HEADER | {"pinned": {"name": "pro", "knobs": {}}})),
    (
        "rules_disagree",
        lines(HEADER | {"settings": {"lengths.minor": "1:00"}, "pinned": {"name": "adult", "knobs": {}}}),
    ),
    ("fixed_field", amend(kind="goal")),
    ("unknown_field", amend(scorer="7")),
    ("wrong_type", amend(text=7)),
]
"""Files that the reader refuses, although the schema accepts each line of them."""


def codes(data: bytes) -> set[str]:
    """What the reader tells of a file."""
    with pytest.raises(ProblemsFound) as caught:
        parse_log(data)
    return {problem.code for problem in caught.value.problems}


@pytest.mark.parametrize(("code", "data"), FILES, ids=[code for code, _ in FILES])
def test_the_schema_accepts_every_line_and_the_reader_refuses_the_file(code: str, data: bytes) -> None:
    """The text before it was parsed, or the other lines, say what one parsed line does not."""
    for line in data.decode("utf-8-sig").splitlines():
        if line:
            assert VALIDATOR.is_valid(json.loads(line)), line
    assert code in codes(data)


def test_knobs_that_do_not_go_together() -> None:
    """Each is possible by itself."""
    together = {"ice.skaters": 4, "overtime.skaters": 5}
    assert VALIDATOR.is_valid(HEADER | {"settings": together})
    assert VALIDATOR.is_valid(HEADER | {"pinned": {"name": "x", "knobs": together}})
    with pytest.raises(ProblemsFound, match="Overtime cannot have 5 skaters"):
        rulesets.with_settings(Ruleset(), together)
    with pytest.raises(ProblemsFound, match="Overtime cannot have 5 skaters"):
        rulesets.unpin({"name": "x", "knobs": together})


def test_bytes_that_no_parser_gets_to_see() -> None:
    """No UTF-8, no file at all, a number of thousands of figures, half a line: there is no parsed line to judge."""
    assert codes(lines(HEADER) + b'{"seq": 2, "kind": "remark", "text": "\xff"}\n') == {"not_utf8"}
    assert codes(b"") == {"empty_file"}
    assert codes(lines(HEADER, '{"seq": ' + "1" * 5000 + "}")) == {"not_json"}
    assert [note.code for note in parse_log(lines(HEADER) + b'{"seq"').notes] == ["torn_tail", "unchained"]


def test_the_list_of_the_page_is_what_is_shown_here() -> None:
    """No item without its test, and no test without its item."""
    table = PAGE.partition("What only the reader can see")[2]
    listed = {code for row in re.findall(r"^\| (`[^|]*)\|", table, re.M) for code in re.findall(r"`(\w+)`", row)}
    elsewhere = {"impossible_combination", "not_utf8", "empty_file", "torn_tail"}
    assert listed == {code for code, _ in FILES} | elsewhere
