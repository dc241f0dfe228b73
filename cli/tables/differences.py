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
from ..times import ordinal, period_name, shown
from ..two_games import TwoGames
from ..words import PARTS, listed, offender
from .layout import columns
from .summary import marks, scorers

__all__ = ["difference_lines", "difference_sections"]

NOTHING = "-"
Row = tuple[str, ...]


def difference_lines(two: TwoGames, people: People, style: Style) -> list[str]:
    """Every difference under its heading, what both have in the same columns."""
    lines: list[str] = []
    heads = ("", *two.titles)
    for heading, rows in difference_sections(two, people).items():
        lines += [*style.ruled(heading), *(f"  {line}" for line in columns(rows, "<<<", style, heads)), ""]
    return lines


def difference_sections(two: TwoGames, people: People) -> dict[str, list[Row]]:
    """The same as rows of three cells by their heading: what it is, and how it is in each game."""
    table = _Table(two, people)
    sections = {
        "Out of the box": table.releases(),
        "Penalties": table.parts(),
        "Skaters": table.strengths(),
        "Goals": table.goals(),
        "Goalkeepers": table.goalies(),
        "Totals": table.totals(),
    }
    return {heading: rows for heading, rows in sections.items() if rows}


class _Table:
    """Rows of three cells: what it is, and how it is in each game."""

    def __init__(self, two: TwoGames, people: People) -> None:
        self.two, self.found, self.people = two, two.found, people
        self.rules = two.after.rules

    def _penalized(self, seq: int) -> str:
        """Who was penalized, with the number of the event in each game."""
        who = self._who(self.two.before, self.two.in_before(seq)) or self._who(self.two.after, self.two.in_after(seq))
        return f"{who} {self._numbers(seq)}"

    def _who(self, game: Game, number: int | None) -> str:
        """Who was penalized in `game`: ``"home 12"``; empty where the penalty is not in it."""
        penalty = None if number is None else game.folded.penalties.get(number)
        if penalty is None:
            return ""
        return f"{penalty.team} {offender(penalty) or self.people.called(penalty.team, penalty.player)}"

    def _whose(self, seq: int) -> tuple[str, str, str]:
        """Who was penalized: once, and in each game where that is not the same."""
        old, new = self.two.in_before(seq), self.two.in_after(seq)
        return _apart(self._who(self.two.before, old), self._who(self.two.after, new))

    def _numbers(self, seq: int) -> str:
        old, new = self.two.in_before(seq), self.two.in_after(seq)
        if old is None and self.two.seqs is None:
            return "(supposed)"
        return "/".join(f"#{number}" if number else NOTHING for number in dict.fromkeys((old, new)))

    # -- rows

    def releases(self) -> list[Row]:
        return [self._of_release(one) for one in self.found.releases]

    def _of_release(self, one: Two[Release]) -> Row:
        """For whose penalty stands first where that is the same in both games, else in each column."""
        seq, sat_for = one.either.penalty, "" if one.either.role == "player" else "who sat for"
        whose, *each = self._whose(seq)
        first = _words(sat_for, whose, self._numbers(seq))
        return (first, *(_words(*two) for two in zip(each, map(self._release, (one.before, one.after)), strict=True)))

    def _release(self, release: Release | None) -> str:
        if release is None:
            return "nobody sits for it"
        who = "a team-mate" if release.who is None else self.people.called(release.team, release.who)
        if release.at is None:
            return f"{who} at the next whistle"
        return f"{who} at {shown(release.at, self.rules)}" + (", whistle" if release.how == "at stoppage" else "")

    def parts(self) -> list[Row]:
        return [self._of_part(one) for one in self.found.parts]

    def _of_part(self, one: Two[PartOf]) -> Row:
        """Whose it is and its kind stand first where they are the same in both games, else in each column."""
        seq = one.either.penalty
        whose, *each_whose = self._whose(seq)
        kind, *each_kind = _apart(*("" if part is None else PARTS[part.life.kind] for part in (one.before, one.after)))
        each = zip(each_whose, each_kind, map(self._part, (one.before, one.after)), strict=True)
        return (_words(whose, self._numbers(seq), kind), *(_words(*words) for words in each))

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
        return [self._of_goal(one) for one in self.found.goals]

    def _of_goal(self, one: Two[GoalLine]) -> Row:
        """Whose it is stands first where that is the same in both games, else in each column."""
        goal = one.either
        team, *each = _apart(*("" if goal is None else goal.team for goal in (one.before, one.after)))
        first = _words(team, shown(goal.at, self.rules), self._numbers(goal.seq))
        return (first, _words(each[0], self._goal(one.before)), _words(each[1], self._goal(one.after)))

    def _goal(self, goal: GoalLine | None) -> str:
        if goal is None:
            return "no goal"
        said = [f"{scorers(goal, self.people)} at {shown(goal.at, self.rules)}", *self._kind_of_goal(goal)]
        ended = [self._penalized(seq) for seq in goal.ended]
        return ", ".join([*said, *([f"ended {listed(ended)}"] if ended else [])])

    def _kind_of_goal(self, goal: GoalLine) -> Iterator[str]:
        if goal.strength:
            yield f"{goal.strength} {goal.label}"
        yield from marks(goal)

    def goalies(self) -> list[Row]:
        return [self._goalies(one) for one in self.found.goalies]

    def _goalies(self, one: Two[GoalieLine]) -> Row:
        """Saves period by period where the totals are the same."""
        cells = tuple(map(self._goalie, (one.before, one.after)))
        if len({*cells}) == 1:
            cells = tuple(map(self._by_period, (one.before, one.after)))
        return (self._of_goalie(one.either), *cells)

    def _by_period(self, line: GoalieLine | None) -> str:
        return ", ".join(
            f"{one.saves} saves on {one.shots} shots in {period_name(one.period, self.rules)}"
            for one in (() if line is None else line.periods)
        )

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


def _apart(old: str, new: str) -> tuple[str, str, str]:
    """What to say once of two words, and what in each column: the word itself where only one game has it, or both."""
    return (old or new, "", "") if old == new or not (old and new) else ("", f"{old}:", f"{new}:")


def _words(*words: str) -> str:
    return " ".join(word for word in words if word)
