"""What each entry becomes in the log."""

from __future__ import annotations

from typing import Any

import pytest
from attrs import evolve
from entries.common import GAME, entered, refused
from strategies import header

from rinkfold.cli.entries import Entry, EntryContext, parse_entry, print_entry
from rinkfold.cli.entries.readings import typed_reading
from rinkfold.timeline.events import (
    Amend,
    ClockSet,
    Event,
    Faceoff,
    Goal,
    GoalieChange,
    PenaltyAssessed,
    PenaltyEnded,
    PeriodEnd,
    ShootoutAttempt,
    Shot,
    Stoppage,
    TeamSheet,
    Timeout,
    Void,
)
from rinkfold.timeline.rules import GameRules, Ruleset

TRIPPING = PenaltyAssessed(
    seq=0, period=2, clock="9:15", team="home", player="12", parts=("minor",), infraction="tripping"
)


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("2 9:15 home penalty 12 minor tripping", TRIPPING),
        ("915 w pen 12 2 tripping", TRIPPING),
        (
            "9:15 h pen 12 2+10 checking from behind served 8",
            evolve(TRIPPING, parts=("minor", "misconduct"), infraction="checking from behind", served_by="8"),
        ),
        (
            "9:15 away bench minor too many players served 4",
            evolve(
                TRIPPING,
                team="away",
                player=None,
                parts=("bench_minor",),
                infraction="too many players",
                served_by="4",
            ),
        ),
        (
            "8:50 away goal 17 from 16 18",
            Goal(seq=0, period=2, clock="8:50", team="away", scorer="17", assists=("16", "18")),
        ),
        ("850 a goal 42 unassisted", Goal(seq=0, period=2, clock="8:50", team="away", scorer="42", assists=())),
        ("850 a goal ?", Goal(seq=0, period=2, clock="8:50", team="away")),
        ("away shot", Shot(seq=0, period=2, team="away")),
        ("away shot x3", Shot(seq=0, period=2, team="away", count=3)),
        ("away shots 11", Shot(seq=0, period=2, team="away", count=11)),
        ("away shot 11", Shot(seq=0, period=2, team="away", player="11")),
        ("700 stop offside", Stoppage(seq=0, period=2, clock="7:00", reason="offside")),
        ("700 go", Faceoff(seq=0, period=2, clock="7:00")),
        ("700 h goalie 31", GoalieChange(seq=0, period=2, clock="7:00", team="home", goalie="31")),
        ("58 h goalie out", GoalieChange(seq=0, period=2, clock="0:58", team="home", goalie=None)),
        ("310 away timeout", Timeout(seq=0, period=2, clock="3:10", team="away")),
        ("end period", PeriodEnd(seq=0, period=2, clock="0:00")),
        (
            "615 h door 12 open",
            PenaltyEnded(seq=0, period=2, clock="6:15", team="home", penalty=23, cause="released"),
        ),
        ("void last", Void(seq=0, target=40, reason="taken back")),
        ("void 23 wrong side", Void(seq=0, target=23, reason="wrong side")),
        ("amend 23 clock 9:15", Amend(seq=0, target=23, changes={"clock": "9:15"}, reason="corrected")),
        ("700 clock 7:08 late horn", ClockSet(seq=0, period=2, clock="7:00", to="7:08", reason="late horn")),
    ],
)
def test_what_is_typed_at_the_table(text: str, event: Event) -> None:
    """Each of these entries is exactly this event."""
    assert entered(text) == event


