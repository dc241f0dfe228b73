"""A player who changes his number in the midst of a game owes, is given and returns as if it had been his all along."""

from __future__ import annotations

import random
from typing import Any

from agreement.bridge import folded, header, ruleset, skaters
from agreement.comparing import RandomGame, seeded
from attrs import evolve

from rinkfold.timeline import Game
from rinkfold.timeline import events as ev
from rinkfold.timeline.fold.changes import Change, StrengthChanged
from rinkfold.timeline.folded import FoldedGame, fold
from rinkfold.timeline.script.placed import Placed

from .short_games import game_of, returns_of

NEW = "99"
SEEDS = range(2000, 2120)


def numbers(game: RandomGame) -> list[tuple[str, str]]:
    """Everybody who is named by a penalty: side and number."""
    named = [
        (event[4], number)
        for event in game.events
        if event[0] == "penalty"
        for number in (event[5]["player"], event[5]["served_by"])
        if number is not None
    ]
    return sorted(set(named))


def renamed(event: ev.Event, team: str, was: str) -> ev.Event:
    """`event` with the player's new number."""
    if isinstance(event, ev.PenaltyAssessed) and event.team == team:
        return evolve(
            event,
            player=NEW if event.player == was else event.player,
            served_by=NEW if event.served_by == was else event.served_by,
        )
    if isinstance(event, ev.GoalieChange) and event.team == team and event.goalie == was:
        return evolve(event, goalie=NEW)
    return event


def with_new_number(game: RandomGame, one: FoldedGame, team: str, was: str, cut: int) -> FoldedGame:
    """The game in which the player gets his new number right after event number `cut`."""
    before, after = one.placed[: cut + 1], one.placed[cut + 1 :]
    change = ev.RosterChange(seq=10_000, period=1, clock="0:00", team=team, number=NEW, was=was)  # type: ignore[arg-type]
    middle = Placed(change, before[-1].period, before[-1].played)
    script = [*before, middle, *(Placed(renamed(p.event, team, was), p.period, p.played) for p in after)]
    return fold(header(game.goalkeepers), script, ruleset(game.knobs))


def told(game: FoldedGame, team: str, was: str) -> list[list[tuple[Any, ...]]]:
    """The changes of every event, with the player's new number wherever the old one stands.

    Without those of strength: a goalkeeper's new number makes more of them.
    """
    return [
        [with_the_new_number(change, team, was) for change in changes if not isinstance(change, StrengthChanged)]
        for changes in game.changes
    ]


def with_the_new_number(change: Change, team: str, was: str) -> tuple[Any, ...]:
    """The change as a plain tuple."""
    own = getattr(change, "team", None) == team
    return (type(change).__name__, *(NEW if own and value == was else value for value in change))


def goalies(game: FoldedGame, team: str, was: str) -> list[str | None]:
    """Who is in the team's net after every event, with the player's new number."""
    in_net = [state.side(team).goalie for state in game.states]  # type: ignore[arg-type]
    return [NEW if number == was else number for number in in_net]


def without(rows: list[Any], place: int) -> list[Any]:
    """All rows but one."""
    return rows[:place] + rows[place + 1 :]


def same_but_for_the_number(game: RandomGame, team: str, was: str, cut: int) -> bool:
    """Whether a new number after event number `cut` changes nothing but the number, and tells nothing itself."""
    one = folded(game.knobs, game.goalkeepers, game.events)
    two = with_new_number(game, one, team, was, cut)
    here, there = told(one, team, was), told(two, team, was)
    return (
        here == without(there, cut + 1)
        and there[cut + 1] == []
        and goalies(one, team, was) == without(goalies(two, team, was), cut + 1)
        and skaters(one) == skaters(two)
        and all(state.side(team).goalie != was for state in two.states[cut + 1 :])  # type: ignore[arg-type]
    )


def test_a_new_number_changes_nothing_else() -> None:
    """Somebody whom a penalty names, at any place of the game."""
    tried, different = 0, []
    for seed in SEEDS:
        game, rng = seeded(seed), random.Random(seed)
        named = numbers(game)
        if named:
            (team, was), cut = rng.choice(named), rng.randrange(len(game.events) - 1)
            tried += 1
            different += [] if same_but_for_the_number(game, team, was, cut) else [(seed, team, was, cut)]
    assert different == []
    assert tried > len(SEEDS) // 2


