"""The season is the sum of its games."""

from __future__ import annotations

import pickle
import tracemalloc
from collections import Counter
from pathlib import Path

import pytest
from attrs import evolve

from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.summaries import GameSummary, Record
from rinkfold.cli.season.totals import Season, TeamTotal, season_of


@pytest.fixture(scope="module")
def season(rows: tuple[GameSummary, ...]) -> Season:
    """The random games added up."""
    return season_of(rows)


@pytest.fixture(scope="module")
def records(rows: tuple[GameSummary, ...]) -> list[Record]:
    """Every game of it; none is unreadable."""
    found = [row.record for row in rows if row.record is not None]
    assert len(found) == len(rows)
    return found


def total(season: Season, name: str) -> float:
    """One column of all teams together."""
    return sum(float(getattr(team, name)) for team in season.teams.values())


def test_games_and_goals(season: Season, records: list[Record]) -> None:
    """Each game counts twice, each goal once for and once against."""
    counted = [record for record in records if record.counts]
    goals = sum(record.home.goals + record.away.goals for record in counted)
    assert total(season, "games") == 2 * len(counted)
    assert total(season, "goals_for") == total(season, "goals_against") == goals
    shots = sum(record.home.shots + record.away.shots for record in counted)
    assert total(season, "shots_for") == total(season, "shots_against") == shots
    for name in ("minutes", "power_plays", "power_play_goals"):
        both = sum(getattr(record.home, name) + getattr(record.away, name) for record in counted)
        assert total(season, name) == both


def test_wins_losses_and_ties(season: Season, records: list[Record]) -> None:
    """As many losses as wins, each kind by itself; every game is one of them."""
    ends = Counter(record.decided_in for record in records if record.counts)
    for kind in ("regulation", "overtime", "shootout"):
        assert total(season, f"wins_{kind}") == total(season, f"losses_{kind}") == ends[kind] > 0
    assert total(season, "ties") == 2 * ends[None] > 0
    for team in season.teams.values():
        lost = team.losses_regulation + team.losses_overtime + team.losses_shootout
        assert team.games == team.wins + lost + team.ties


def test_one_team_by_itself(season: Season, records: list[Record]) -> None:
    """Its line is what its games say."""
    competition, name = max(season.teams, key=lambda key: season.teams[key].games)
    expected = TeamTotal()
    for record in records:
        if record.competition == competition and record.counts:
            for team, own, other in (("home", record.home, record.away), ("away", record.away, record.home)):
                if own.name == name:
                    how = "wins" if record.winner == team else "losses"
                    expected.add(own, other, "ties" if record.winner is None else f"{how}_{record.decided_in}")
    assert expected.games > 3
    assert season.teams[competition, name] == expected


def test_players(season: Season, records: list[Record]) -> None:
    """Goals, assists, penalties and minutes of all numbers together, and of each by itself."""
    for name in ("goals", "assists", "penalties", "minutes"):
        whole = sum(getattr(player, name) for record in records for player in record.players)
        assert sum(getattr(player, name) for player in season.players.values()) == whole > 0
    key = max(season.players, key=lambda one: season.players[one].points)
    own = [
        player
        for record in records
        for player in record.players
        if (record.competition, (record.home if player.team == "home" else record.away).name, player.number) == key
    ]
    assert season.players[key].points == sum(player.goals + player.assists for player in own) > 3


def test_goalkeepers(season: Season, records: list[Record]) -> None:
    """Games, time, shots and goals of all together."""
    lines = [goalie for record in records for goalie in record.goalies]
    totals = season.goalies.values()
    assert sum(goalie.games for goalie in totals) == len(lines)
    for name in ("time", "shots", "goals"):
        assert sum(getattr(one, name) for one in totals) == sum(getattr(one, name) for one in lines) > 0
    assert sum(goalie.saves for goalie in totals) == sum(one.shots - one.goals for one in lines)