@pytest.mark.parametrize(
    ("said", "parts"),
    [
        ("2", ["minor"]),
        ("2+2", ["minor", "minor"]),
        ("2 + 2", ["minor", "minor"]),
        ("4", ["minor", "minor"]),
        ("double minor", ["minor", "minor"]),
        ("5", ["major"]),
        ("5+game", ["major", "game_misconduct"]),
        ("major + game misconduct", ["major", "game_misconduct"]),
        ("2+10", ["minor", "misconduct"]),
        ("2+2+10", ["minor", "minor", "misconduct"]),
        ("10", ["misconduct"]),
        ("10 misconduct", ["misconduct"]),
        ("2 minor", ["minor"]),
        ("2 bench minor", ["bench_minor"]),
        ("5 match", ["match"]),
        ("match penalty", ["match"]),
        ("game", ["game_misconduct"]),
        ("BENCH+Game", ["bench_minor", "game_misconduct"]),
    ],
)
def test_parts_as_they_are_announced(said: str, parts: list[str]) -> None:
    """The numbers and the words name the same parts, in the order said; what follows is what the penalty is for."""
    event = entered(f"915 h pen 12 {said} delay of game")
    assert isinstance(event, PenaltyAssessed)
    assert (list(event.parts), event.infraction) == (parts, "delay of game")


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("9:15", "9:15"),
        ("09:15", "09:15"),
        ("915", "9:15"),
        ("1200", "12:00"),
        ("9.15", "9:15"),
        ("58", "0:58"),
        ("05", "0:05"),
        ("00", "0:00"),
        ("45.3", "0:45.3"),
        ("9.5", "0:09.5"),
        ("915.3", "9:15.3"),
        ("0:45.0", "0:45.0"),
        ("5", None),
        ("60", None),
        ("975", None),
        ("9:5", None),
        ("9:15.25", None),
        ("nine", None),
    ],
)
def test_readings(text: str, reading: str | None) -> None:
    """A reading written in full stays as it is; a lone digit and sixty seconds or more are no reading."""
    assert typed_reading(text) == reading


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("own goal", {"own_goal": True}),
        ("not own goal", {"own_goal": False}),
        ("awarded empty net ends 23", {"awarded": True, "empty_net": True, "ends": 23}),
        ("from 16, 18 ends #23 note by the post", {"assists": ("16", "18"), "ends": 23, "note": "by the post"}),
        ("after 23 by Kim", {"after": 23, "by": "Kim"}),
        ("note “the net was off” after last", {"note": "the net was off", "after": 40}),
    ],
)
def test_what_stands_behind_a_goal(text: str, expected: dict[str, Any]) -> None:
    """Options stand in any order and set their fields, and no others."""
    goal = Goal(seq=0, period=2, clock="8:50", team="away", scorer="17")
    assert entered(f"850 a goal 17 {text}") == evolve(goal, **expected)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("delayed", {"delayed_call": True}),
        ("on the clock", {"on_clock": True}),
        ("off clock", {"on_clock": False}),
        ("shot", {"penalty_shot": True}),
        ("announced 2:00", {"announced": "2:00"}),
        ("announced 2", {"announced": "2:00"}),
        ("announced 130", {"announced": "1:30"}),
        ("minutes 4 rule 57.2 served by 8", {"minutes": 4, "rule": "57.2", "served_by": "8"}),
        ("after 23 delayed call", {"after": 23, "delayed_call": True}),
    ],
)
def test_what_stands_behind_a_penalty(text: str, expected: dict[str, Any]) -> None:
    """Options end what the penalty is for."""
    assert entered(f"915 h pen 12 2 tripping {text}") == evolve(TRIPPING, **expected)


def test_a_label_may_have_an_options_word_that_is_none() -> None:
    """`after` is an option only before the number of an entry."""
    event = entered("915 h pen 12 2 roughing after the whistle")
    assert event == evolve(TRIPPING, infraction="roughing after the whistle")


def test_a_reason_takes_in_what_follows() -> None:
    """In free text `by`, `after` and `note` are plain words until their value is quoted or has its #."""
    event = entered('700 stop puck hit by referee after 20 seconds by "Kim" after #23')
    assert event == Stoppage(
        seq=0, period=2, clock="7:00", reason="puck hit by referee after 20 seconds", by="Kim", after=23
    )


def test_case_does_not_matter() -> None:
    """Telephones begin a line with a capital letter."""
    assert entered("915 H Pen 12 2 tripping") == TRIPPING


def test_the_period_is_that_of_the_entry_before() -> None:
    """A period is written only where it changes; overtimes have names and numbers."""
    assert entered("915 h timeout").period == 2
    assert entered("3 1500 h timeout").period == 3
    assert entered("OT 5:00 h timeout").period == 4
    assert entered("OT2 5:00 h timeout").period == 5
    assert entered("p3 h shot").period == 3
    assert entered("period 12 1:00 h timeout", evolve(GAME, period=12, played=0)).period == 12


def test_the_same_reading_is_not_past() -> None:
    """A faceoff stands at the reading of the whistle before it."""
    assert entered("9:20 go").clock == "9:20"
    assert refused("9:20.1 go").code == "entry_past"


def test_a_board_that_counts_up() -> None:
    """With a board that shows what is over, earlier readings are the smaller ones, and a period ends at its length."""
    up = evolve(GAME, counting="elapsed")
    assert entered("end period", up).clock == "15:00"
    assert entered("5:40 go", up).clock == "5:40"
    assert refused("5:39 go", up).offers == (
        "3 5:39 go",
        "late 5:39 go",
    )


def test_what_is_not_ordered_by_the_clock_is_never_late() -> None:
    """Figures of the first period are written in the second without a word about it; so is an entry with its place."""
    assert entered("1 0:00 h figures shots 9 source board").period == 1
    assert entered("14:40 a goal 17 after 12").after == 12


