"""Event ⇄ object ⇄ line."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from strategies import events, header

from rinkfold.timeline.events import (
    KINDS,
    WHEN,
    Amend,
    Event,
    GameClosed,
    Goal,
    GoalieChange,
    Officials,
    PenaltyAssessed,
    Remark,
)
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import event_from_dict, event_from_line, event_to_dict, event_to_line

GOAL: dict[str, Any] = {"seq": 3, "kind": "goal", "period": 1, "clock": "8:50", "team": "home"}
PENALTY: dict[str, Any] = GOAL | {"kind": "penalty_assessed", "parts": ["minor"]}


def event_from_written(data: dict[str, Any]) -> Event:
    return event_from_line(json.dumps(data))


def refusal(data: dict[str, Any], read: Callable[..., Event] = event_from_dict) -> list[tuple[str, str | None]]:
    with pytest.raises(ProblemsFound) as caught:
        read(data)
    return [(problem.code, problem.field) for problem in caught.value.problems]


def refused_line(text: str) -> list[str]:
    with pytest.raises(ProblemsFound) as caught:
        event_from_line(text)
    return [problem.code for problem in caught.value.problems]


@given(events())
def test_every_event_comes_back_from_its_line(event: Event) -> None:
    """Writing an event and reading its line gives the same event."""
    assert event_from_line(event_to_line(event).decode()) == event


@given(events())
def test_a_line_is_one_line_and_always_the_same(event: Event) -> None:
    """No value can break a line in two, and what was read is written byte for byte as it was."""
    line = event_to_line(event)
    assert b"\n" not in line
    assert b"\r" not in line
    assert event_to_line(event_from_line(line.decode())) == line


@given(events())
def test_fields_stand_in_one_order(event: Event) -> None:
    """`seq` and `kind` come first, then period and clock, and `prev` is last."""
    names = list(event_to_dict(event))
    assert names[:2] == ["seq", "kind"]
    if event.period is not None:
        assert names[2] == "period"
    if event.period is not None and event.clock is not None:
        assert names[3] == "clock"
    if event.prev is not None:
        assert names[-1] == "prev"


def test_a_field_that_is_none_is_not_written() -> None:
    """What is not known is left out of the line."""
    goal = Goal(seq=3, period=1, clock="8:50", team="home")
    assert event_to_dict(goal) == GOAL


def test_an_empty_net_is_written() -> None:
    """The `goalie` of a goalie_change is written even where it is null, for null means an empty net."""
    out = GoalieChange(seq=3, period=3, clock="0:58", team="home", goalie=None)
    assert event_to_line(out) == (
        b'{"seq": 3, "kind": "goalie_change", "period": 3, "clock": "0:58", "team": "home", "goalie": null}'
    )


def test_an_empty_net_has_to_be_said() -> None:
    """A goalie_change without `goalie` says nothing and is refused."""
    data = GOAL | {"kind": "goalie_change"}
    assert refusal(data) == [("missing_field", "goalie")]


def test_letters_are_written_as_themselves() -> None:
    """A name with letters beyond ASCII stays readable in the file."""
    assert "Åsa Ödmark".encode() in event_to_line(Remark(seq=2, text="Åsa Ödmark"))


@pytest.mark.parametrize("value", [3.7, 3.0, "3", True, None, [3]])
def test_a_whole_number_is_nothing_else(value: object) -> None:
    """3.7 does not become 3; neither 3.0, "3" nor true is a whole number."""
    assert refusal(GOAL | {"seq": value}) == [("wrong_type", "seq")]


@pytest.mark.parametrize("value", ["no", "true", 0, 1, 1.0, []])
def test_yes_or_no_is_nothing_else(value: object) -> None:
    """The word "no" does not become true."""
    assert refusal(GOAL | {"own_goal": value}) == [("wrong_type", "own_goal")]


@pytest.mark.parametrize("value", [7, 7.0, True, ["7"]])
def test_a_jersey_number_is_a_string(value: object) -> None:
    """A number without quotation marks is refused: "00" and "0" are two players."""
    assert refusal(GOAL | {"scorer": value}) == [("wrong_type", "scorer")]


def test_a_string_is_no_list_of_letters() -> None:
    """`assists` as "16" does not become the players 1 and 6."""
    assert refusal(GOAL | {"assists": "16"}) == [("wrong_type", "assists")]


def test_each_wrong_item_of_a_list_is_named() -> None:
    """Items are counted from 0, as in the file's own notation."""
    assert refusal(GOAL | {"assists": ["16", 8, "9", None]}) == [
        ("wrong_type", "assists[1]"),
        ("wrong_type", "assists[3]"),
    ]


