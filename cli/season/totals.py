"""The season as it adds up, game by game; no game is kept, only its line among the results."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Literal

from attrs import Factory, define, frozen

from ...timeline.events import PartKind, Team
from ...timeline.problems import Severity
from .summaries import FindingCount, GameSummary, GoalieSummary, Outcome, PenaltySummary, PlayerSummary, Record, Side

__all__ = [
    "GoalieTotal",
    "PenaltyTotal",
    "PlayerTotal",
    "Result",
    "ScorekeeperTotal",
    "Season",
    "TeamTotal",
    "Unreadable",
    "season_of",
]

TeamKey = tuple[str, str]
"""Competition and team."""


@frozen
class Result:
    """One game's line.

    Attributes:
        counted: it counts in the totals of the teams.
        copy_of: the file of which this one is a copy; then nothing of it is counted.
    """

    file: str
    game: str
    date: str
    competition: str
    home: Side
    away: Side
    decided_in: Literal["regulation", "overtime", "shootout"] | None
    winner: Team | None
    outcome: Outcome
    counted: bool
    scorekeeper: str | None
    findings: tuple[FindingCount, ...]
    copy_of: str | None = None

    def found(self, severity: Severity) -> int:
        """How many findings of that severity there are."""
        return sum(one.count for one in self.findings if one.severity == severity)


@frozen
class Unreadable:
    """A file that cannot be read, and why."""

    file: str
    problems: tuple[str, ...]


@define
class TeamTotal:
    """One team's season; shootout attempts are no goals."""

    games: int = 0
    wins_regulation: int = 0
    wins_overtime: int = 0
    wins_shootout: int = 0
    losses_regulation: int = 0
    losses_overtime: int = 0
    losses_shootout: int = 0
    ties: int = 0
    goals_for: int = 0
    goals_against: int = 0
    shots_for: int = 0
    shots_against: int = 0
    minutes: float = 0.0
    power_plays: int = 0
    power_play_goals: int = 0

    @property
    def wins(self) -> int:
        """All wins."""
        return self.wins_regulation + self.wins_overtime + self.wins_shootout

    def add(self, own: Side, other: Side, result: str) -> None:
        """Add one game; `result` names the field that counts it."""
        self.games += 1
        setattr(self, result, getattr(self, result) + 1)
        self.goals_for += own.goals
        self.goals_against += other.goals
        self.shots_for += own.shots
        self.shots_against += other.shots
        self.minutes += own.minutes
        self.power_plays += own.power_plays
        self.power_play_goals += own.power_play_goals


@define
class PlayerTotal:
    """One number's season; several names where several players wore it."""

    names: dict[str, None] = Factory(dict)
    goals: int = 0
    assists: int = 0
    penalties: int = 0
    minutes: float = 0.0

    @property
    def points(self) -> int:
        """Goals and assists."""
        return self.goals + self.assists

    def add(self, one: PlayerSummary) -> None:
        """Add one game."""
        _note_name(self.names, one.name)
        self.goals += one.goals
        self.assists += one.assists
        self.penalties += one.penalties
        self.minutes += one.minutes


@define
class GoalieTotal:
    """One goalkeeper's season; `time` in tenths."""

    names: dict[str, None] = Factory(dict)
    games: int = 0
    time: int = 0
    shots: int = 0
    goals: int = 0

    @property
    def saves(self) -> int:
        """Shots that were no goals."""
        return self.shots - self.goals

    def add(self, one: GoalieSummary) -> None:
        """Add one game."""
        _note_name(self.names, one.name)
        self.games += 1
        self.time += one.time
        self.shots += one.shots
        self.goals += one.goals


def _note_name(names: dict[str, None], name: str | None) -> None:
    if name is not None and name not in names:
        names[name] = None


@define
class PenaltyTotal:
    """Penalties of one team for one thing."""

    penalties: int = 0
    minutes: float = 0.0
    parts: Counter[PartKind] = Factory(Counter)

    def add(self, one: PenaltySummary) -> None:
        """Add one penalty."""
        self.penalties += 1
        self.minutes += one.minutes
        self.parts.update(one.parts)


@define
class ScorekeeperTotal:
    """The records that one person kept; `with_findings` are those with an error or a warning."""

    games: int = 0
    with_findings: int = 0
    found: Counter[Severity] = Factory(Counter)

    def add(self, record: Record) -> None:
        """Add one game."""
        self.games += 1
        self.with_findings += record.found("error") + record.found("warning") > 0
        for one in record.findings:
            self.found[one.severity] += one.count


