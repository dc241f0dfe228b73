"""A game opened from Python: the settings given are applied, and its first line is checked at once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import LiveGame, Officials, PenaltyAssessed, Player, ProblemsFound, TeamSheet, replay
from rinkfold.timeline.record import append, create, read_log

ADULT = rulesets.load("adult")


def refused(**fields: Any) -> list[tuple[str, str | None]]:
    with pytest.raises(ProblemsFound) as caught:
        LiveGame.open(ADULT, **({"home": "Larks", "away": "Herons"} | fields))
    return [(problem.code, problem.field) for problem in caught.value.problems]


def test_settings_are_applied_and_pinned(tmp_path: Path) -> None:
    """What the first line names is what is pinned in it and computed by, also after the file is read again."""
    live = LiveGame.open(ADULT, home="Larks", away="Herons", settings={"lengths.minor": "1:00"})
    assert (live.rules.lengths.minor, live.rules.sources["lengths.minor"]) == (600, "set for this game")
    assert live.header.settings == {"lengths.minor": "1:00"}
    assert live.header.pinned == rulesets.pin(live.rules)
    call = PenaltyAssessed(seq=0, period=1, clock="9:15", team="home", player="12", parts=("minor",))
    live.record(call)
    path = tmp_path / "game.jsonl"
    create(path, live.events[0])
    append(path, live.events[1:])
    game = replay(read_log(path))
    assert game.rules == live.rules
    assert game.now.box[0].remaining == live.now.box[0].remaining == 600


def test_settings_that_are_none_are_refused() -> None:
    """Each with its name: no such knob, no value of it, or what does not go together."""
    assert refused(settings={"lengths.minr": "banana", "ice.skaters": 99}) == [
        ("unknown_knob", "settings.lengths.minr"),
        ("out_of_range", "settings.ice.skaters"),
    ]
    assert refused(settings={"ice.skaters": 4}) == [("impossible_combination", "settings.overtime.skaters")]


def test_the_first_line_is_checked_at_once() -> None:
    """Every field that `create` would refuse, and every name that a first line does not have."""
    assert refused(home=None, rink=5, rnk="x") == [
        ("wrong_type", "home"),
        ("wrong_type", "rink"),
        ("unknown_field", "rnk"),
    ]
    assert refused(game=7) == [("wrong_type", "game")]
    with pytest.raises(ProblemsFound, match=r'rnk: There is no such field in "game_opened"\. Did you mean "rink"\?'):
        LiveGame.open(ADULT, home="Larks", away="Herons", rnk="x")


def test_what_opening_sets_itself_is_not_given() -> None:
    """The ruleset and the copy of it, the format and the number."""
    assert refused(pinned={}, seq=3) == [("fixed_field", "pinned"), ("fixed_field", "seq")]


def test_sheets_and_officials_are_taken_as_they_are() -> None:
    """A team with its roster, and who officiates."""
    sheet = TeamSheet(name="Larks", roster=(Player(number="7", letter="C"),))
    officials = Officials(referees=("R. Alder",))
    live = LiveGame.open(ADULT, home=sheet, away="Herons", officials=officials, date="2026-01-10")
    assert (live.header.home, live.header.officials, live.header.date) == (sheet, officials, "2026-01-10")
    assert (live.header.seq, live.header.ruleset, live.header.settings) == (1, "adult", None)