def test_settings_are_an_object() -> None:
    """The header's settings and the ruleset that is pinned are objects, whatever is in them."""
    data = event_to_dict(header()) | {"settings": [], "pinned": "adult"}
    assert refusal(data) == [("wrong_type", "settings"), ("wrong_type", "pinned")]


def test_an_unknown_field_is_refused() -> None:
    """A field that the format does not have is an error, never ignored."""
    assert refusal(GOAL | {"scorrer": "7"}) == [("unknown_field", "scorrer")]


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "goal"])
def test_a_field_of_another_kind_is_unknown(kind: str) -> None:
    """`own_goal` belongs to goals alone."""
    assert ("unknown_field", "own_goal") in refusal(GOAL | {"kind": kind, "own_goal": True})


def test_a_missing_kind_and_an_unknown_kind_differ() -> None:
    """The first lacks a field, the second has a word that is none of the format's."""
    assert refusal({"seq": 3}) == [("missing_kind", "kind")]
    assert refusal({"seq": 3, "kind": "gaol"}) == [("unknown_kind", "kind")]
    assert refusal({"seq": 3, "kind": None}) == [("wrong_type", "kind")]
    assert refusal({"seq": 3, "kind": ["goal"]}) == [("wrong_type", "kind")]


def test_a_null_stands_for_an_absent_field() -> None:
    """A program that writes null for what it does not know is understood."""
    assert event_from_dict(GOAL | {"scorer": None, "after": None, "recorded_at": None}) == event_from_dict(GOAL)


def test_a_null_is_no_value_of_a_required_field() -> None:
    """A goal is some side's goal."""
    assert refusal(GOAL | {"team": None}) == [("unknown_value", "team")]


def test_every_problem_of_a_line_is_told_at_once() -> None:
    """Nobody has to mend a line field by field."""
    data = {"seq": "3", "kind": "goal", "clock": "842", "teem": "home", "own_goal": 1}
    assert refusal(data) == [
        ("wrong_type", "seq"),
        ("bad_reading", "clock"),
        ("missing_field", "team"),
        ("wrong_type", "own_goal"),
        ("unknown_field", "teem"),
        ("missing_field", "period"),
    ]


@pytest.mark.parametrize("field", ["period", "clock"])
@pytest.mark.parametrize("kind", ["goal", "faceoff", "penalty_shot"])
def test_what_happens_in_the_game_has_a_period_and_a_reading(kind: str, field: str) -> None:
    """Both are required on everything that happens in the game."""
    data = {name: value for name, value in (GOAL | {"kind": kind}).items() if name != field}
    assert ("missing_field", field) in refusal(data)


def test_a_shot_may_stand_without_a_reading() -> None:
    """It then stands where it was written, and still belongs to a period."""
    shot = {"seq": 3, "kind": "shot", "period": 2, "team": "away"}
    assert event_from_dict(shot).clock is None
    del shot["period"]
    assert refusal(shot) == [("missing_field", "period")]


def test_a_remark_has_both_or_neither() -> None:
    """A reading without a period is no instant, and a period without a reading neither."""
    remark = {"seq": 3, "kind": "remark", "text": "Lights went out"}
    assert event_from_dict(remark).period is None
    assert event_from_dict(remark | {"period": 1, "clock": "3:00"}).clock == "3:00"
    assert refusal(remark | {"clock": "3:00"}) == [("missing_field", "period")]
    assert refusal(remark | {"period": 1}) == [("missing_field", "clock")]