def waiting_to_leave(game: FoldedGame) -> list[tuple[int, str, str]]:
    """Who is held, has time off the clock that is up, or returned at this stoppage, after each event but the last."""
    return [
        (place, team, sitter.who)
        for place, state in enumerate(game.states[:-1])
        for team in ("home", "away")
        for side in [state.side(team)]
        for sitter in (*side.held, *side.finished, *(one for at, one, _ in side.returned if at >= state.whistle))
        if sitter.who is not None
    ]


def test_a_new_number_of_somebody_about_to_leave() -> None:
    """Held, waiting for a whistle, or back at this very stoppage, where a call may still keep him in."""
    tried, different = 0, []
    for seed in SEEDS:
        game, rng = seeded(seed), random.Random(seed)
        places = waiting_to_leave(folded(game.knobs, game.goalkeepers, game.events))
        for cut, team, was in rng.sample(places, min(len(places), 2)):
            tried += 1
            different += [] if same_but_for_the_number(game, team, was, cut) else [(seed, team, was, cut)]
    assert different == []
    assert tried > len(SEEDS) // 2


CHANGES_NUMBER = {"kind": "roster_change", "period": 1, "clock": "15:30", "team": "home", "number": "44", "was": "4"}


def test_who_is_held_changes_his_number() -> None:
    """Two minors are up and 6's has begun: 5 has gone back, 4 is held, and at the whistle 44 leaves."""
    calls = tuple(f"1 18:00 penalty home {number} minor" for number in (5, 4, 6))
    game = game_of(*calls, "1 18:00 faceoff", CHANGES_NUMBER, "1 15:00 stoppage")
    assert ("1 15:00", "44", "at stoppage") in returns_of(game)


def test_whose_misconduct_is_over_changes_his_number() -> None:
    """4's misconduct is up and play goes on: at the whistle 44 leaves."""
    change = {**CHANGES_NUMBER, "clock": "7:30"}
    game = game_of("1 18:00 penalty home 4 misconduct", "1 18:00 faceoff", change, "1 7:00 stoppage")
    assert returns_of(game) == [("1 7:00", "44", "at stoppage")]


def sitting(game: Game, moment: str) -> list[tuple[str | None, int]]:
    """Who sits at the moment, and for how long yet, in tenths."""
    return [(one.sits, one.remaining) for one in game.at(moment).box if one.team == "home"]


def home_penalty(clock: str, *parts: str, **more: str) -> dict[str, Any]:
    """A penalty of the home side."""
    return {"kind": "penalty_assessed", "period": 1, "clock": clock, "team": "home", "parts": [*parts], **more}


def new_number(clock: str, was: str, number: str) -> dict[str, Any]:
    """From that reading on who wore `was` wears `number`."""
    return {**CHANGES_NUMBER, "clock": clock, "was": was, "number": number}


def test_who_sits_for_an_offset_bench_minor_changes_his_number() -> None:
    """A stand-in off the clock is known by his new number too."""
    away = {**home_penalty("5:00", "bench_minor", served_by="8"), "team": "away"}
    game = game_of(
        home_penalty("5:00", "bench_minor", served_by="7"), away, "1 5:00 faceoff", new_number("4:30", "7", "17")
    )
    assert sitting(game, "1 4:00") == [("17", 600)]


def test_who_sits_for_a_goalkeepers_misconduct_changes_his_number() -> None:
    """Likewise for a misconduct."""
    game = game_of(
        home_penalty("5:00", "misconduct", player="1", served_by="7"),
        "1 5:00 faceoff",
        new_number("4:30", "7", "17"),
        keepers={"home": ["1"]},
    )
    assert sitting(game, "1 4:00") == [("17", 5400)]


