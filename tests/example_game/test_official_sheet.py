"""The example game against the sheet that was worked out by hand before the engine ran."""

from __future__ import annotations

import itertools
import tomllib
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import Game, read_log, replay

EXAMPLES = Path(__file__).parents[2] / "examples"
SHEET: dict[str, Any] = tomllib.loads((EXAMPLES / "official-sheet.toml").read_text(encoding="utf-8"))


def game_of(name: str) -> Game:
    """One of the example games."""
    log = read_log(EXAMPLES / name)
    return replay(log, rulesets.of(log))


@pytest.fixture(scope="module")
def game() -> Game:
    """The game with every whistle written."""
    return game_of("game.jsonl")


@pytest.fixture(scope="module")
def sparse() -> Game:
    """The same game as most tables would write it."""
    return game_of("sparse.jsonl")


def releases(game: Game) -> set[tuple[int, str, str, str]]:
    """Penalty, number ("" for somebody not named), moment and way of every return."""
    return {(life.penalty, one.who or "", str(one.at), one.how) for life in game.penalties for one in life.returns}


def strengths(game: Game) -> list[tuple[str, str, int, int]]:
    """From, to and skaters of both sides, joined where only a goalkeeper changed."""
    rows: list[tuple[str, str, int, int]] = []
    for segment in game.strength_segments:
        start, end = (str(game.folded.moment(segment.period, tenth)) for tenth in (segment.start, segment.end))
        skaters = (segment.strength.home, segment.strength.away)
        if rows and rows[-1][1] == start and rows[-1][2:] == skaters:
            rows[-1] = (rows[-1][0], end, *skaters)
        else:
            rows.append((start, end, *skaters))
    return rows


def test_every_release(game: Game) -> None:
    """Everybody goes back when the sheet says, as it says, and nobody else does."""
    written = {(row["penalty"], row["who"], row["at"], row["how"]) for row in SHEET["release"]}
    assert releases(game) == written


def test_every_part_of_every_penalty(game: Game) -> None:
    """Each part starts, ends, and is served as the sheet says, and there is no other part."""
    lives = {life.penalty: life for life in game.penalties}
    assert sum(len(life.parts) for life in lives.values()) == len(SHEET["part"])
    for row in SHEET["part"]:
        part = lives[row["penalty"]].parts[row["index"]]
        found = (part.kind, str(part.start or ""), str(part.end or ""), part.served / 10, part.fate)
        assert found == (row["kind"], row["start"], row["end"], row["served"], row["fate"])


def test_every_strength(game: Game) -> None:
    """The skaters on the ice, without a gap, are those of the sheet."""
    assert strengths(game) == [(row["from"], row["to"], row["home"], row["away"]) for row in SHEET["strength"]]


def test_every_tenth_is_covered(game: Game) -> None:
    """The segments follow one another over all played time."""
    segments = game.strength_segments
    assert segments[0].start == 0
    assert all(one.end == two.start for one, two in itertools.pairwise(segments))
    assert segments[-1].end == SHEET["final"]["played_s"] * 10


def test_every_goal(game: Game) -> None:
    """Scorer, assists, strength and what was ended, for each goal."""
    found = [
        (g.seq, g.team, g.scorer, list(g.assists), str(g.at), g.strength, g.empty_net, list(g.ended))
        for g in game.goals
    ]
    names = ("seq", "team", "scorer", "assists", "at", "strength", "empty_net", "ended")
    assert found == [tuple(row[name] for name in names) for row in SHEET["goal"]]


def test_every_goalkeeper(game: Game) -> None:
    """Shots, goals and saves by period, and the time in net."""
    found = {
        (line.team, line.goalie, one.period): (one.shots, one.goals, one.saves)
        for line in game.goalies
        for one in line.periods
        if one.shots
    }
    assert found == {
        (row["team"], row["goalie"], row["period"]): (row["shots"], row["goals"], row["saves"])
        for row in SHEET["goalie"]
        if row["shots"]
    }
    times = {(line.team, line.goalie): (line.shots, line.goals, line.saves, line.time / 10) for line in game.goalies}
    assert times == {
        (row["team"], row["goalie"]): (row["shots"], row["goals"], row["saves"], row["time_s"])
        for row in SHEET["goalie_total"]
    }


def test_the_totals(game: Game) -> None:
    """The result, penalty minutes, power plays and goals by period."""
    summary, final = game.summary, SHEET["final"]
    result = summary.final
    assert (result.home, result.away, result.decided_in, result.winner) == (
        final["home"],
        final["away"],
        final["decided_in"],
        final["winner"],
    )
    for team, minutes in summary.penalty_minutes.items():
        assert minutes.total == SHEET["penalty_minutes"][team]["total"]
        assert dict(minutes.players) == SHEET["penalty_minutes"][team]["players"]
    for team, plays in summary.power_plays.items():
        written = SHEET["power_plays"][team]
        assert (plays.count, plays.goals, plays.time / 10) == (written["count"], written["goals"], written["time_s"])
    for team, goals in summary.goals_by_period.items():
        assert list(goals) == SHEET["goals_by_period"][team]


def test_the_sparse_record_gives_the_same_releases(sparse: Game) -> None:
    """Where no whistle decides, the sparse record gives the same releases; else what the sheet says of it."""
    events = {event.seq: event for event in game_of("game.jsonl").events}
    by_call = {
        (life.event.team, life.event.clock, life.event.player, life.event.parts): life for life in sparse.penalties
    }
    for row in SHEET["release"]:
        call: Any = events[row["penalty"]]
        life = by_call[call.team, call.clock, call.player, call.parts]
        assert (row["who"], row.get("sparse_at", row["at"])) in {(one.who or "", str(one.at)) for one in life.returns}


def test_the_sparse_record_gives_the_same_strengths(sparse: Game) -> None:
    """Where no whistle decides, the sparse record gives the same skaters; else what the sheet says of it."""
    expected: list[tuple[str, str, int, int]] = []
    for row in SHEET["strength"]:
        one = (row["from"], row["to"], row.get("sparse_home", row["home"]), row.get("sparse_away", row["away"]))
        if expected and expected[-1][1] == one[0] and expected[-1][2:] == one[2:]:
            expected[-1] = (expected[-1][0], *one[1:])
        else:
            expected.append(one)
    assert strengths(sparse) == expected


def test_the_telling_moments(game: Game) -> None:
    """The boxes at the ten moments show who sits, for what, in which state and for how long."""
    moments = tomllib.loads((EXAMPLES / "telling-moments.toml").read_text(encoding="utf-8"))
    for moment in moments["moment"]:
        at = game.at(moment["at"])
        assert (at.strength.home, at.strength.away) == (moment["home"], moment["away"]), moment["at"]
        for team in ("home", "away"):
            found = [
                (one.player or "", one.sits or "", one.penalty, one.part, one.state, one.remaining)
                for one in at.box
                if one.team == team
            ]
            written = [
                (
                    row["player"],
                    row["sits"],
                    row["penalty"],
                    row["part"],
                    row["state"],
                    _tenths(row["remaining"]),
                )
                for row in moment[f"{team}_box"]
            ]
            assert sorted(found) == sorted(written), moment["at"]


def _tenths(reading: str) -> int:
    minutes, seconds = reading.split(":")
    return int(minutes) * 600 + int(seconds) * 10