def test_the_header_has_no_reading() -> None:
    """The game is opened before any clock runs."""
    data = event_to_dict(header()) | {"period": 1, "clock": "12:00"}
    assert refusal(data) == [("unknown_field", "period"), ("unknown_field", "clock")]


@pytest.mark.parametrize("reading", ["842", "8.42", "8:60", "-1:00", "8:42.05", "", " 8:42", "8:42 ", "٨:٤٢"])
@pytest.mark.parametrize("field", ["clock", "announced"])
def test_a_reading_parses(field: str, reading: str) -> None:
    """A reading stands as on the board: minutes, a colon, two digits of seconds, perhaps a digit of tenths."""
    assert refusal(PENALTY | {field: reading}) == [("bad_reading", field)]


@pytest.mark.parametrize(
    "moment",
    [
        "2026-01-10",
        "2026-01-10T18:30:05",
        "2026-01-10T18:30:05+01:00",
        "2026-13-10T18:30:05Z",
        "2026-W02-6T18:30:05Z",
        "2026-01-10 18:30:05Z",
        1768069805,
    ],
)
def test_recorded_at_is_a_time_in_utc(moment: object) -> None:
    """RFC 3339, in UTC; no local times, no seconds since some year."""
    assert refusal(GOAL | {"recorded_at": moment}) == [("bad_time", "recorded_at")]


@pytest.mark.parametrize("moment", ["2026-01-10T18:30:05Z", "2026-01-10T18:30:05.25Z", "2026-01-10T18:30:05+00:00"])
def test_the_forms_of_utc(moment: str) -> None:
    """Fractions of a second may be written, and +00:00 is UTC too."""
    assert event_from_dict(GOAL | {"recorded_at": moment}).recorded_at == moment


@pytest.mark.parametrize("field", ["seq", "period", "after", "ends"])
@pytest.mark.parametrize("value", [0, -1])
def test_counting_starts_at_one(field: str, value: int) -> None:
    """There is no event 0 and no period 0."""
    assert refusal(GOAL | {field: value}, event_from_written) == [("too_small", field)]


def test_a_line_of_shots_is_at_least_one() -> None:
    """A count of no shots says nothing."""
    assert refusal(GOAL | {"kind": "shot", "count": 0}) == [("too_small", "count")]


def test_skaters_are_counted_from_zero() -> None:
    """`home` and `away` of an observed strength are numbers, and those of the header are teams."""
    seen = {"seq": 3, "kind": "observed_strength", "period": 1, "clock": "8:00", "home": -1, "away": 5}
    assert refusal(seen) == [("too_small", "home")]


def test_a_penalty_has_parts() -> None:
    """A penalty of no parts is no penalty."""
    assert refusal(PENALTY | {"parts": []}) == [("empty_list", "parts")]
    assert refusal(PENALTY | {"parts": ["minor", "Major"]}) == [("unknown_value", "parts[1]")]


@pytest.mark.parametrize(("minutes", "written"), [(4, "4"), (2.5, "2.5"), (4.0, "4.0")])
def test_minutes_are_kept_as_they_are(minutes: float, written: str) -> None:
    """Penalty minutes are a number, whole or not, and are written as they were given."""
    penalty = event_from_dict(PENALTY | {"minutes": minutes})
    assert isinstance(penalty, PenaltyAssessed)
    assert type(penalty.minutes) is type(minutes)
    assert event_to_line(penalty).decode().endswith(f'"minutes": {written}}}')


@pytest.mark.parametrize("minutes", ["4", True, -2])
def test_minutes_are_a_number_from_zero(minutes: object) -> None:
    """No string, no true, nothing below zero."""
    assert [field for _, field in refusal(PENALTY | {"minutes": minutes})] == ["minutes"]


@pytest.mark.parametrize(
    ("signed", "expected"), [("A. Moss", "A. Moss"), (["A. Moss", "B. Reed"], ("A. Moss", "B. Reed"))]
)
def test_signed_is_one_name_or_several(signed: object, expected: object) -> None:
    """A closing is signed by somebody, or by several people."""
    closing = event_from_dict({"seq": 9, "kind": "game_closed", "outcome": "played", "signed": signed})
    assert isinstance(closing, GameClosed)
    assert closing.signed == expected
    assert event_to_dict(closing)["signed"] == signed


