"""The written cases of our own, for every sentence that the books leave open, run through the engine."""

from __future__ import annotations

from typing import Any

import pytest
from cases.load import Case, Seat, own_cases, return_of, seat_of
from cases.timeline_text import told

from rinkfold import rulesets
from rinkfold.timeline import Game, Log, event_from_dict, replay
from rinkfold.timeline.fold.changes import Ejected, Returned, ReturnWithdrawn

CASES = own_cases()


def replayed(case: Case) -> Game:
    """The case's game."""
    events = tuple(event_from_dict(event) for event in case.events)
    log = Log(name=case.id, header=events[0], events=events, chained=False, head="")  # type: ignore[arg-type]
    return replay(log, rulesets.of(log))


def tenth_of(game: Game, moment: str) -> int:
    """The played tenth of a moment."""
    return game.at(moment).state.now


def returns_at(game: Game, tenth: int) -> list[tuple[str, str | None, str | None, str]]:
    """Who went back at a tenth: side, number or None, whom a stand-in not named sat for, and how."""
    rows: list[tuple[str, str | None, str | None, str]] = []
    for change in game.folded.all_changes():
        if isinstance(change, Returned) and change.at == tenth:
            rows.append((change.team, change.who, None if change.who else _sat_for(change.key), change.how))
        elif isinstance(change, ReturnWithdrawn) and change.at == tenth:
            rows = [row for row in rows if row[:2] != (change.team, change.who)]
    return sorted(rows, key=repr)


def _sat_for(key: str | int) -> str:
    return key if isinstance(key, str) else "bench" if key < 0 else "?"


def expected_returns(texts: list[str], game: Game) -> list[tuple[str, str | None, str | None, str]]:
    """The returns as written, in the same form; a goalkeeper's stand-in is known by the penalty's number only."""
    rows = []
    for text in texts:
        one = return_of(text)
        keepers = game.folded.last.side(one.team).keepers  # type: ignore[arg-type]
        sat_for = "?" if one.stands_in_for in keepers else one.stands_in_for
        rows.append((one.team, one.who, sat_for, one.how))
    return sorted(rows, key=repr)


def joined(game: Game) -> list[list[str]]:
    """The strength segments, joined where only a goalkeeper changed."""
    rows: list[list[Any]] = []
    for segment in game.strength_segments:
        start, end = game.folded.moment(segment.period, segment.start), game.folded.moment(segment.period, segment.end)
        if rows and rows[-1][2] == segment.strength.label and rows[-1][1] == str(start):
            rows[-1][1] = str(end)
        else:
            rows.append([str(start), str(end), segment.strength.label])
    return rows


def same_moment(game: Game, found: object, written: str) -> bool:
    """Whether an answer's moment is the one written; the horn and the next opening are one tenth."""
    if not written or found is None:
        return not written and found is None
    return str(found) == written or tenth_of(game, str(found)) == tenth_of(game, written)


def mistake(game: Game, row: dict[str, Any]) -> str | None:
    """What the engine says otherwise than an expectation; None if nothing."""
    for name, check in CHECKS.items():
        if name in row:
            return check(game, row)
    raise AssertionError(f"nothing checks {row}")


def _skaters(game: Game, row: dict[str, Any]) -> str | None:
    found = game.at(row["at"]).strength.label
    return None if found == row["skaters"] else f"skaters {found}"


def _returns(game: Game, row: dict[str, Any]) -> str | None:
    found = returns_at(game, tenth_of(game, row["at"]))
    return None if found == expected_returns(row["returns"], game) else f"returns {found}"


def _box(game: Game, row: dict[str, Any]) -> str | None:
    rows = game.at(row["at"]).box
    found = [Seat(sat.team, sat.sits, None if sat.sits else sat.player or "bench", sat.state) for sat in rows]
    return None if sorted(found, key=repr) == sorted(map(seat_of, row["box"]), key=repr) else f"box {found}"


def _part(game: Game, row: dict[str, Any]) -> str | None:
    seq, index = map(int, row["part"].split("."))
    part = next(life for life in game.penalties if life.penalty == seq).parts[index]
    for name in ("start", "end"):
        if name in row and not same_moment(game, getattr(part, name), row[name]):
            return f"{name} {getattr(part, name)}"
    if "served" in row and _tenths(row["served"]) != part.served:
        return f"served {part.served / 10} s"
    return None if row.get("fate", part.fate) == part.fate else f"fate {part.fate}"


def _tenths(text: str) -> int:
    minutes, seconds = text.split(":")
    return int(minutes) * 600 + round(float(seconds) * 10)


def _goal(game: Game, row: dict[str, Any]) -> str | None:
    goal = next(goal for goal in game.goals if goal.seq == row["goal"])
    strength = goal.strength or "none"
    if row.get("strength", strength) != strength:
        return f"strength {strength}"
    return None if list(goal.ended) == row.get("ended", list(goal.ended)) else f"ended {goal.ended}"


def _ejections(game: Game) -> dict[str, int]:
    return {f"{c.team} {c.player}": c.at for c in game.folded.all_changes() if isinstance(c, Ejected)}


def _ejected(game: Game, row: dict[str, Any]) -> str | None:
    found = _ejections(game)
    return None if found.get(row["ejected"]) == tenth_of(game, row["at"]) else f"ejections {found}"


def _not_ejected(game: Game, row: dict[str, Any]) -> str | None:
    return f"ejections {_ejections(game)}" if row["not_ejected"] in _ejections(game) else None


def _segments(game: Game, row: dict[str, Any]) -> str | None:
    """The stretches expected follow one another in the game; the first may begin in the midst of one."""
    found, expected = joined(game), row["segments"]
    start, *rest = expected[0]
    for at in range(len(found)):
        same = [found[at][1:] == rest, found[at + 1 : at + len(expected)] == expected[1:]]
        if all(same) and tenth_of(game, found[at][0]) <= tenth_of(game, start):
            return None
    return f"segments {found}"


CHECKS = {
    "skaters": _skaters,
    "returns": _returns,
    "box": _box,
    "part": _part,
    "goal": _goal,
    "ejected": _ejected,
    "not_ejected": _not_ejected,
    "segments": _segments,
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_written_case(case: Case) -> None:
    """The engine decides as the sentence of the model says, worked out by hand."""
    game = replayed(case)
    for row in case.expect:
        if "finding" in row:
            continue
        wrong = mistake(game, row)
        if wrong:
            pytest.fail(
                f"{case.settles}\n{case.why}\nexpected {row}\nfound {wrong}\n"
                f"the engine:\n{told(game.folded, game.folded.last.now)}"
            )