def test_starters_stand_at_the_opening_faceoff() -> None:
    """Before anything has happened a goalkeeper needs no reading; later one does."""
    opening = EntryContext()
    assert entered("home goalie 31", opening) == GoalieChange(seq=0, period=1, clock="15:00", team="home", goalie="31")
    assert refused("home goalie 31").code == "entry_reading"


def test_the_clock_stands_in_a_shootout() -> None:
    """An attempt stands at the reading of the entry before it."""
    over = evolve(GAME, period=4, played=3000)
    assert entered("h so 9 goal", over) == ShootoutAttempt(
        seq=0, period=4, clock="0:00", team="home", player="9", result="scored"
    )


def test_teams_by_name() -> None:
    """A team is told by its name, short name or colour, or by how one of them begins; `home` is always home."""
    game = evolve(GAME, home=("OAK", "White", "Oak Hill Larks"), away=("home", "Black", "Bears"))
    for name in ("oak", "white", "w", "oak hill larks", "o", "h", "home"):
        assert entered(f"915 {name} timeout", game) == Timeout(seq=0, period=2, clock="9:15", team="home")
    assert entered("915 b timeout", game) == Timeout(seq=0, period=2, clock="9:15", team="away")


def test_the_short_forms_win_over_the_beginning_of_a_name() -> None:
    """`g` is a goal, whatever a team is called."""
    assert isinstance(entered("850 a g 17"), Goal)
    assert refused("915 g timeout").offers == ("915 green timeout",)


def test_context_of_a_game() -> None:
    """The names come from the opening, periods and counting from the ruleset."""
    opened = header(home=TeamSheet(name="Larks", short="LRK", colour="red"), away=TeamSheet(name="Otters"))
    rules = Ruleset(game=GameRules(period_length=7200, reading="elapsed"))
    context = EntryContext.for_game(opened, rules, last_seq=1)
    assert context == EntryContext(
        home=("LRK", "red", "Larks"), away=("Otters",), last_seq=1, period_length=7200, counting="elapsed"
    )


def test_an_entry_says_whether_it_is_late() -> None:
    """Whoever appends an entry knows whether `late` was written."""
    results = [parse_entry(text, GAME) for text in ("late 14:40 go", "7:00 go")]
    assert [result.late for result in results if isinstance(result, Entry)] == [True, False]


def test_amending_with_an_equals_sign() -> None:
    """`field=value`, as on the command line, is the same as the two words."""
    assert entered("amend 23 clock=9:15 scorer=17") == entered("amend 23 clock 9:15 scorer 17")


def test_amending_a_text_and_more() -> None:
    """A quoted text is followed by further changes; behind `because` stand the amendment's own reason and fields."""
    event = entered('amend 23 infraction "hooking" clock 9:15 announced 2 because misread by "Kim"')
    changes = {"infraction": "hooking", "clock": "9:15", "announced": "2:00"}
    assert event == Amend(seq=0, target=23, changes=changes, reason="misread", by="Kim")


def test_a_period_and_seconds_where_nothing_else_can_be_meant() -> None:
    """At 2:30 of the second period a reading of 2:58 has passed, so `2 58` can only be the period and 58 seconds."""
    event = entered("2 58 away goal 17", evolve(GAME, played=7500))
    assert (event.period, event.clock) == (2, "0:58")


@pytest.mark.parametrize(
    ("text", "target", "reason"),
    [
        ("undo wrong side", 40, "wrong side"),
        ("undo last", 40, "last"),
        ("undo all his fault", 40, "all his fault"),
        ('undo "2 entries for one"', 40, "2 entries for one"),
        ("void 23 2 men had that number", 23, "2 men had that number"),
        ('void 23 "24"', 23, "24"),
    ],
)
def test_a_reason_in_words_or_in_quotes(text: str, target: int, reason: str) -> None:
    """What can only be a reason is one, and is printed so that it is understood again."""
    event = entered(text)
    assert isinstance(event, Void)
    assert (event.target, event.reason) == (target, reason)
    assert entered(print_entry(event, GAME)) == event


