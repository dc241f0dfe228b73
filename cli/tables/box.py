"""The box: a line for each person who sits, with when and on what condition he may leave."""

from __future__ import annotations

from attrs import frozen

from ...timeline.clock import format_reading
from ...timeline.events import Team
from ...timeline.fold.rulebook import NEVER_SHORT
from ...timeline.game import Instant
from ...timeline.views.box import Sitting
from ..paper import Style
from ..people import People
from ..times import on_board, shown
from ..words import PARTS, TEAMS, footer, kinds_text, offender, side_title
from .layout import columns

__all__ = [
    "both_sides",
    "box_lines",
    "conditions",
    "heading",
    "out_text",
    "standing_text",
    "what_for",
    "who_sits",
]

A_GOAL_ENDS_IT = "a goal against ends it"
A_GOAL_ENDS_THE_PART = "a goal against ends the part that runs"


@frozen
class _Table:
    """What the lines are made from."""

    instant: Instant
    people: People
    why: bool


def box_lines(instant: Instant, people: People, style: Style, *, why: bool = False) -> list[str]:
    """Both boxes at `instant`; with `why` each line is followed by its reasons."""
    lines = [*style.ruled(heading(instant)), "", *both_sides(instant, people, style, why=why)]
    if not why and instant.box:
        lines += ["", style.faint("Why: the same with --why.")]
    return [*lines, "", style.faint(footer(instant.game.header))]


def both_sides(instant: Instant, people: People, style: Style, *, why: bool = False) -> list[str]:
    """Who sits on each side."""
    table = _Table(instant, people, why)
    return [line for team in TEAMS for line in _side(table, team, style)]


def heading(instant: Instant) -> str:
    """The moment and the skaters: ``"2 6:30: home 5 on 3 away"``, with what was supposed."""
    return f"{shown(instant.at, instant.game.rules)}: home {instant.strength.label} away{_supposed(instant)}"


def _supposed(instant: Instant) -> str:
    """Whether the record reaches this moment, and play is on."""
    game = instant.game
    if game.over:
        return ", the game is over" if instant.state.now >= game.now.state.now else ""
    if instant.state.now > game.now.state.now:
        return ", if nothing else happens"
    return ", stopped, as if play resumed now" if instant is game.if_play_resumed else ""


def _side(table: _Table, team: Team, style: Style) -> list[str]:
    title = style.strong(side_title(table.instant.game.header, team))
    sitters = [one for one in table.instant.box if one.team == team]
    if not sitters:
        return [f"{title}: nobody sits"]
    rows = columns([_row(table, one) for one in sitters], "<<><", style)
    if not table.why:
        return [title, *(f"  {row}" for row in rows)]
    return [title, *(line for one, row in zip(sitters, rows, strict=True) for line in (f"  {row}", *_why(one)))]


def _row(table: _Table, one: Sitting) -> tuple[str, str, str, str]:
    left = f"{format_reading(one.remaining)} left" if one.remaining else ""
    return who_sits(table.instant, one, table.people), what_for(one), left, _leaves(table, one)


def who_sits(instant: Instant, one: Sitting, people: People) -> str:
    """The number of the one who sits; for a stand-in also whose penalty it is."""
    if one.role == "player":
        return people.called(one.team, one.sits)
    sits = "a team-mate" if one.sits is None else people.called(one.team, one.sits)
    penalty = instant.game.folded.penalties[one.penalty]
    return f"{sits} for {offender(penalty) or people.called(one.team, one.player)}"


def what_for(one: Sitting) -> str:
    """What this person still serves, and the infraction: ``"minor, tripping"``, ``"minor + misconduct"``."""
    serves = kinds_text(one.serves) or PARTS[one.part]
    return f"{serves}, {one.infraction}" if one.infraction else serves


def _leaves(table: _Table, one: Sitting) -> str:
    """When and how he may leave, what would change it, and what was assumed."""
    said = [standing_text(one), out_text(table.instant, one), *conditions(table.instant, one, table.people)]
    return "; ".join(filter(None, said))


def conditions(instant: Instant, one: Sitting, people: People) -> list[str]:
    """What would change when he may leave, whether he may play at all, and what was assumed."""
    said = []
    if _is_out_of_the_game(instant, one):
        said.append(f"{people.called(one.team, one.player)} is out of the game")
    if one.ends_on_goal:
        minor = instant.game.rules.lengths.minor
        said.append(A_GOAL_ENDS_IT if one.remaining <= minor else A_GOAL_ENDS_THE_PART)
    if people.is_injured(one.team, one.sits):
        said.append("recorded as injured")
    if one.assumed:
        said.append("start taken from the call, no faceoff written")
    return said


def standing_text(one: Sitting) -> str:
    """What has to be said of a part that does not simply run."""
    if one.state == "waiting":
        return "waits for a place, not begun" if one.waits_for_place else "not begun"
    if one.state == "suspended":
        return "stands still"
    if one.state != "offset" or not one.remaining:
        return ""
    return "not short" if one.because[0].rule == NEVER_SHORT.name else "offset"


def _is_out_of_the_game(instant: Instant, one: Sitting) -> bool:
    side = instant.state.home if one.team == "home" else instant.state.away
    record = side.records.get(one.player or "")
    return record is not None and record.ejected_at is not None


def out_text(instant: Instant, one: Sitting) -> str:
    """When he may leave the box if nothing else happens, as it is told to him."""
    rules, out = instant.game.rules, one.out
    if instant.game.over and instant.state.now >= instant.game.now.state.now:
        return "unserved when the game ended"
    if out.at is not None:
        reading = f"out at {on_board(out.at, instant.at, rules)} on the board"
        if out.how != "when a place opens" or out.at == out.time_up:
            return reading
        if out.time_up is not None:
            return f"time up at {on_board(out.time_up, instant.at, rules)}, {reading} or at a whistle in between"
        return f"{reading}, or at a whistle before"
    if one.remaining == 0:
        return "time is up, out at the next whistle"
    if out.time_up is not None:
        return f"time up at {on_board(out.time_up, instant.at, rules)}, out at the next whistle after"
    return "out at the first whistle after its time" if out.how == "at stoppage" else "the game is over first"


def _why(one: Sitting) -> list[str]:
    return [f"      {reason.text.rstrip('.')} ({reason.source}; event {reason.seq})" for reason in one.because]