def test_signed_by_a_number() -> None:
    """Neither a number nor a list with one in it is a signature."""
    closing = {"seq": 9, "kind": "game_closed", "outcome": "played"}
    assert refusal(closing | {"signed": 7}) == [("wrong_type", "signed")]
    assert refusal(closing | {"signed": ["A. Moss", 7]}) == [("wrong_type", "signed[1]")]


def test_places_inside_the_header_are_named() -> None:
    """A wrong line of a roster is found by its path."""
    data = event_to_dict(header())
    data["home"] = {"nam": "Larks", "roster": [{"number": "7"}, {"number": 8, "position": "goalie"}, "9"]}
    assert refusal(data) == [
        ("missing_field", "home.name"),
        ("wrong_type", "home.roster[1].number"),
        ("unknown_value", "home.roster[1].position"),
        ("wrong_type", "home.roster[2]"),
        ("unknown_field", "home.nam"),
    ]


def test_officials_are_written_with_their_lists() -> None:
    """`referees` and `linespersons` are written even where nobody is named."""
    data = event_to_dict(header(officials=Officials()))
    assert data["officials"] == {"referees": [], "linespersons": []}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "not_json"),
        ("{", "not_json"),
        ('{"seq": 1} x', "not_json"),
        ('{"seq": 1}{"seq": 2}', "not_json"),
        ("[1]", "not_an_object"),
        ('"goal"', "not_an_object"),
        ('{"seq": NaN}', "not_a_number"),
        ('{"seq": -Infinity}', "not_a_number"),
        ('{"seq": 1e999}', "not_a_number"),
        ('{"seq": 1, "seq": 1}', "duplicate_key"),
        ('{"seq": 1, "home": {"name": "a", "name": "b"}}', "duplicate_key"),
        ('{"note": "\\ud83d"}', "half_a_character"),
        ("[" * 99999, "not_json"),
        ('{"seq": ' + "9" * 5000 + "}", "not_json"),
    ],
)
def test_lines_that_are_no_object_the_log_allows(text: str, code: str) -> None:
    """Each of them is refused before anything is made of it."""
    assert refused_line(text) == [code]


def test_a_pair_of_escapes_is_one_character() -> None:
    """A whole character may be written as two escapes."""
    event = event_from_line('{"seq": 2, "kind": "remark", "text": "\\ud83c\\udfd2"}')
    assert isinstance(event, Remark)
    assert event.text == "🏒"


def test_blanks_around_the_object_do_no_harm() -> None:
    """JSON allows them."""
    assert event_from_line(f"  {json.dumps(GOAL)} ") == event_from_dict(GOAL)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), object(), "\ud83d", {1, 2}])
def test_what_json_cannot_carry_is_not_written(value: object) -> None:
    """A value that no reader could read back is refused when it is written."""
    with pytest.raises(ProblemsFound) as caught:
        event_to_line(Amend(seq=3, target=2, changes={"note": value}, reason="x"))
    assert [problem.code for problem in caught.value.problems] == ["not_json"]


def test_the_object_given_is_left_as_it_was() -> None:
    """Reading an object does not change it."""
    data = dict(GOAL)
    event_from_dict(data)
    assert data == GOAL


@settings(max_examples=60)
@given(events())
def test_equal_events_have_equal_hashes(event: Event) -> None:
    """Every kind can stand in a set, also one that holds an object of JSON; a line read twice is one event there."""
    line = event_to_line(event)
    read, again = event_from_line(line.decode()), event_from_line(line.decode())
    assert hash(read) == hash(again) == hash(event)
    assert {read, again} == {event}
    assert hash(evolve(event, seq=event.seq + 1)) != hash(event)


def test_it_is_stated_of_every_kind_when_it_is() -> None:
    """Whether it carries a period and a reading: a kind that was added and forgotten there is noticed."""
    assert [*WHEN] == [*KINDS]
