"""The season as people read it: results while they are few, teams, leaders, goalkeepers, penalties, findings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

from ...timeline.clock import format_reading
from ..answers.common import DECIDES
from ..answers.summary import whole
from ..paper import Style
from ..season.labels import Labels
from ..season.totals import Result, Season
from .layout import columns

__all__ = ["season_lines"]

T = TypeVar("T")

RESULTS = 40
"""Above so many, results are counted and not listed."""
LEADERS = 10
PROBLEMS = 20


def season_lines(season: Season, *, names: bool, style: Style) -> list[str]:
    """Every table under its heading; long ones as far as a page takes them."""
    lines = [_head(season), ""]
    for heading, body in _sections(season, names, style).items():
        if body:
            lines += [*style.ruled(heading), *(f"  {line}".rstrip() for line in body), ""]
    return [*lines, style.faint(_footer(season))]


def _head(season: Season) -> str:
    games = _counted(len(season.results), "game")
    unreadable = f", {_counted(len(season.unreadable), 'file')} not readable" if season.unreadable else ""
    return f"{games}{unreadable}, {_counted(len(season.teams), 'team')}"


def _counted(number: int, word: str) -> str:
    return f"{number:,} {word}{'' if number == 1 else 's'}"


def _sections(season: Season, names: bool, style: Style) -> Mapping[str, list[str]]:
    sections = {"Results": _results(season, style)}
    for competition in _competitions(season):
        behind = f", {competition}" if competition else ""
        sections[f"Teams{behind}"] = _teams(season, competition, style)
        sections[f"Points{behind}"] = _players(season, competition, names, style)
        sections[f"Goalkeepers{behind}"] = _goalies(season, competition, names, style)
    return {
        **sections,
        "Penalties": _penalties(season, style),
        "Findings": _findings(season, style),
        "Games with errors or warnings": _doubtful(season, style),
        "Scorekeepers": _scorekeepers(season, names, style),
        "Not readable": _unreadable(season),
        "There twice": _twice(season),
    }


def _competitions(season: Season) -> list[str]:
    return sorted({result.competition for result in season.results})


def _first(rows: Sequence[T], most: int, where: str) -> tuple[Sequence[T], list[str]]:
    """The first rows, and a line that says how many more there are and where."""
    more = len(rows) - most
    return rows[:most], [f"and {more:,} more: {where}"] if more > 0 else []


# -- games


def _results(season: Season, style: Style) -> list[str]:
    if len(season.results) > RESULTS:
        return [*_decided(season), "Each of them: --csv or --json."]
    rows = [_result(result) for result in sorted(season.results, key=lambda one: (one.date, one.file))]
    return columns(rows, "<<><<<", style) if rows else []


def _result(one: Result) -> tuple[str, ...]:
    score = f"{one.home.goals}-{one.away.goals}"
    return one.date, one.home.name, score, one.away.name, _how(one), one.file


def _how(one: Result) -> str:
    """How the game ended, where that is worth saying: ``"overtime"``, ``"tie"``, ``"abandoned, not counted"``."""
    if one.copy_of is not None:
        return f"copy of {one.copy_of}, not counted"
    if not one.counted:
        return f"{one.outcome}, not counted"
    if one.winner is None:
        return "tie"
    if one.decided_in == "shootout":
        return f"shootout, {one.winner}"
    return "overtime" if one.decided_in == "overtime" else ""


def _decided(season: Season) -> list[str]:
    def how(one: Result) -> str:
        return "not counted" if not one.counted else one.decided_in or "tie"

    counts = Counter(map(how, season.results))
    said = {"regulation": "in regulation", "overtime": "in overtime", "shootout": "in a shootout"}
    order = ("regulation", "overtime", "shootout", "tie", "not counted")
    return [", ".join(f"{counts[key]:,} {said.get(key, key)}" for key in order if counts[key])]


def _teams(season: Season, competition: str, style: Style) -> list[str]:
    found = [(team, total) for (where, team), total in season.teams.items() if where == competition]
    found.sort(key=lambda one: (-one[1].wins, one[1].goals_against - one[1].goals_for, one[0]))
    rows = [
        (
            team,
            *map(str, (total.games, total.wins_regulation, total.wins_overtime, total.wins_shootout)),
            *map(str, (total.losses_regulation, total.losses_overtime, total.losses_shootout, total.ties)),
            *map(str, (total.goals_for, total.goals_against, whole(total.minutes))),
        )
        for team, total in found
    ]
    won, lost = ("won in reg.", "in OT", "in SO"), ("lost in reg.", "in OT", "in SO")
    heads = ("", "games", *won, *lost, "ties", "goals for", "against", "minutes")
    return columns(rows, "<" + ">" * 11, style, heads) if rows else []


# -- people


def _called(number: str | None, names: Iterable[str], *, wanted: bool) -> str:
    name = " / ".join(names) if wanted else ""
    return f"{number or 'not named'} {name}".rstrip()


def _number(number: str | None) -> tuple[int, str]:
    return len(number or ""), number or ""


def _players(season: Season, competition: str, names: bool, style: Style) -> list[str]:
    found = [(key, total) for key, total in season.players.items() if key[0] == competition and total.points]
    found.sort(key=lambda one: (-one[1].points, -one[1].goals, one[0][1], _number(one[0][2])))
    shown, more = _first(found, LEADERS, "--csv or --json")
    rows = [
        (
            _called(number, total.names, wanted=names),
            team,
            *map(str, (total.goals, total.assists, total.points, whole(total.minutes))),
        )
        for (_, team, number), total in shown
    ]
    heads = ("", "", "goals", "assists", "points", "minutes")
    return [*columns(rows, "<<>>>>", style, heads), *more] if rows else []


def _goalies(season: Season, competition: str, names: bool, style: Style) -> list[str]:
    found = [(key, total) for key, total in season.goalies.items() if key[0] == competition]
    found.sort(key=lambda one: (-one[1].time, one[0][1], _number(one[0][2])))
    shown, more = _first(found, LEADERS, "--csv or --json")
    rows = [
        (
            _called(number, total.names, wanted=names),
            team,
            *(str(total.games), format_reading(total.time), str(total.shots), str(total.saves), str(total.goals)),
        )
        for (_, team, number), total in shown
    ]
    heads = ("", "", "games", "in net", "shots", "saves", "goals")
    return [*columns(rows, "<<>>>>>", style, heads), *more] if rows else []


def _penalties(season: Season, style: Style) -> list[str]:
    """What for, of all teams together."""
    counts: Counter[str] = Counter()
    minutes: dict[str, float] = {}
    for (_, _, infraction), total in season.penalties.items():
        said = infraction or "not said"
        counts[said] += total.penalties
        minutes[said] = minutes.get(said, 0.0) + total.minutes
    found = sorted(counts, key=lambda said: (-counts[said], said))
    shown, more = _first(found, LEADERS, "--csv or --json, by team")
    rows = [(said, str(counts[said]), str(whole(minutes[said]))) for said in shown]
    return [*columns(rows, "<>>", style, ("", "penalties", "minutes")), *more] if rows else []


# -- the records


def _findings(season: Season, style: Style) -> list[str]:
    rows = [(severity, code, str(n), str(games)) for (code, severity), (n, games) in season.codes().items()]
    return columns(rows, "<<>>", style, ("", "", "times", "in games")) if rows else []


def _doubtful(season: Season, style: Style) -> list[str]:
    doubtful = [one for one in season.results if one.found("error") or one.found("warning")]
    doubtful.sort(key=lambda one: (-one.found("error"), -one.found("warning"), one.file))
    shown, more = _first(doubtful, PROBLEMS, "--csv or --json")
    rows = [(one.file, str(one.found("error")), str(one.found("warning")), str(one.found("note"))) for one in shown]
    look = ["What they are: rinkfold check FILE"] if rows else []
    return [*columns(rows, "<>>>", style, ("", "errors", "warnings", "notes")), *more, *look] if rows else []


def _scorekeepers(season: Season, names: bool, style: Style) -> list[str]:
    """Those in whose records something was found; all of them are in CSV and JSON."""
    labels = Labels.of(season, names=names)
    found = [(labels.scorekeeper(who) or "not named", season.scorekeepers[who]) for who in labels.order]
    found = [(who, total) for who, total in found if total.with_findings]
    found.sort(key=lambda one: (-one[1].found["error"], -one[1].found["warning"]))
    shown, more = _first(found, PROBLEMS, "--csv or --json")
    rows = [
        (
            who,
            *map(str, (total.games, total.with_findings, total.found["error"], total.found["warning"])),
            str(total.found["note"]),
        )
        for who, total in shown
    ]
    heads = ("", "games", "with findings", "errors", "warnings", "notes")
    return [*columns(rows, "<>>>>>", style, heads), *more] if rows else []


def _unreadable(season: Season) -> list[str]:
    """The first problem of each file."""

    def line(problems: Sequence[str]) -> str:
        more = len(problems) - 1
        return f"{problems[0]}{f' (and {more} more)' if more else ''}"

    return _listed([line(one.problems) for one in season.unreadable], "rinkfold verify FILE says what is wrong")


def _twice(season: Season) -> list[str]:
    copies = [f"{one.file} is a copy of {one.copy_of} and was not counted" for one in season.results if one.copy_of]
    same = [
        f"{', '.join(files)} have one game's id and differ; all were counted" for files in season.same_game.values()
    ]
    return _listed([*copies, *same], "--csv or --json")


def _listed(lines: Sequence[str], where: str) -> list[str]:
    shown, more = _first(lines, PROBLEMS, where)
    return [*shown, *more]


def _footer(season: Season) -> str:
    """Whose rules were used in how many games, what was set otherwise, and who decides."""
    said = [
        f"{name}{f', with {changed}' if changed else ''} ({_counted(games, 'game')})"
        for (name, changed), games in sorted(season.rules.items())
    ]
    return f"Rules: {'; '.join(said) or 'none'}. {DECIDES}"
