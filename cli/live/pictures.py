"""The game as the page shows it: one object, made for the role that asks. Redaction is done here and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import frozen

from ... import rulesets
from ...timeline.clock import format_reading
from ...timeline.events import Team, TeamSheet
from ...timeline.game import Game
from ...timeline.moment import moment_at
from ...timeline.problems import Problem
from ...timeline.rules import Ruleset
from ...timeline.views.findings import Finding
from ...timeline.views.findings.completeness import lacking
from ...timeline.views.forecast import another_period_follows
from ...timeline.views.goalkeepers import shots_on_goal
from ..answers.check import finding_answer
from ..answers.common import DECIDES
from ..standing import as_of_latest, latest
from ..times import ordinal, period_name
from ..words import TEAMS, overridden
from .boxes import boxes, left
from .keys import Role
from .lines import last_lines
from .table import Table

__all__ = ["game_picture", "period_picture", "rules_picture", "table_picture"]

_WHILE_OPEN = frozenset({"still_open", "whistles_not_kept", "doors_not_written"})
"""Notes that say nothing to people who are still writing."""


@frozen
class _Shown:
    """What a role is shown of a table."""

    table: Table
    role: Role
    names: bool

    @property
    def writes(self) -> bool:
        return self.role.name == "write"


def table_picture(table: Table, role: Role, *, names: bool) -> dict[str, Any]:
    """The state of `table` for `role`, without the clock and the stamps; `names` of people only where wanted."""
    shown = _Shown(table, role, names)
    game = table.game
    trouble = table.trouble
    return {
        "rinkfold": 1,
        "version": table.version,
        "stage": "opening" if game is None else "closed" if game.folded.last.ice.closed else "game",
        "role": role.name,
        "side": role.side,
        "trouble": None if trouble is None else _trouble(trouble, shown),
        "notice": table.notice if shown.writes else None,
        **(_nothing_yet(table, shown) if game is None else _game(shown, game)),
    }


def _trouble(problem: Problem, shown: _Shown) -> dict[str, str]:
    """Why the file takes no entry; for others than the writer without what stands in it."""
    if not shown.writes:
        return {"code": problem.code, "message": "The record cannot be read just now.", "fix": "Ask at the clock."}
    return {"code": problem.code, "message": problem.message, "fix": problem.fix}


def _nothing_yet(table: Table, shown: _Shown) -> dict[str, Any]:
    return {"game": None, "file": table.file_name if shown.writes else None, "roster_stamp": 0}


def _game(shown: _Shown, game: Game) -> dict[str, Any]:
    table = shown.table
    findings = table.findings if shown.writes else ()
    return {
        "game": game.header.game,
        "file": table.file_name if shown.writes else None,
        **game_picture(game),
        "box": boxes(game, names=shown.names),
        "left": left(game, names=shown.names),
        "entries": last_lines(game, shown.role, names=shown.names),
        "findings": [finding_answer(one) for one in findings if _is_news(one, game)],
        "missing": lacking(game) if shown.writes else [],
        "head_code": table.head_code if shown.writes else None,
        "roster_stamp": _roster_stamp(game),
    }


def _is_news(finding: Finding, game: Game) -> bool:
    return game.folded.last.ice.closed or finding.code not in _WHILE_OPEN


def _roster_stamp(game: Game) -> int:
    """Changes whenever names, numbers or rules may have."""
    touching = (one.seq for one in reversed(game.events) if one.kind in ("roster_change", "amend", "void"))
    return next(touching, 1)


def game_picture(game: Game) -> dict[str, Any]:
    """Teams, rules, score, period, reading, strength and shots."""
    last = game.folded.last
    _, played = latest(game)
    reading = moment_at(game.rules, last.period, played)
    final = game.summary.final
    return {
        "teams": {"home": _team(game.header.home), "away": _team(game.header.away)},
        "rules": rules_picture(game.rules, game),
        "score": {"home": final.home, "away": final.away},
        "period": period_picture(last.period, game.rules),
        "counts": "down" if game.rules.game.reading == "remaining" else "up",
        "reading": {"period": last.period, "clock": reading.clock, "played_t": played},
        "in_play": game.in_play,
        "ended": last.ice.ended or game.over,
        "over": game.over,
        "closed": last.ice.closed,
        "strength": _strength(game),
        "shots": _shots(game),
        "goals": {team: list(game.summary.goals_by_period[team]) for team in TEAMS},
        "horn": _horn(game),
        "next": _next(game),
    }


def _team(sheet: TeamSheet) -> dict[str, Any]:
    return {"name": sheet.name, "short": sheet.short, "colour": sheet.colour}


def rules_picture(rules: Ruleset, game: Game | None = None) -> dict[str, Any]:
    """Whose rules are applied, in one line, and who decides."""
    return {
        "name": rules.name if game is None else game.header.ruleset,
        "title": rules.title,
        "applied": rulesets.applied_line(rules),
        "overridden": "" if game is None else overridden(game.header),
        "decides": DECIDES,
    }


def period_picture(period: int, rules: Ruleset) -> dict[str, Any]:
    """A period by its number and names, and its length."""
    length = rules.period_length(period)
    return {
        "number": period,
        "name": period_name(period, rules),
        "said": ordinal(period, rules),
        "length": format_reading(length),
        "length_t": length,
    }


def _strength(game: Game) -> dict[str, Any]:
    """Who skates now; in a stoppage as if play resumed."""
    now = as_of_latest(game)
    strength, state = now.strength, now.state
    return {
        "home": strength.home,
        "away": strength.away,
        "label": strength.label,
        "words": f"Home {strength.label}",
        "home_goalie": state.home.goalie,
        "away_goalie": state.away.goalie,
        "supposed": game.if_play_resumed is not None,
    }


def _shots(game: Game) -> Mapping[Team, list[int]]:
    """Shots on goal by period, from the first on."""
    counted = shots_on_goal(game.folded)
    periods = range(1, game.folded.last.period + 1)
    return {
        team: [sum(one.shots for one in counted if one.team == team and one.period == period) for period in periods]
        for team in TEAMS
    }


def _horn(game: Game) -> dict[str, Any] | None:
    """The period that has just ended, if one has."""
    last = game.folded.last
    if not last.ice.ended and not game.over:
        return None
    return {"period": last.period, "said": ordinal(last.period, game.rules), "game_over": game.over}


def _next(game: Game) -> dict[str, Any] | None:
    """What the board shows when the next period begins, where one has ended and the game goes on."""
    last = game.folded.last
    if not last.ice.ended or game.over or not another_period_follows(last, game.rules):
        return None
    following = last.period + 1
    moment = moment_at(game.rules, following, 0)
    return {"period": following, "clock": moment.clock, "said": ordinal(following, game.rules)}
