"""The season as sheets of columns and rows, from which JSON, CSV and Parquet are made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from attrs import frozen

from ...timeline.events import PART_KINDS
from .labels import Labels
from .totals import Result, Season

__all__ = ["Cell", "Column", "Kind", "Sheet", "sheets"]

Kind = Literal["text", "count", "number", "yes or no"]
Cell = str | int | float | bool | None


@frozen
class Column:
    """A column: what it is called, and what stands in it."""

    name: str
    kind: Kind = "count"


@frozen
class Sheet:
    """A table under its name; a row has a cell for each column, ``None`` where nothing is known."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


def sheets(season: Season, *, names: bool) -> tuple[Sheet, ...]:
    """Every sheet of the season; players' names and those of scorekeepers only if `names`."""
    labels = Labels.of(season, names=names)
    return (
        _sheet("results", RESULTS, (_result(one, labels) for one in season.results)),
        _sheet("teams", TEAMS, _teams(season)),
        _sheet("players", PLAYERS, _players(season), names=names),
        _sheet("goalies", GOALIES, _goalies(season), names=names),
        _sheet("penalties", PENALTIES, _penalties(season)),
        _sheet("findings", FINDINGS, _findings(season)),
        _sheet("scorekeepers", SCOREKEEPERS, _scorekeepers(season, labels)),
        _sheet("unreadable", UNREADABLE, _unreadable(season)),
        _sheet("same_game", SAME_GAME, _same_game(season)),
    )


def _columns(text: str, counts: str = "") -> tuple[Column, ...]:
    return (*(Column(name, "text") for name in text.split()), *(Column(name) for name in counts.split()))


def _numbers(names: str) -> tuple[Column, ...]:
    return tuple(Column(name, "number") for name in names.split())


RESULTS = (
    *_columns("file game date competition home away", "home_goals away_goals"),
    *_columns("decided_in winner outcome"),
    Column("counted", "yes or no"),
    *_columns("", "home_shots away_shots home_power_plays away_power_plays"),
    *_columns("", "home_power_play_goals away_power_play_goals"),
    *_numbers("home_penalty_minutes away_penalty_minutes"),
    *_columns("", "errors warnings notes"),
    *_columns("scorekeeper copy_of"),
)
TEAMS = (
    *_columns("competition team", "games wins_regulation wins_overtime wins_shootout"),
    *_columns("", "losses_regulation losses_overtime losses_shootout ties goals_for goals_against"),
    *_columns("", "shots_for shots_against power_plays power_play_goals"),
    *_numbers("penalty_minutes"),
)
PLAYERS = (
    *_columns("competition team number name", "goals assists points penalties"),
    *_numbers("penalty_minutes"),
)
GOALIES = (
    *_columns("competition team number name", "games"),
    *_numbers("time_s"),
    *_columns("", "shots saves goals_against"),
)
PENALTIES = (
    *_columns("competition team infraction", "penalties"),
    *_numbers("penalty_minutes"),
    *(Column(kind) for kind in PART_KINDS),
)
FINDINGS = _columns("file game code severity", "count")
SCOREKEEPERS = _columns("scorekeeper", "games games_with_findings errors warnings notes")
UNREADABLE = _columns("file problem")
SAME_GAME = _columns("competition game file")


def _sheet(name: str, columns: Sequence[Column], rows: Iterable[Sequence[Cell]], *, names: bool = True) -> Sheet:
    """A sheet; without `names` the column of names is left out."""
    kept = [index for index, column in enumerate(columns) if names or column.name != "name"]
    return Sheet(
        name, tuple(columns[index] for index in kept), tuple(tuple(row[index] for index in kept) for row in rows)
    )


def _result(one: Result, labels: Labels) -> tuple[Cell, ...]:
    home, away = one.home, one.away
    return (
        *(one.file, one.game, one.date or None, one.competition or None, home.name, away.name),
        *(home.goals, away.goals, one.decided_in, one.winner, one.outcome, one.counted),
        *(home.shots, away.shots, home.power_plays, away.power_plays, home.power_play_goals, away.power_play_goals),
        *(home.minutes, away.minutes),
        *(one.found("error"), one.found("warning"), one.found("note")),
        *(labels.scorekeeper(one.scorekeeper), one.copy_of),
    )


def _teams(season: Season) -> Iterable[tuple[Cell, ...]]:
    for (competition, team), total in sorted(season.teams.items()):
        yield (
            *(competition or None, team, total.games, total.wins_regulation, total.wins_overtime, total.wins_shootout),
            *(total.losses_regulation, total.losses_overtime, total.losses_shootout, total.ties),
            *(total.goals_for, total.goals_against, total.shots_for, total.shots_against),
            *(total.power_plays, total.power_play_goals, total.minutes),
        )


def _names(names: Mapping[str, None]) -> str | None:
    """Several players may have worn the number."""
    return " / ".join(names) or None


def _players(season: Season) -> Iterable[tuple[Cell, ...]]:
    for (competition, team, number), total in sorted(season.players.items()):
        yield (
            *(competition or None, team, number, _names(total.names)),
            *(total.goals, total.assists, total.points, total.penalties, total.minutes),
        )


def _goalies(season: Season) -> Iterable[tuple[Cell, ...]]:
    for (competition, team, number), total in sorted(
        season.goalies.items(), key=lambda one: (*one[0][:2], one[0][2] or "")
    ):
        yield (
            *(competition or None, team, number, _names(total.names), total.games, total.time / 10),
            *(total.shots, total.saves, total.goals),
        )


def _penalties(season: Season) -> Iterable[tuple[Cell, ...]]:
    found = sorted(season.penalties.items(), key=lambda one: (*one[0][:2], one[0][2] or ""))
    for (competition, team, infraction), total in found:
        parts = (total.parts[kind] for kind in PART_KINDS)
        yield (competition or None, team, infraction, total.penalties, total.minutes, *parts)


def _findings(season: Season) -> Iterable[tuple[Cell, ...]]:
    for result in season.results:
        for one in result.findings:
            yield (result.file, result.game, one.code, one.severity, one.count)


def _scorekeepers(season: Season, labels: Labels) -> Iterable[tuple[Cell, ...]]:
    for who in labels.order:
        total = season.scorekeepers[who]
        found = total.found
        yield (
            *(labels.scorekeeper(who), total.games, total.with_findings),
            *(found["error"], found["warning"], found["note"]),
        )


def _unreadable(season: Season) -> Iterable[tuple[Cell, ...]]:
    for one in season.unreadable:
        for problem in one.problems:
            yield (one.file, problem)


def _same_game(season: Season) -> Iterable[tuple[Cell, ...]]:
    by_file = {result.file: result for result in season.results} if season.same_game else {}
    for files in season.same_game.values():
        for file in files:
            yield (by_file[file].competition or None, by_file[file].game, file)