@define
class Season:
    """All games so far."""

    results: list[Result] = Factory(list)
    unreadable: list[Unreadable] = Factory(list)
    teams: dict[TeamKey, TeamTotal] = Factory(dict)
    players: dict[tuple[str, str, str], PlayerTotal] = Factory(dict)
    goalies: dict[tuple[str, str, str | None], GoalieTotal] = Factory(dict)
    penalties: dict[tuple[str, str, str | None], PenaltyTotal] = Factory(dict)
    scorekeepers: dict[str | None, ScorekeeperTotal] = Factory(dict)
    rules: Counter[tuple[str, str]] = Factory(Counter)
    same_game: dict[str, list[str]] = Factory(dict)
    _files: dict[bytes, str] = Factory(dict)
    _ids: dict[tuple[str, str], str] = Factory(dict)

    def add(self, summary: GameSummary) -> None:
        """Take one game in."""
        if summary.record is None:
            self.unreadable.append(Unreadable(summary.file, summary.problems))
            return
        record = summary.record
        digest = bytes.fromhex(record.digest)
        copy = self._files.get(digest)
        self._files.setdefault(digest, summary.file or "one without a name")
        self.results.append(_result(summary.file, record, copy))
        if copy is None:
            self._note_id(summary.file, record)
            self._count(record)

    def _note_id(self, file: str, record: Record) -> None:
        """Note which files say that they are one game and yet differ."""
        first = self._ids.setdefault((record.competition, record.game), file)
        if first != file:
            self.same_game.setdefault(first, [first]).append(file)

    def _count(self, record: Record) -> None:
        names: Mapping[Team, str] = {"home": record.home.name, "away": record.away.name}
        where = record.competition
        self.rules[record.rules] += 1
        if record.counts:
            for team, own, other in (("home", record.home, record.away), ("away", record.away, record.home)):
                self.teams.setdefault((where, own.name), TeamTotal()).add(own, other, _standing(record, team))
        for player in record.players:
            self.players.setdefault((where, names[player.team], player.number), PlayerTotal()).add(player)
        for goalie in record.goalies:
            self.goalies.setdefault((where, names[goalie.team], goalie.number), GoalieTotal()).add(goalie)
        for penalty in record.penalties:
            self.penalties.setdefault((where, names[penalty.team], penalty.infraction), PenaltyTotal()).add(penalty)
        self.scorekeepers.setdefault(record.scorekeeper, ScorekeeperTotal()).add(record)

    @property
    def all_well(self) -> bool:
        """Whether every file could be read and no game has an error or a warning, or is there twice."""
        doubtful = any(result.found("error") or result.found("warning") or result.copy_of for result in self.results)
        return not (doubtful or self.unreadable or self.same_game)

    def codes(self) -> dict[tuple[str, Severity], tuple[int, int]]:
        """How often each kind of finding was made, and in how many games; errors first, the most frequent first."""
        counts: Counter[tuple[str, Severity]] = Counter()
        games: Counter[tuple[str, Severity]] = Counter()
        for result in self.results:
            for one in result.findings:
                counts[one.code, one.severity] += one.count
                games[one.code, one.severity] += 1
        order = ("error", "warning", "note")
        keys = sorted(counts, key=lambda key: (order.index(key[1]), -counts[key], key[0]))
        return {key: (counts[key], games[key]) for key in keys}


def season_of(summaries: Iterable[GameSummary]) -> Season:
    """The season that `summaries` add up to."""
    season = Season()
    for summary in summaries:
        season.add(summary)
    return season


def _standing(record: Record, team: str) -> str:
    """The field of a team's total that counts this game."""
    if record.winner is None:
        return "ties"
    return f"{'wins' if record.winner == team else 'losses'}_{record.decided_in}"


def _result(file: str, record: Record, copy_of: str | None) -> Result:
    return Result(
        file,
        record.game,
        record.date,
        sys.intern(record.competition),
        record.home,
        record.away,
        record.decided_in,
        record.winner,
        record.outcome,
        record.counts and copy_of is None,
        record.scorekeeper,
        () if copy_of else record.findings,
        copy_of,
    )
