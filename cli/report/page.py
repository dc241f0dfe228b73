"""The page: everything that the template shows, and the template filled in."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator
from importlib.resources import files
from typing import Any

from attrs import frozen

from ...timeline.clock import format_reading
from ...timeline.events import Player, ShootoutAttempt, Team
from ...timeline.game import Game
from ...timeline.views.goalkeepers import shots_on_goal
from ...timeline.views.summary import LEFT_TO_THE_LEAGUE
from ..answers.common import DECIDES
from ..answers.summary import whole
from ..people import People, people_of
from ..times import period_name, shown
from ..visible import visible
from ..words import TEAMS, yes_or_no
from .ledger import ledger
from .picture import Picture, picture

__all__ = ["page"]

_FOLDER = files(__package__ or "rinkfold.cli.report") / "templates"


@frozen
class Total:
    """A line at the foot of the ledger."""

    what: str
    home: str
    away: str


def page(game: Game, head_code: str, *, names: bool = False, paper: bool = False) -> str:
    """The record as one HTML page.

    Args:
        game: the replayed game.
        head_code: of its log.
        names: show names of players, staff and officials beside numbers and roles.
        paper: for a program that makes pages of it and knows no custom properties inside a picture.
    """
    from jinja2 import Environment, FunctionLoader

    people = people_of(game.header, (one.event for one in game.folded.placed), names=names)
    drawn = picture(game, people)
    script = _read("page.js")
    style = _read("picture.css") + _read("page.css") + _proportions(drawn)
    environment = Environment(
        loader=FunctionLoader(_read), autoescape=True, trim_blocks=True, lstrip_blocks=True, finalize=visible
    )
    return environment.get_template("page.html").render(
        **_context(game, people, names),
        picture=drawn,
        head_code=head_code,
        style=style,
        paper_style=_resolved(_read("picture.css")) if paper else "",
        style_hash=_hash(style),
        script=script,
        script_hash=_hash(script),
    )


def _read(name: str) -> str:
    return (_FOLDER / name).read_text(encoding="utf-8")


def _resolved(style: str) -> str:
    """The style of the picture in the colours of paper, which `page.css` gives last."""
    colours = dict(re.findall(r"(--[a-z-]+): ([^;]+);", _read("page.css").rsplit("@media print", 1)[1]))
    sized = f"{style}.panel text {{ font-size: 7.5px; }} .panel .title {{ font-size: 9px; }}"
    sized += ".panel .tick { font-size: 6.5px; } .item.goal:not(.penalty) text { font-size: 8.5px; }"
    return re.sub(r"var\((--[a-z-]+)\)", lambda found: colours[found[1]], sized)


def _hash(text: str) -> str:
    """The hash by which the page's own policy knows its own script and style; anything else is not run."""
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _proportions(drawn: Picture) -> str:
    """Each panel as wide as its period is long."""
    longest = max((panel.weight for panel in drawn.panels), default=1)
    wide = "".join(f".panel-{number}{{flex-grow:{panel.weight}}}\n" for number, panel in enumerate(drawn.panels))
    narrow = "".join(
        f".panel-{number}{{width:{max(45, round(100 * panel.weight / longest))}%}}\n"
        for number, panel in enumerate(drawn.panels)
    )
    return f"{wide}@media screen and (max-width: 760px) {{\n{narrow}}}\n"


def _context(game: Game, people: People, names: bool) -> dict[str, Any]:
    header = game.header
    return {
        "header": header,
        "game": game,
        "state": _state(game, names),
        "result": _result(game),
        "final": game.summary.final,
        "chapters": ledger(game, people),
        "totals": tuple(_totals(game)),
        "goalies": tuple(_goalies(game, people)),
        "periods": [period_name(span.period, game.rules) for span in game.periods],
        "rosters": {team: _roster(people, team) for team in TEAMS},
        "findings": game.findings,
        "when": lambda at: shown(at, game.rules),
        "settings": {name: yes_or_no(value) for name, value in (header.settings or {}).items()},
        "decides": DECIDES,
        "signatures": tuple(_signatures(game, names)),
        "signed": _signed(game),
        "names": names,
    }