def test_penalties(season: Season, records: list[Record]) -> None:
    """Penalties, minutes and parts of all together."""
    every = [penalty for record in records for penalty in record.penalties]
    totals = season.penalties.values()
    assert sum(one.penalties for one in totals) == len(every) > 0
    assert sum(one.minutes for one in totals) == sum(penalty.minutes for penalty in every)
    assert sum((one.parts for one in totals), Counter()) == Counter(part for one in every for part in one.parts)


def test_findings_and_scorekeepers(season: Season, records: list[Record]) -> None:
    """Every game has one scorekeeper, and every finding is somebody's."""
    keepers = season.scorekeepers.values()
    assert sum(keeper.games for keeper in keepers) == len(records)
    notes = sum(record.found("note") for record in records)
    assert sum(keeper.found["note"] for keeper in keepers) == notes > 0
    assert sum(times for (_, severity), (times, _) in season.codes().items() if severity == "note") == notes


def test_all_well(season: Season, tiny: Path) -> None:
    """Notes are well; an error, a warning, and a file that cannot be read are not."""
    assert season.all_well
    assert season_of([game_row(tiny / "game-1.jsonl")]).all_well
    assert not season_of([game_row(tiny / "game-4.jsonl")]).all_well
    assert not season_of([game_row(tiny / "torn.jsonl")]).all_well


def test_a_copy_is_not_counted(tiny: Path) -> None:
    """One game in two files: counted once, and said."""
    once, copy = game_row(tiny / "game-1.jsonl", "a"), game_row(tiny / "game-1.jsonl", "b")
    season = season_of([once, copy])
    assert {team.games for team in season.teams.values()} == {1}
    assert [result.copy_of for result in season.results] == [None, "a"]
    assert [result.counted for result in season.results] == [True, False]
    assert not season.all_well


def test_the_same_bytes_twice_are_counted_once(tiny: Path) -> None:
    """Also without names, as a program that reads them from somewhere else hands them in."""
    data = (tiny / "game-1.jsonl").read_bytes()
    season = season_of([game_row(data), game_row(data)])
    assert {team.games for team in season.teams.values()} == {1}
    assert [result.copy_of for result in season.results] == [None, "one without a name"]


def test_little_is_kept_of_a_game(rows: tuple[GameSummary, ...]) -> None:
    """However long it was: its line among the results, and nothing else once teams and numbers are known."""
    season, sent = Season(), pickle.dumps(rows)

    def add_all(round_: int) -> None:
        for row in pickle.loads(sent):
            digest = f"{row.record.digest[:-2]}{round_:02x}"
            season.add(
                GameSummary(f"{round_} {row.file}", evolve(row.record, digest=digest, game=row.file + f"{round_}"))
            )

    add_all(0)
    tracemalloc.start()
    try:
        add_all(1)
        before = tracemalloc.get_traced_memory()[0]
        for round_ in range(2, 6):
            add_all(round_)
        grown = tracemalloc.get_traced_memory()[0] - before
    finally:
        tracemalloc.stop()
    assert len(season.results) == 6 * len(rows)
    assert grown < 4 * len(rows) * 2_500


def test_two_records_of_one_game(tiny: Path) -> None:
    """They differ, so both are counted, and it is said that one of them may be too many."""
    first = game_row(tiny / "game-1.jsonl", "a")
    assert first.record is not None
    other = GameSummary("b", evolve(first.record, digest="00" * 32))
    season = season_of([first, other])
    assert {team.games for team in season.teams.values()} == {2}
    assert season.same_game == {"a": ["a", "b"]}
    assert not season.all_well


def test_several_names_of_one_number(tiny: Path) -> None:
    """All are kept, in the order in which they came."""
    first = game_row(tiny / "game-1.jsonl", "a", names=True)
    assert first.record is not None
    players = tuple(evolve(player, name="Somebody Else") for player in first.record.players)
    other = GameSummary("b", evolve(first.record, players=players, digest="00" * 32, game="another"))
    season = season_of([first, other])
    assert list(season.players["River league", "Elmside Larks", "7"].names) == ["Kit Alder", "Somebody Else"]
