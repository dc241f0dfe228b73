"""The game as a picture: for each period a panel, home above the middle, away below, time from left to right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from attrs import evolve, frozen

from ...timeline.events import GoalieChange, PenaltyShot, ShootoutAttempt, Team, Timeout
from ...timeline.game import Game
from ...timeline.moment import moment_at
from ...timeline.views.strength import Segment
from ..people import People
from ..tables.summary import goal_text, scorers
from ..times import ordinal, shown
from ..words import TEAMS
from .bars import Bar, bars
from .timeline import Axis, Piece

__all__ = ["Item", "Panel", "Picture", "Tick", "picture"]

HEAD, LANE, MARK, NET, SKATER = 34, 27, 17, 18, 7
"""Heights in pixels: the readings on top, a lane of penalties, a row of goals, that of goalkeepers, one skater."""
MOST_SKATERS = 6
DISC = 1.5  # half the width of a goal, in letters


@frozen
class Tick:
    """A reading on top of a panel; `x` in per cent."""

    x: float
    reading: str


@frozen
class Item:
    """Something in a panel that can be pointed at; `tells` says it all.

    Attributes:
        kind: ``skaters``, ``net``, ``penalty``, ``goal`` or ``timeout``.
        x, width: per cent of the panel; `wait` is where the line of somebody waiting begins.
        y, height: pixels.
        look: how it is drawn.
        end: the label stands to the left of its point.
        first, last: it begins here, and ends here.
    """

    kind: str
    team: Team
    at: int
    x: float
    width: float
    y: float
    height: float
    look: str
    label: str
    tells: str
    first: bool = True
    last: bool = True
    end: bool = False
    wait: float | None = None
    misconduct: bool = False


@frozen
class Panel:
    """One period; `weight` is its share of the width."""

    title: str
    weight: int
    ticks: tuple[Tick, ...]
    items: tuple[Item, ...]


@frozen
class Layout:
    """Where the rows stand: as many lanes of penalties, and rows of goals, above as home needs, below as away needs."""

    home_lanes: int
    away_lanes: int
    home_marks: int
    away_marks: int

    @property
    def middle(self) -> int:
        """Where home and away meet."""
        return HEAD + self.home_lanes * LANE + self.home_marks * MARK + NET + MOST_SKATERS * SKATER

    @property
    def height(self) -> int:
        """The height of a panel."""
        return self.middle + MOST_SKATERS * SKATER + NET + self.away_marks * MARK + self.away_lanes * LANE + 6

    def net(self, team: Team) -> int:
        """The top of the row of goalkeepers."""
        reach = MOST_SKATERS * SKATER
        return self.middle - reach - NET if team == "home" else self.middle + reach

    def mark(self, team: Team, number: int) -> int:
        """The top of a row of goals, the one nearest to the goalkeepers first."""
        return self.net(team) - (number + 1) * MARK if team == "home" else self.net(team) + NET + number * MARK

    def lane(self, team: Team, number: int) -> int:
        """The top of a lane of penalties."""
        if team == "home":
            return self.net(team) - self.home_marks * MARK - (number + 1) * LANE
        return self.net(team) + NET + self.away_marks * MARK + number * LANE


@frozen
class Picture:
    """The whole picture."""

    panels: tuple[Panel, ...]
    layout: Layout


def picture(game: Game, people: People) -> Picture:
    """The picture of `game`; without panels where nothing happened yet."""
    axis = Axis.of(game)
    drawn = bars(game, people, axis) if axis.spans else ()
    lanes = {team: max((bar.lane + 1 for bar in drawn if bar.team == team), default=0) for team in TEAMS}
    marks = [*_in_rows([*_goals(game, people, axis), *_shots_and_timeouts(game, people, axis)], axis)]
    rows = {team: max((row + 1 for _, item, row in marks if item.team == team), default=1) for team in TEAMS}
    layout = Layout(lanes["home"], lanes["away"], rows["home"], rows["away"])
    found: list[list[Item]] = [[] for _ in axis.spans]
    if axis.spans:
        for panel, item in _items(game, people, axis, layout, drawn):
            found[panel].append(item)
    for panel, item, row in marks:
        found[panel].append(evolve(item, y=layout.mark(item.team, row)))
    panels = tuple(_panel(game, axis, number, items) for number, items in enumerate(found))
    return Picture(panels, layout)


def _panel(game: Game, axis: Axis, number: int, items: Sequence[Item]) -> Panel:
    span, length = axis.spans[number], axis.lengths[number]
    order = {"skaters": 0, "net": 1, "penalty": 2, "timeout": 3, "goal": 4}
    in_order = sorted(items, key=lambda item: (item.at, order[item.kind], item.team == "away"))
    return Panel(
        ordinal(span.period, game.rules), length, tuple(_ticks(game, span.period, length, axis.step)), tuple(in_order)
    )


def _ticks(game: Game, period: int, length: int, step: int) -> Iterator[Tick]:
    for played in range(0, max(length - step // 2, 1), step):
        yield Tick(round(100 * played / length, 3), moment_at(game.rules, period, played).clock)


def _items(game: Game, people: People, axis: Axis, layout: Layout, drawn: Sequence[Bar]) -> Iterator[tuple[int, Item]]:
    for team in TEAMS:
        yield from _skaters(game, axis, layout, team)
        yield from _nets(game, people, axis, layout, team)
    for bar in drawn:
        yield from _penalty(axis, layout, bar)


def _in_rows(marks: Sequence[tuple[int, Item]], axis: Axis) -> Iterator[tuple[int, Item, int]]:
    """Goals, shots and time-outs, each with the row nearest to the goalkeepers in which it and its label have room."""
    taken: dict[tuple[int, Team], list[float]] = {}  # for each panel and side, up to where each row is
    for panel, item in sorted(marks, key=lambda mark: (mark[1].at, mark[1].kind != "goal")):
        letter = 100 * axis.letter / axis.lengths[panel]
        left, right = item.x - DISC * letter, item.x + DISC * letter
        text = (len(item.label) + 1) * letter
        left, right = (left - text, right) if item.end else (left, right + text)
        rows = taken.setdefault((panel, item.team), [])
        row = next((number for number, until in enumerate(rows) if until <= left), len(rows))
        rows[row:] = [right, *rows[row + 1 :]]
        yield panel, item, row


def _span(game: Game, segment_period: int, start: int, end: int, axis: Axis) -> str:
    origin = axis.spans[axis.panel(segment_period)].start
    first = moment_at(game.rules, segment_period, start - origin)
    last = moment_at(game.rules, segment_period, end - origin)
    return f"{shown(first, game.rules)} to {last.clock}"


def _skaters(game: Game, axis: Axis, layout: Layout, team: Team) -> Iterator[tuple[int, Item]]:
    for run in _runs(game.strength_segments, lambda one: (one.strength.home, one.strength.away, _short(one, team))):
        one = run[0]
        count = one.strength.home if team == "home" else one.strength.away
        y = layout.middle - count * SKATER if team == "home" else layout.middle
        tells = f"{one.strength.label} skaters, {_span(game, one.period, one.start, run[-1].end, axis)}"
        for piece in axis.pieces(one.start, run[-1].end):
            label = _fitting(str(count), piece, axis)
            item = Item(
                "skaters",
                team,
                one.start,
                piece.left,
                piece.width,
                y,
                count * SKATER,
                "short" if _short(one, team) else "full",
                label,
                f"{team}: {tells}",
            )
            yield piece.panel, item


def _short(segment: Segment, team: Team) -> bool:
    return segment.strength.home_short if team == "home" else segment.strength.away_short


def _goalie(segment: Segment, team: Team) -> str | None:
    return segment.strength.home_goalie if team == "home" else segment.strength.away_goalie


def _runs(segments: Sequence[Segment], what: Callable[[Segment], object]) -> Iterator[list[Segment]]:
    """Neighbours of one period that are alike in `what`."""
    run: list[Segment] = []
    for segment in segments:
        if run and (run[-1].period != segment.period or what(run[-1]) != what(segment)):
            yield run
            run = []
        run.append(segment)
    if run:
        yield run


def _nets(game: Game, people: People, axis: Axis, layout: Layout, team: Team) -> Iterator[tuple[int, Item]]:
    named_from = _first_named(game, team)
    for run in _runs(game.strength_segments, lambda one: _goalie(one, team)):
        goalie, start, end = _goalie(run[0], team), run[0].start, run[-1].end
        named = named_from is not None and named_from <= start
        who = people.called(team, goalie) if goalie else "net empty" if named else "nobody named"
        for piece in axis.pieces(start, end):
            look = "goalie" if goalie else "empty" if named else "unknown"
            label = _fitting(f"in net {goalie}" if goalie else who, piece, axis) or _fitting(goalie or "", piece, axis)
            tells = f"{team} in net: {who}, {_span(game, run[0].period, start, end, axis)}"
            item = Item("net", team, start, piece.left, piece.width, layout.net(team), NET, look, label, tells)
            yield piece.panel, item


def _fitting(label: str, piece: Piece, axis: Axis) -> str:
    """`label` where it has room, else nothing; what it says is told anyway."""
    return label if piece.width / 100 * axis.lengths[piece.panel] > (len(label) + 0.7) * axis.letter else ""


def _over(x: float, label: str, axis: Axis, panel: int) -> bool:
    """Whether `label`, written to the right of `x`, would leave the panel."""
    return x + (len(label) + 1) * axis.letter / axis.lengths[panel] * 100 > 100


def _first_named(game: Game, team: Team) -> int | None:
    for placed, state in zip(game.folded.placed, game.folded.states, strict=True):
        if isinstance(placed.event, GoalieChange) and placed.event.team == team:
            return state.now
    return None


def _penalty(axis: Axis, layout: Layout, bar: Bar) -> Iterator[tuple[int, Item]]:
    y = layout.lane(bar.team, bar.lane)
    waited = bar.start > bar.called
    for piece in axis.pieces(bar.start, bar.end, first_period=bar.period):
        wait = None
        if waited and piece.first and axis.spans[piece.panel].start <= bar.called:
            wait = axis.share(piece.panel, bar.called)
        yield piece.panel, _bar_item(bar, piece, y, wait, axis)


def _bar_item(bar: Bar, piece: Piece, y: int, wait: float | None, axis: Axis) -> Item:
    return Item(
        "penalty",
        bar.team,
        bar.start if piece.first else axis.spans[piece.panel].start,
        piece.left,
        piece.width,
        y,
        LANE,
        bar.look,
        bar.label if piece.first else f"… {bar.label}",
        bar.tells,
        piece.first,
        piece.last,
        _over(piece.left, bar.label, axis, piece.panel),
        wait,
        bar.misconduct,
    )


def _goals(game: Game, people: People, axis: Axis) -> Iterator[tuple[int, Item]]:
    score = {"home": 0, "away": 0}
    for goal in game.goals:
        score[goal.team] += 1
        panel = axis.panel(goal.at.period)
        x = axis.share(panel, goal.tenth)
        label = f"{score['home']}–{score['away']}"
        tells = f"{goal.team} goal, {shown(goal.at, game.rules)}, {label}: {scorers(goal, people)}"
        if text := goal_text(game, goal, people):
            tells += f"; {text}"
        yield panel, Item("goal", goal.team, goal.tenth, x, 0, 0, MARK, "goal", label, tells, end=x > 90)


def _shots_and_timeouts(game: Game, people: People, axis: Axis) -> Iterator[tuple[int, Item]]:
    for placed, state in zip(game.folded.placed, game.folded.states, strict=True):
        event = placed.event
        if not isinstance(event, Timeout | PenaltyShot | ShootoutAttempt):
            continue
        if isinstance(event, ShootoutAttempt) or (isinstance(event, PenaltyShot) and event.result == "scored"):
            continue
        panel = axis.panel(state.ice.period)
        x = axis.share(panel, state.now)
        when = shown(game.folded.moment(state.ice.period, state.now), game.rules)
        if isinstance(event, Timeout):
            label, tells = "time-out", f"{event.team} time-out, {when}"
        else:
            label = f"shot {event.result}"
            tells = f"{event.team} penalty shot, {when}: {people.called(event.team, event.player)}, {event.result}"
        end = _over(x, label, axis, panel)
        yield panel, Item("timeout", event.team, state.now, x, 0, 0, MARK, "timeout", label, tells, end=end)