def _signed(game: Game) -> tuple[str, ...]:
    """Who is named as having signed: a record has one name as a text, several as a list."""
    closing = game.folded.closing
    signed = closing.signed if closing is not None else None
    return (signed,) if isinstance(signed, str) else signed or ()


def _state(game: Game, names: bool) -> str:
    closing = game.folded.closing
    if closing is not None:
        reason = (f", {closing.reason}" if names else " (a reason is written)") if closing.reason else ""
        return f"Record closed: {closing.outcome}{reason}"
    if not game.folded.placed:
        return "Nothing is recorded yet"
    return f"Record open: written up to {shown(game.now.at, game.rules)}"


def _result(game: Game) -> str:
    final = game.summary.final
    if final.winner is None or final.decided_in is None:
        closing = game.folded.closing
        if closing is not None and closing.outcome in LEFT_TO_THE_LEAGUE:
            return f"{closing.outcome}; the league says who won"
        return "level" if game.over else "not decided yet"
    if final.decided_in == "shootout":
        return f"{final.winner} won in the shootout, {_scored(game, 'home')}–{_scored(game, 'away')}"
    return f"{final.winner} won in {final.decided_in}"


def _scored(game: Game, team: Team) -> int:
    """Attempts of a side that went in, in the shootout."""
    attempts = (one.event for one in game.folded.placed if isinstance(one.event, ShootoutAttempt))
    return sum(attempt.team == team and attempt.result == "scored" for attempt in attempts)


def _totals(game: Game) -> Iterator[Total]:
    """What the ledger adds up to."""
    summary = game.summary
    plays, minutes = summary.power_plays, summary.penalty_minutes
    yield Total("Goals", *(_sum(summary.goals_by_period[team]) for team in TEAMS))
    shots = shots_on_goal(game.folded)
    yield Total("Shots on goal", *(_sum([one.shots for one in shots if one.team == team]) for team in TEAMS))
    yield Total("Penalty minutes", *(str(whole(minutes[team].total)) for team in TEAMS))
    yield Total("Goals on power plays", *(f"{plays[team].goals} of {plays[team].count}" for team in TEAMS))
    yield Total("Other side short for", *(format_reading(plays[team].time) for team in TEAMS))


def _sum(counts: Any) -> str:
    return f"{' + '.join(map(str, counts))} = {sum(counts)}" if len(counts) > 1 else str(sum(counts))


def _goalies(game: Game, people: People) -> Iterator[dict[str, Any]]:
    for line in game.goalies:
        by_period = {one.period: one for one in line.periods}
        yield {
            "team": line.team,
            "who": "not named" if line.goalie is None else people.called(line.team, line.goalie),
            "periods": [by_period.get(span.period) for span in game.periods],
            "total": line,
            "time": format_reading(line.time),
        }


def _roster(people: People, team: Team) -> tuple[Player, ...]:
    players = (people.home if team == "home" else people.away).values()
    return tuple(sorted(players, key=lambda player: (len(player.number), player.number)))


def _signatures(game: Game, names: bool) -> Iterator[tuple[str, str]]:
    """Who may sign: a role, and the name where names are shown."""
    officials = game.header.officials
    referees = officials.referees if officials else ()
    linespersons = officials.linespersons if officials else ()
    for role, people in (("Referee", referees or ("",)), ("Linesperson", linespersons)):
        yield from ((role, name if names else "") for name in people)
    yield "Scorekeeper", (officials.scorekeeper or "") if officials and names else ""
    yield "Timekeeper", (officials.timekeeper or "") if officials and names else ""
    yield "For the home team", ""
    yield "For the away team", ""
