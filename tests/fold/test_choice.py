"""Which parts stay on the clock when there is a choice: each criterion where the later ones would choose otherwise."""

from __future__ import annotations

from rinkfold.timeline import Game

from .short_games import game_of


def played(*calls: str, at: str = "1 17:00") -> Game:
    """A game of calls at one stoppage, with play going on after it."""
    return game_of(*(f"{at} penalty {call}" for call in calls), f"{at} faceoff")


def offset(game: Game) -> list[str]:
    """The parts off the clock, as ``"2.0"``: the penalty and the place of the part."""
    return [
        f"{life.penalty}.{index}"
        for life in game.penalties
        for index, part in enumerate(life.parts)
        if part.fate == "offset"
    ]


def on_clock(game: Game, team: str) -> list[str]:
    """The parts of a side that run on the clock or wait."""
    side = game.folded.standing.side(team)  # type: ignore[arg-type]
    return [f"{part.penalty}.{part.index}" for chain in side.slots + side.queue for part in chain.clock]


def test_fewest_short_outranks_who_was_assessed_first() -> None:
    """12 needs a stand-in whatever is chosen; offsetting 14's minor leaves one short, 12's first minor two."""
    game = played("home 12 minor+minor+misconduct", "home 14 minor", "away 9 minor")
    assert on_clock(game, "home") == ["2.0", "2.1"]
    assert game.at("1 17:00").strength.label == "4 on 5"


def test_fewest_stand_ins_outranks_who_was_assessed_first() -> None:
    """One short either way: 12, who has a misconduct besides, would need a stand-in, 14 sits himself."""
    game = played("home 14 minor", "home 12 minor+misconduct", "away 9 minor")
    assert on_clock(game, "home") == ["2.0"]
    assert offset(game) == ["3.0", "4.0"]


def test_assessed_first_is_offset_first() -> None:
    """One short either way, nobody needs a stand-in: the first one leaves the clock."""
    game = played("home 14 minor", "home 12 minor", "away 9 minor")
    assert on_clock(game, "home") == ["3.0"]
    assert offset(game) == ["2.0", "4.0"]


def test_the_choice_beside_a_ruled_pair() -> None:
    """An official's pair on the clock does not change how the others are counted."""
    pair = ("home 20 minor on_clock=true", "away 21 minor on_clock=true")
    game = played("home 12 minor+minor+misconduct", "home 14 minor", "away 9 minor", *pair)
    assert on_clock(game, "home") == ["2.0", "2.1", "5.0"]
    assert on_clock(game, "away") == ["6.0"]


def test_offset_time_of_a_ruled_pair_needs_a_stand_in_too() -> None:
    """In an overtime of three the pair is offset: one short either way, 12 would need a stand-in, 14 sits himself."""
    calls = (
        "home 14 minor",
        "home 12 minor on_clock=true",
        "home 12 minor",
        "away 21 minor on_clock=true",
        "away 9 minor",
    )
    game = played(*calls, at="4 4:00")
    assert on_clock(game, "home") == ["2.0"]
    assert on_clock(game, "away") == []
