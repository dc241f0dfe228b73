"""The published worked examples: each book's ruling, run through the engine."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from cases.timeline_text import told

from rinkfold import rulesets
from rinkfold.timeline import Game, Log, event_from_dict, replay
from rinkfold.timeline.fold.changes import Returned, ReturnWithdrawn

CASES: list[dict[str, Any]] = json.loads(Path(__file__).with_name("published.json").read_text(encoding="utf-8"))


def log_of(case: dict[str, Any]) -> Log:
    """The case's events as a log."""
    events = tuple(event_from_dict(event) for event in case["events"])
    return Log(name=case["id"], header=events[0], events=events, chained=False, head="")  # type: ignore[arg-type]


def returned(game: Game, tenth: int) -> list[str]:
    """Who went back at a tenth: ``"A15"`` a player, ``"A-sub"`` somebody who sat for another."""
    back: list[tuple[str, str | None, str]] = []
    for change in game.folded.all_changes():
        if isinstance(change, Returned) and change.at == tenth:
            side = "A" if change.team == "home" else "B"
            back.append((side, change.who, f"{side}{change.who}" if change.role == "player" else f"{side}-sub"))
        if isinstance(change, ReturnWithdrawn) and change.at == tenth:
            side = "A" if change.team == "home" else "B"
            back = [one for one in back if one[:2] != (side, change.who)]
    return [name for _, _, name in back]


def matches(found: list[str], expected: list[str]) -> bool:
    """The players named are those expected; a stand-in is written in words that differ from book to book."""
    players = sorted(name for name in expected if name[1:].isdigit())
    return sorted(name for name in found if name[1:].isdigit()) == players and len(found) == len(expected)


def waiting_for_a_whistle(game: Game, moment: str) -> list[str]:
    """The players who leave at the next stoppage: their time is up."""
    return sorted(
        ("A" if one.team == "home" else "B") + (one.sits or "-sub")
        for one in game.at(moment).box
        if one.out.how == "at stoppage" and one.remaining == 0
    )


def off_the_clock(game: Game, moment: str) -> list[str]:
    """The players who will leave at the first stoppage after their time."""
    return sorted(
        ("A" if one.team == "home" else "B") + (one.sits or "-sub")
        for one in game.at(moment).box
        if one.out.how == "at stoppage"
    )


def mistakes(game: Game, row: dict[str, Any]) -> tuple[int, list[str]]:
    """The tenth of an expectation, and what the engine says otherwise there."""
    moment = f"{row['period']} {row['clock']}"
    state = game.at(moment).state
    wrong = []
    if "home" in row and (state.home.on_ice, state.away.on_ice) != (row["home"], row["away"]):
        wrong.append(f"skaters {state.home.on_ice} on {state.away.on_ice}, expected {row['home']} on {row['away']}")
    if "returns" in row and not matches(found := returned(game, state.now), row["returns"]):
        wrong.append(f"returns {found}, expected {row['returns']}")
    if "returns_at_next_stoppage" in row:
        waiting = waiting_for_a_whistle(game, moment) or off_the_clock(game, moment)
        if waiting != row["returns_at_next_stoppage"]:
            wrong.append(f"wait for a whistle {waiting}, expected {row['returns_at_next_stoppage']}")
    return state.now, wrong


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_published_ruling(case: dict[str, Any]) -> None:
    """The engine decides as the book does, at every reading that the book states."""
    log = log_of(case)
    game = replay(log, rulesets.of(log))
    for row in case["expect"]:
        tenth, wrong = mistakes(game, row)
        if wrong:
            source = case["source"]
            expected = "\n".join(f"  {one}" for one in case["expect"])
            pytest.fail(
                f"{source['publisher']}, {source['title']}, {source['locator']}\n"
                f"at {row['period']} {row['clock']}: {'; '.join(wrong)}\n"
                f"expected:\n{expected}\nthe engine, up to there:\n{told(game.folded, tenth)}"
            )


def test_all_cases_are_here() -> None:
    """No published case is left out."""
    assert len({case["id"] for case in CASES}) == len(CASES) == 85
