"""Every event has an entry, and every entry that is understood is understood the same when it is said back."""

from __future__ import annotations

import pytest
from attrs import evolve
from entries.common import GAME, entered
from hypothesis import given
from hypothesis import strategies as st
from strategies import events

from rinkfold.cli.entries import Entry, EntryContext, parse_entry, print_entry
from rinkfold.cli.entries.words import FILLERS, OPTIONS, TEAMS, VERBS
from rinkfold.timeline.events import (
    Amend,
    Event,
    Goal,
    PartKind,
    PenaltyAssessed,
    RosterChange,
    Shot,
    Stoppage,
    Void,
)

contexts = st.builds(
    EntryContext,
    home=st.sampled_from([(), ("A", "White"), ("go", "home")]),
    away=st.sampled_from([(), ("H", "Gold"), ("penalty",)]),
    period=st.integers(1, 5),
    played=st.integers(0, 9000),
    last_seq=st.none() | st.integers(1, 99),
    counting=st.sampled_from(["remaining", "elapsed"]),
)
_OPTION_PHRASES = [phrase for phrases in OPTIONS.values() for phrase in phrases]
_PHRASES = [phrase for table in (TEAMS, VERBS, FILLERS) for phrases in table.values() for phrase in phrases]
_OTHERS = [
    "9:15",
    "915",
    "58",
    "2",
    "12",
    "?",
    "2+10",
    "+",
    "minor",
    "x3",
    "#23",
    "last",
    '"',
    "“",
    "”",
    "{",
    "[",
    "late",
    "1",
    "7,42",
    "7:",
    ".5",
    "3rd",
    "2min",
    "min",
    "and",
    "16/18",
    "coach",
    "horn",
    "save",
    "reading",
]
scraps = st.lists(st.sampled_from(_OPTION_PHRASES + _PHRASES + _OTHERS), max_size=9).map(" ".join)


def round_trip(event: Event) -> Event:
    return entered(print_entry(event, GAME))


@given(events(), contexts)
def test_every_event_comes_back_from_its_entry(event: Event, context: EntryContext) -> None:
    """Every kind with every field has an entry that is read as the event again, wherever the game stands."""
    text = print_entry(event, context)
    result = parse_entry(text, context)
    assert isinstance(result, Entry), (text, result)
    assert result.event == evolve(event, seq=0)
    assert result.late is text.startswith("late ")


@given(scraps | st.text(max_size=30), contexts)
def test_whatever_is_typed_gets_an_answer(text: str, context: EntryContext) -> None:
    """Nothing that is typed makes the reader fail; what is said back means the same; what is offered can be entered."""
    result = parse_entry(text, context)
    if isinstance(result, Entry):
        assert entered(result.understood, context) == result.event
        return
    assert result.message
    for offer in result.offers:
        offered = parse_entry(offer, context)
        assert isinstance(offered, Entry) or offered.code == "entry_ambiguous"


def test_a_text_with_quotes_and_words_of_ours_survives() -> None:
    """Free text may hold any character and any word that means something in an entry."""
    for text in (
        'said "go" twice',
        "by the boards after 23",
        "#23",
        " padded ",
        "",
        "?",
        "two\nlines",
        "naïve “x”",
        "a\\b",
    ):
        stop = Stoppage(seq=0, period=2, clock="7:00", reason=text, note=text, by=text)
        assert round_trip(stop) == stop
        call = PenaltyAssessed(
            seq=0, period=2, clock="7:00", team="home", staff=text, parts=("minor",), infraction=text, rule=text
        )
        assert round_trip(call) == call


def test_infractions_with_words_of_ours_survive() -> None:
    """What a penalty is for may be named like a part or a field, and may hold a number."""
    for text in ("game", "minor", "delay of game", "10 men", "served", "on clock", "from behind", "penalty shot", "no"):
        call = PenaltyAssessed(
            seq=0,
            period=2,
            clock="7:00",
            team="home",
            player="7",
            parts=("bench_minor", "game_misconduct"),
            infraction=text,
            penalty_shot=True,
        )
        assert round_trip(call) == call


@pytest.mark.parametrize("parts", [("minor",), ("bench_minor",), ("major", "game_misconduct"), ("minor", "minor")])
def test_texts_like_lengths_and_numbers_survive(parts: tuple[PartKind, ...]) -> None:
    """What is tolerated in typing changes no text that a log has."""
    for text in (
        "min",
        "min.",
        "2 min",
        "minutes 4",
        "and 10",
        "plus game",
        "coach",
        "7: 42",
        "7,42",
        "3rd",
        "reading",
    ):
        call = PenaltyAssessed(seq=0, period=2, clock="7:00", team="home", staff=text, parts=parts, infraction=text)
        assert round_trip(call) == call
        call = evolve(call, staff=None, announced="2:00", minutes=4)
        assert round_trip(call) == call
    for text in ("2", "#24", "24 and 25", "last 3", "all", "2 men", "+"):
        void = Void(seq=0, target=23, reason=text)
        assert round_trip(void) == void


def test_jersey_numbers_are_kept_as_written() -> None:
    """00 is not 0, and a number that is none is kept too."""
    for number in ("00", "0", "07", "7A", "?", "", "out"):
        goal = Goal(seq=0, period=2, clock="7:00", team="home", scorer=number, assists=(number, "3"))
        assert round_trip(goal) == goal
        shot = Shot(seq=0, period=2, team="away", player=number, count=2)
        assert round_trip(shot) == shot
        change = RosterChange(seq=0, team="away", number=number, was=number)
        assert round_trip(change) == change


def test_unassisted_is_not_the_same_as_not_known() -> None:
    """An empty list of assists says that there was none; no list says that nobody knows yet."""
    assert print_entry(entered("850 h goal 3 unassisted"), GAME) == "2 8:50 home goal 3 unassisted"
    assert print_entry(entered("850 h goal 3"), GAME) == "2 8:50 home goal 3"


def test_changes_are_printed_as_people_write_them() -> None:
    """JSON is printed only where a change cannot be said otherwise."""
    plain = Amend(
        seq=0,
        target=23,
        reason="misheard",
        changes={
            "clock": "9:15",
            "scorer": "17",
            "assists": [],
            "parts": ["minor", "misconduct"],
            "team": "away",
            "own_goal": False,
            "goalie": None,
            "served_by": None,
            "minutes": 2.5,
            "infraction": "delay of game",
        },
    )
    assert print_entry(plain, GAME) == (
        "amend #23 clock 9:15 scorer 17 assists unassisted parts minor+misconduct team away own_goal no goalie out "
        'served_by ? minutes 2.5 infraction "delay of game" because misheard'
    )
    odd = Amend(seq=0, target=23, changes={"count": True, "where": "ice"}, reason="")
    assert print_entry(odd, GAME) == 'amend #23 {"count": true, "where": "ice"} because ""'
    assert round_trip(plain) == plain
    assert round_trip(odd) == odd
