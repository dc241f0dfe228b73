"""One game to one summary: a pure function, for this process, a pool of them, or a cluster."""

from __future__ import annotations

import hashlib
import os
import stat
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from ... import rulesets
from ...timeline.events import TEAMS, Team
from ...timeline.game import Game, replay
from ...timeline.problems import ProblemsFound, render
from ...timeline.record.files import file_problem
from ...timeline.record.reader import parse_log
from ...timeline.views.goalkeepers import ShotCount, shots_on_goal
from ...timeline.views.summary import minutes_of
from ..errors import refuse
from ..people import People, people_of
from ..words import overridden
from .summaries import FindingCount, GameSummary, GoalieSummary, Outcome, PenaltySummary, PlayerSummary, Record, Side

__all__ = ["game_row"]


def game_row(source: str | os.PathLike[str] | bytes, name: str = "", *, names: bool = False) -> GameSummary:
    """The summary of the game in `source`: the path of a log, or a log's bytes.

    Nothing is raised for a log that cannot be read: the summary says why.

    Args:
        source: what is read.
        name: what the file is called in the summary; the path if nothing is given.
        names: keep players' names.
    """
    called = name or ("" if isinstance(source, bytes) else os.fspath(source))
    try:
        data = source if isinstance(source, bytes) else _read(source, called)
        log = parse_log(data, called)
        digest = hashlib.sha256(data).hexdigest()
        return GameSummary(called, _record(replay(log, rulesets.of(log)), digest, names=names))
    except ProblemsFound as found:
        return GameSummary(called, None, tuple(map(render, found.problems)))
    except Exception as fault:  # one game in which the program itself fails does not end a season
        return GameSummary(called, None, (_fault(called, fault),))


def _read(path: str | os.PathLike[str], name: str) -> bytes:
    """The bytes of a file; a pipe or a device is none, since it may never end."""
    try:
        mode = os.stat(path).st_mode
        if stat.S_ISREG(mode) or stat.S_ISDIR(mode):
            return Path(path).read_bytes()
    except OSError as error:
        raise file_problem(error, name, "read") from None
    message = "The file cannot be read: it is a pipe or a device."
    refuse("no_file", message, "Put a copy of the log there instead.", file=name)


def _fault(name: str, fault: Exception) -> str:
    told = f"{type(fault).__name__}: {fault}".splitlines()[0]
    return f"{name}: A fault in rinkfold itself: {told}. Please report it with the log."


def _record(game: Game, digest: str, *, names: bool) -> Record:
    header, final = game.header, game.summary.final
    people = people_of(header, (placed.event for placed in game.folded.placed)) if names else People({}, {})
    shots = shots_on_goal(game.folded)
    return Record(
        game=header.game,
        date=header.date or "",
        competition=header.competition or "",
        rules=(header.ruleset, overridden(header)),
        scorekeeper=_scorekeeper(game),
        outcome=_outcome(game),
        decided_in=final.decided_in,
        winner=final.winner,
        home=_side(game, "home", shots),
        away=_side(game, "away", shots),
        players=_players(game, people),
        goalies=tuple(_goalies(game, people)),
        penalties=tuple(_penalties(game)),
        findings=_findings(game),
        digest=digest,
    )


def _scorekeeper(game: Game) -> str | None:
    officials = game.header.officials
    if officials is not None and officials.scorekeeper:
        return officials.scorekeeper
    wrote = Counter(event.by for event in game.events if event.by)
    return wrote.most_common(1)[0][0] if wrote else None


def _outcome(game: Game) -> Outcome:
    return "open" if game.folded.closing is None else game.folded.closing.outcome


def _side(game: Game, team: Team, shots: Sequence[ShotCount]) -> Side:
    totals = game.summary
    power_plays = totals.power_plays[team]
    return Side(
        name=(game.header.home if team == "home" else game.header.away).name,
        goals=totals.final.home if team == "home" else totals.final.away,
        shots=sum(count.shots for count in shots if count.team == team),
        minutes=totals.penalty_minutes[team].total,
        power_plays=power_plays.count,
        power_play_goals=power_plays.goals,
    )


def _players(game: Game, people: People) -> tuple[PlayerSummary, ...]:
    """Whoever scored, assisted or was penalized, by number; a goal still without a number is nobody's.

    An own goal counts for its scorer, who is of the side that it counts for, like any goal.
    """
    goals: Counter[tuple[Team, str]] = Counter()
    assists: Counter[tuple[Team, str]] = Counter()
    for goal in game.goals:
        if goal.scorer is not None:
            goals[goal.team, goal.scorer] += 1
        assists.update((goal.team, number) for number in goal.assists)
    called = game.folded.penalties.values()
    penalties = Counter((event.team, event.player) for event in called if event.player is not None)
    minutes = {(team, who): n for team in TEAMS for who, n in game.summary.penalty_minutes[team].players.items()}
    return tuple(
        PlayerSummary(
            team, number, _name(people, team, number), goals[key], assists[key], penalties[key], minutes.get(key, 0.0)
        )
        for key in sorted({*goals, *assists, *penalties})
        for team, number in (key,)
    )


def _name(people: People, team: Team, number: str | None) -> str | None:
    player = people.player(team, number)
    return player.name if player is not None else None


def _goalies(game: Game, people: People) -> Iterator[GoalieSummary]:
    for line in game.goalies:
        yield GoalieSummary(
            line.team, line.goalie, _name(people, line.team, line.goalie), line.time, line.shots, line.goals
        )


def _penalties(game: Game) -> Iterator[PenaltySummary]:
    for event in game.folded.penalties.values():
        minutes = minutes_of(event, game.rules, game.folded.washed_out)
        yield PenaltySummary(event.team, event.infraction, event.parts, minutes)


def _findings(game: Game) -> tuple[FindingCount, ...]:
    found = Counter((finding.code, finding.severity) for finding in game.findings)
    return tuple(FindingCount(code, severity, count) for (code, severity), count in found.items())
