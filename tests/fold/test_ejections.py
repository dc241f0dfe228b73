"""What ends a player's game, for each setting; of a player whose number is not known, by the one penalty alone."""

from __future__ import annotations

from typing import Any

import pytest

from rinkfold.timeline.fold.changes import Ejected, PartEnded

from .short_games import game_of, parts_of, told

OFF: dict[str, Any] = {"ejection.major": "never", "ejection.misconducts": 0, "ejection.player_penalties": 0}


def ejected(kind: str, **settings: Any) -> str | None:
    """At which of his penalties of a kind, a minute apart, a player is thrown out."""
    lines = [f"1 {minute}:00 penalty home 4 {kind}" for minute in (18, 17, 16, 15, 14)]
    found = told(Ejected, game_of(*lines, **{**OFF, **settings}))
    assert len(found) <= 1
    return found[0][0] if found else None


@pytest.mark.parametrize(
    ("how", "reading"),
    [("always", "1 18:00"), ("second", "1 17:00"), ("third", "1 16:00"), ("never", None)],
)
def test_majors(how: str, reading: str | None) -> None:
    """The major of the number that the book says."""
    assert ejected("major", **{"ejection.major": how}) == reading
    assert ejected("minor", **{"ejection.major": how}) is None


@pytest.mark.parametrize(("count", "reading"), [(1, "1 18:00"), (2, "1 17:00"), (3, "1 16:00"), (0, None)])
def test_misconducts(count: int, reading: str | None) -> None:
    """The misconduct of that number; 0 is off."""
    assert ejected("misconduct", **{"ejection.misconducts": count}) == reading
    assert ejected("minor", **{"ejection.misconducts": count}) is None


@pytest.mark.parametrize(("count", "reading"), [(1, "1 18:00"), (2, "1 17:00"), (5, "1 14:00"), (0, None)])
def test_penalties(count: int, reading: str | None) -> None:
    """The penalty of that number, whatever its parts; 0 is off."""
    assert ejected("minor+minor", **{"ejection.player_penalties": count}) == reading


UNKNOWN: dict[str, tuple[str, dict[str, Any], bool]] = {
    "a major where every major does": ("major+misconduct", {"ejection.major": "always"}, True),
    "one of two majors": ("major+misconduct", {"ejection.major": "second"}, False),
    "two majors at once": ("major+major+misconduct", {"ejection.major": "second"}, True),
    "two misconducts at once": ("misconduct+misconduct", {"ejection.misconducts": 2}, True),
    "one of two misconducts": ("misconduct", {"ejection.misconducts": 2}, False),
    "the first penalty": ("minor+misconduct", {"ejection.player_penalties": 1}, True),
    "one of two penalties": ("minor+misconduct", {"ejection.player_penalties": 2}, False),
    "a match": ("match+misconduct", {}, True),
    "a game misconduct": ("misconduct+game_misconduct", {}, True),
}


@pytest.mark.parametrize(("parts", "settings", "out"), UNKNOWN.values(), ids=UNKNOWN.keys())
def test_player_not_known_yet(parts: str, settings: dict[str, Any], out: bool) -> None:
    """If the call alone ends his game, whoever he is, nobody serves his misconduct."""
    game = game_of(f"1 18:00 penalty home ? {parts}", "1 18:00 faceoff", **{**OFF, **settings})
    index = parts.split("+").index("misconduct")
    assert (parts_of(game)[f"2.{index}"][2] == "ended by ejection") == out


def test_misconduct_of_one_not_known_ends_at_the_call() -> None:
    """It is over before play resumes, once, so that a ruling finds nothing of it."""
    settings: dict[str, Any] = {**OFF, "ejection.misconducts": 1}
    lines = ("1 18:00 penalty home ? minor+misconduct", "1 18:00 ruling 2", "1 18:00 faceoff")
    assert told(PartEnded, game_of(*lines, **settings)) == [
        ("1 18:00", "home", 2, 1, "ended by ejection", 0),
        ("1 18:00", "home", 2, 0, "ended by ruling", 0),
    ]