def test_two_who_sit_swap_their_numbers() -> None:
    """Each keeps the time that is his own: 12 with 1:00 left when 21 has 1:30 left wears 21 afterwards."""
    game = game_of(
        home_penalty("10:00", "minor", player="12"),
        "1 10:00 faceoff",
        home_penalty("9:30", "minor", player="21"),
        "1 9:30 faceoff",
        new_number("9:00", "21", "12"),
        new_number("9:00", "12", "21"),
        "1 5:00 stoppage",
    )
    assert sitting(game, "1 9:00") == [("21", 600), ("12", 900)]
    assert returns_of(game) == [("1 8:00", "21", "on expiry"), ("1 7:30", "12", "on expiry")]


def test_a_number_of_somebody_who_sits_is_given_to_another() -> None:
    """Until he gets one of his own he stays apart from the one who wears it now, and keeps his time."""
    game = game_of(
        home_penalty("10:00", "minor", player="12"),
        home_penalty("10:00", "minor", player="21"),
        "1 10:00 faceoff",
        new_number("9:00", "21", "12"),
    )
    assert sitting(game, "1 9:00") == [("12?", 600), ("12", 600)]


def test_a_number_that_is_given_away_twice() -> None:
    """All three stay apart, whoever wears the number now."""
    game = game_of(
        *(home_penalty("10:00", "minor", player=number) for number in ("12", "21", "30")),
        "1 10:00 faceoff",
        new_number("9:00", "21", "12"),
        new_number("8:50", "30", "12"),
    )
    assert sitting(game, "1 8:30") == [("12?", 300), ("12??", 300), ("12", 1200)]


def test_a_number_that_only_has_the_same_digits() -> None:
    """A number of the other side, and one that nothing stands to the name of, are given without a sign behind them."""
    away = {**home_penalty("10:00", "minor", player="12"), "team": "away"}
    game = game_of(
        home_penalty("10:00", "minor", player="21"),
        home_penalty("10:00", "minor", player="30"),
        "1 10:00 faceoff",
        new_number("9:00", "21", "12"),
        "1 8:00 stoppage",
        {**away, "clock": "8:00"},
        new_number("8:00", "30", "13"),
    )
    assert sitting(game, "1 9:00")[0] == ("12", 600)
    assert [who for _, who, _ in returns_of(game)] == ["12", "30"]


def test_a_number_called_at_this_stoppage() -> None:
    """Who is to go in when play resumes has something to his name already."""
    game = game_of(
        home_penalty("10:00", "minor", player="21"),
        "1 10:00 faceoff",
        home_penalty("8:30", "minor", player="12"),
        new_number("8:30", "21", "12"),
        "1 8:30 faceoff",
    )
    assert sitting(game, "1 8:20") == [("12", 200), ("12?", 1100)]


def test_a_stand_in_of_a_call_at_this_stoppage() -> None:
    """Likewise who is to sit in for somebody."""
    game = game_of(
        home_penalty("10:00", "minor", player="21"),
        "1 10:00 faceoff",
        home_penalty("8:30", "bench_minor", served_by="12"),
        new_number("8:30", "21", "12"),
        "1 8:30 faceoff",
    )
    assert sitting(game, "1 8:20") == [("12", 200), ("12?", 1100)]


def test_nobody_known_takes_the_number_of_one_who_sits() -> None:
    """It may be one entry written twice, so the one who sits keeps the number."""
    game = game_of(home_penalty("10:00", "minor", player="12"), "1 10:00 faceoff", new_number("9:00", "30", "12"))
    assert sitting(game, "1 9:00") == [("12", 600)]


def test_a_stand_in_whose_number_is_given_away() -> None:
    """Somebody who only sits in for another has something to his name as well."""
    game = game_of(
        home_penalty("10:00", "bench_minor", served_by="12"),
        home_penalty("10:00", "minor", player="21"),
        "1 10:00 faceoff",
        new_number("9:00", "21", "12"),
    )
    assert sorted(sitting(game, "1 9:00"), key=repr) == [("12", 600), ("12?", 600)]


def test_the_same_number_again() -> None:
    """An entry that says what is so already changes nothing."""
    game = game_of(home_penalty("10:00", "minor", player="12"), "1 10:00 faceoff", new_number("9:00", "12", "12"))
    assert sitting(game, "1 9:00") == [("12", 600)]
