"""What two games differ in, side by side: who goes back, parts, skaters, goals, goalkeepers, totals."""

from __future__ import annotations

from collections.abc import Iterator

from ...timeline.clock import format_reading
from ...timeline.events import Team
from ...timeline.game import Game
from ...timeline.views.difference import PartOf, Release, Two
from ...timeline.views.goalkeepers import GoalieLine
from ...timeline.views.goals import GoalLine
from ...timeline.views.strength import Strength
from ...timeline.views.totals import Figure, Named
from ..paper import Style
from ..people import People
from ..times import ordinal, shown
from ..two_games import TwoGames
from ..words import PARTS, listed, offender
from .layout import columns
from .summary import scorers

__all__ = ["difference_lines"]

NOTHING = "-"
Row = tuple[str, ...]


def difference_lines(two: TwoGames, people: People, style: Style) -> list[str]:
    """Every difference under its heading, what both have in the same columns."""
    table = _Table(two, people)
    sections = {
        "Out of the box": table.releases(),
        "Penalties": table.parts(),
        "Skaters": table.strengths(),
        "Goals": table.goals(),
        "Goalkeepers": table.goalies(),
        "Totals": table.totals(),
    }
    lines: list[str] = []
    for heading, rows in sections.items():
        if rows:
            heads = ("", *two.titles)
            lines += [*style.ruled(heading), *(f"  {line}" for line in columns(rows, "<<<", style, heads)), ""]
    return lines


class _Table:
    """Rows of three cells: what it is, and how it is in each game."""

    def __init__(self, two: TwoGames, people: People) -> None:
        self.two, self.found, self.people = two, two.found, people
        self.rules = two.after.rules

    def _penalized(self, seq: int) -> str:
        """Who was penalized, with the number of the event in each game."""
        old, new = self.two.in_before(seq), self.two.in_after(seq)
        games: list[tuple[Game, int | None]] = [(self.two.before, old), (self.two.after, new)]
        found = (game.folded.penalties.get(number) for game, number in games if number is not None)
        penalty = next(one for one in found if one is not None)
        who = offender(penalty) or self.people.called(penalty.team, penalty.player)
        return f"{penalty.team} {who} {self._numbers(old, new)}"

    def _numbers(self, old: int | None, new: int | None) -> str:
        if old is None and self.two.seqs is None:
            return "(supposed)"
        return "/".join(f"#{number}" if number else NOTHING for number in dict.fromkeys((old, new)))

    # -- rows

    def releases(self) -> list[Row]:
        return [
            (self._of_release(one.either), self._release(one.before), self._release(one.after))
            for one in self.found.releases
        ]

    def _of_release(self, release: Release) -> str:
        if release.role == "player":
            return self._penalized(release.penalty)
        return f"who sat for {self._penalized(release.penalty)}"

    def _release(self, release: Release | None) -> str:
        if release is None:
            return "nobody sits for it"
        who = "a team-mate" if release.who is None else self.people.called(release.team, release.who)
        if release.at is None:
            return f"{who} at the next whistle"
        return f"{who} at {shown(release.at, self.rules)}" + (", whistle" if release.how == "at stoppage" else "")

    def parts(self) -> list[Row]:
        return [(self._of_part(one.either), self._part(one.before), self._part(one.after)) for one in self.found.parts]

    def _of_part(self, part: PartOf) -> str:
        return f"{self._penalized(part.penalty)} {PARTS[part.life.kind]}"

    def _part(self, part: PartOf | None) -> str:
        if part is None:
            return "not called"
        life = part.life
        if life.start is None:
            return life.fate
        end = "" if life.end is None else f" to {shown(life.end, self.rules)}"
        return f"{shown(life.start, self.rules)}{end}, {format_reading(life.served)}, {life.fate}"

    def strengths(self) -> list[Row]:
        return [
            (
                f"{shown(one.start, self.rules)} to {one.end.clock}",
                self._strength(one.before, one.after),
                self._strength(one.after, one.before),
            )
            for one in self.found.stretches
        ]

    def _strength(self, strength: Strength | None, other: Strength | None) -> str:
        """The skaters; who is in net where that is what differs."""
        if strength is None:
            return "not played"
        if other is None or (strength.home_goalie, strength.away_goalie) == (other.home_goalie, other.away_goalie):
            return f"home {strength.label}"
        return f"home {strength.label}, in net {strength.home_goalie or NOTHING}, {strength.away_goalie or NOTHING}"

    def goals(self) -> list[Row]:
        return [(self._of_goal(one), self._goal(one.before), self._goal(one.after)) for one in self.found.goals]

    def _of_goal(self, one: Two[GoalLine]) -> str:
        goal = one.either
        numbers = self._numbers(self.two.in_before(goal.seq), self.two.in_after(goal.seq))
        return f"{goal.team} {shown(goal.at, self.rules)} {numbers}"

    def _goal(self, goal: GoalLine | None) -> str:
        if goal is None:
            return "no goal"
        said = [f"{scorers(goal, self.people)} at {shown(goal.at, self.rules)}", *self._kind_of_goal(goal)]
        ended = [self._penalized(seq) for seq in goal.ended]
        return ", ".join([*said, *([f"ended {listed(ended)}"] if ended else [])])

    def _kind_of_goal(self, goal: GoalLine) -> Iterator[str]:
        if goal.strength:
            yield f"{goal.strength} {goal.label}"
        marks = {"empty net": goal.empty_net, "penalty shot": goal.penalty_shot, "awarded": goal.awarded}
        yield from (mark for mark, holds in marks.items() if holds)

    def goalies(self) -> list[Row]:
        return [
            (self._of_goalie(one.either), self._goalie(one.before), self._goalie(one.after))
            for one in self.found.goalies
        ]

    def _of_goalie(self, line: GoalieLine) -> str:
        return f"{line.team} {'not named' if line.goalie is None else self.people.called(line.team, line.goalie)}"

    def _goalie(self, line: GoalieLine | None) -> str:
        if line is None:
            return "not in net"
        return f"{line.saves} saves on {line.shots} shots, {format_reading(line.time)} in net"

    def totals(self) -> list[Row]:
        return [
            (self._of_total(name), self._figure(name, one.before), self._figure(name, one.after))
            for name, one in self.found.totals.items()
        ]

    def _of_total(self, name: Named) -> str:
        team: Team | None = name.team
        said = [name.name if team is None else f"{team} {name.name}"]
        if name.player is not None and team is not None:
            said.append(self.people.called(team, name.player))
        if name.period is not None:
            regulation = name.period <= self.rules.game.periods
            said.append(f"in {'the ' if regulation else ''}{ordinal(name.period, self.rules)}")
        return " ".join(said)

    def _figure(self, name: Named, figure: Figure) -> str:
        if figure is None:
            return NOTHING if name.team is None else "0"
        if name.name == "power-play time" and isinstance(figure, int):
            return format_reading(figure)
        return str(int(figure)) if isinstance(figure, float) and figure.is_integer() else str(figure)