@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("2min", ("minor",)),
        ("2 min", ("minor",)),
        ("2 min.", ("minor",)),
        ("2 minutes", ("minor",)),
        ("2-minute", ("minor",)),
        ("2 min minor", ("minor",)),
        ("minor 2", ("minor",)),
        ("minor 2 min", ("minor",)),
        ("minor penalty", ("minor",)),
        ("4 minutes", ("minor", "minor")),
        ("double minor 4 min", ("minor", "minor")),
        ("5 min major", ("major",)),
        ("5 min match", ("match",)),
        ("major penalty", ("major",)),
        ("5 min + game", ("major", "game_misconduct")),
        ("5min+gm", ("major", "game_misconduct")),
        ("2 min+10 min misc", ("minor", "misconduct")),
        ("2 and 10", ("minor", "misconduct")),
        ("minor plus misconduct", ("minor", "misconduct")),
        ("10 minutes misconduct", ("misconduct",)),
        ("bench 2", ("bench_minor",)),
        ("2 min bench minor", ("bench_minor",)),
        ("gm", ("game_misconduct",)),
    ],
)
def test_the_length_with_its_unit(typed: str, parts: tuple[str, ...]) -> None:
    """Minutes are the length of the part, never what it is for."""
    event = entered(f"915 h pen 12 {typed} tripping")
    assert isinstance(event, PenaltyAssessed)
    assert (event.player, event.parts, event.infraction) == ("12", parts, "tripping")


def test_the_announced_length_with_its_unit() -> None:
    """It is a length there too."""
    assert entered("915 h pen 12 2 tripping announced 2 min") == evolve(TRIPPING, announced="2:00")
    assert entered("915 h pen 12 2 tripping announced 2 minutes 4") == evolve(TRIPPING, announced="2:00", minutes=4)


def test_minutes_with_a_number_are_the_minutes_written() -> None:
    """`minutes 4` stays what it was, directly behind the length too."""
    event = entered("915 h pen 12 2 minutes 4 tripping")
    assert event == evolve(TRIPPING, minutes=4)
    assert entered("915 h pen 12 2 min minutes 4 tripping") == event


@pytest.mark.parametrize(
    "text",
    [
        "915 h bench too many players",
        "915 h bench 2 too many players",
        "915 h bm 2min too many players",
        "915 h bench minor 2 minutes too many players",
        "915 h pen bench too many players",
        "915 h pen bench 2 too many players",
        "915 h pen bench minor 2 min too many players",
        "915 h pen bench minor penalty too many players",
        "915 h pen ? bench 2 too many players",
    ],
)
def test_one_bench_minor(text: str) -> None:
    """However its length is said, it is one part, and nobody's number."""
    event = entered(text)
    assert isinstance(event, PenaltyAssessed)
    assert (event.player, event.parts, event.infraction) == (None, ("bench_minor",), "too many players")


@pytest.mark.parametrize(
    ("typed", "offers"),
    [("742 horn", ("742 stop horn",)), ("0:00 horn", ("0:00 end period",)), ("horn", ("end period",))],
)
def test_the_horn(typed: str, offers: tuple[str, ...]) -> None:
    """With the time over it ends the period; before that it stopped play."""
    assert refused(typed).offers == offers


@pytest.mark.parametrize(
    ("typed", "period", "clock"),
    [
        ("7,42", 2, "7:42"),
        ("7;42", 2, "7:42"),
        ("7: 42", 2, "7:42"),
        ("7 :42", 2, "7:42"),
        ("7 : 42", 2, "7:42"),
        ("7:42,3", 2, "7:42.3"),
        ("45,3", 2, "0:45.3"),
        (".5", 2, "0:00.5"),
        (",5", 2, "0:00.5"),
        (":58", 2, "0:58"),
        ("3 7: 42", 3, "7:42"),
        ("3rd 742", 3, "7:42"),
        ("3rd period 7,42", 3, "7:42"),
        ("4th 2:00", 4, "2:00"),
    ],
)
def test_readings_typed_in_other_ways(typed: str, period: int, clock: str) -> None:
    """A number pad's comma, a missed shift key, a blank too many: the log has the one written form."""
    event = entered(f"{typed} away timeout")
    assert (event.period, event.clock) == (period, clock)


@pytest.mark.parametrize("typed", ["16 18", "16, 18", "16,18", "16/18", "16+18", "16&18", "16 & 18", "16 and 18"])
def test_assists_joined_in_any_way(typed: str) -> None:
    """Two numbers are two players, however they are joined."""
    assert entered(f"850 a goal 17 from {typed} empty net") == entered("850 a goal 17 from 16 18 empty net")
    assert entered(f"amend 23 assists {typed}") == entered("amend 23 assists 16 18")


@pytest.mark.parametrize("typed", ["coach", "head coach", "assistant coach"])
def test_somebody_of_the_bench_without_a_number(typed: str) -> None:
    """The word says that it is no player."""
    event = entered(f"742 h p {typed} bench minor abuse")
    assert isinstance(event, PenaltyAssessed)
    assert (event.player, event.staff, event.parts) == (None, typed, ("bench_minor",))
