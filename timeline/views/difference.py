"""What is different between two games: releases, strengths, goals, goalkeepers and totals.

The two are mostly one record before and after a correction, or two records of one game. Only answers are compared, not
entries. Times are compared as what the board showed, so that a period which became shorter does not make everything
after it different.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from typing import Generic, TypeVar

from attrs import evolve, field, frozen

from ..events import Team
from ..game import Game
from ..moment import Moment
from .goalkeepers import GoalieLine
from .goals import GoalLine
from .penalties import PartLife
from .stretches import Stretch, differing_stretches
from .totals import Figure, Named, in_order, totals

__all__ = ["Differences", "GoalieLine", "PartOf", "Release", "Stretch", "Two", "differences"]

T = TypeVar("T")
Key = TypeVar("Key", bound=Hashable)
Seq = Callable[[int], int]


@frozen
class Two(Generic[T]):
    """One thing in both games; ``None`` in the one that has it not."""

    before: T | None
    after: T | None

    @property
    def either(self) -> T:
        """The thing as it is after, or as it was."""
        one = self.before if self.after is None else self.after
        assert one is not None
        return one


@frozen
class Release:
    """Somebody who may go back.

    Attributes:
        penalty: the `seq` of the penalty that he sat for.
        who: ``None`` for a team-mate not named.
        at: ``None`` where the time is not known: at the next whistle, or when a place opens.
        how: ``"on expiry"``, ``"at stoppage"`` or ``"when a place opens"``.
        foreseen: he still sits, and will be out then if nothing else happens.
    """

    team: Team
    penalty: int
    who: str | None
    role: str
    at: Moment | None
    how: str
    foreseen: bool


@frozen
class PartOf:
    """One part of a penalty."""

    team: Team
    player: str | None
    penalty: int
    index: int
    life: PartLife


@frozen
class Differences:
    """What is different; everything empty where nothing is. A `seq` of either game is as `before` counts it.

    Attributes:
        releases: who goes back, each person for each penalty, in game order of the penalties.
        parts: the parts of penalties whose time, length, fate or share served is another one.
        stretches: played time in which the skaters or goalkeepers are others, or that only one game has.
        goals: goals that only one has, or whose strength, empty net, scorer, time or what they ended is another one.
        goalies: goalkeepers' lines.
        totals: figures by their names.
    """

    releases: tuple[Two[Release], ...] = ()
    parts: tuple[Two[PartOf], ...] = ()
    stretches: tuple[Stretch, ...] = ()
    goals: tuple[Two[GoalLine], ...] = ()
    goalies: tuple[Two[GoalieLine], ...] = ()
    totals: Mapping[Named, Two[Figure]] = field(factory=dict)

    def __bool__(self) -> bool:
        """Whether anything is different."""
        return any((self.releases, self.parts, self.stretches, self.goals, self.goalies, self.totals))


def differences(before: Game, after: Game, seqs: Mapping[int, int] | None = None) -> Differences:
    """What is different in `after`; neither game changes.

    Args:
        before: one game.
        after: the other; mostly the same record with further lines.
        seqs: for two records written apart, the `seq` in `before` of each event of `after` that is the same one.
            Without it the same `seq` is the same event.
    """

    def seq(number: int) -> int:
        return number if seqs is None else seqs.get(number, -number)

    return Differences(
        releases=_different(_releases(before, int), _releases(after, seq), _what_of_release),
        parts=_different(_parts(before, int), _parts(after, seq), _what_of_part),
        stretches=differing_stretches(before.folded, after.folded),
        goals=_different(_goals(before, int), _goals(after, seq), _what_of_goal),
        goalies=_different(_goalies(before), _goalies(after), _all),
        totals=_different_totals(before, after),
    )


def _different(before: Mapping[Key, T], after: Mapping[Key, T], what: Callable[[T], object]) -> tuple[Two[T], ...]:
    """Those of either that the other has not, or has otherwise by what counts of it."""
    found = (Two(before.get(key), after.get(key)) for key in dict.fromkeys((*before, *after)))
    return tuple(two for two in found if two.before is None or two.after is None or what(two.before) != what(two.after))


def _all(one: object) -> object:
    return one


# -- who goes back


def _releases(game: Game, seq: Seq) -> dict[tuple[object, ...], Release]:
    """Every release, told apart by penalty, role, and which one in turn."""
    done = [
        Release(life.team, seq(life.penalty), one.who, one.role, one.at, one.how, False)
        for life in game.penalties
        for one in life.returns
    ]
    foreseen = [
        Release(one.team, seq(one.penalty), one.sits, one.role, one.out.at, one.out.how, True)
        for one in game.now.box
        if not game.over
    ]
    return _numbered([*done, *foreseen])


def _numbered(releases: Iterable[Release]) -> dict[tuple[object, ...], Release]:
    found: dict[tuple[object, ...], Release] = {}
    for one in releases:
        turn = 0
        while (key := (one.penalty, one.role, turn)) in found:
            turn += 1
        found[key] = one
    return found


def _what_of_release(release: Release) -> object:
    """All but whether it has been: what was foreseen and then happened is no difference."""
    return evolve(release, foreseen=False)


# -- parts and goals


def _parts(game: Game, seq: Seq) -> dict[tuple[int, int], PartOf]:
    return {
        (seq(life.penalty), index): PartOf(
            life.team,
            life.event.player,
            seq(life.penalty),
            index,
            evolve(part, ended_by=None if part.ended_by is None else seq(part.ended_by)),
        )
        for life in game.penalties
        for index, part in enumerate(life.parts)
    }


def _what_of_part(part: PartOf) -> object:
    """All but the rule by which it ended, and the event at which it simply ran out."""
    life = part.life
    return evolve(part, life=evolve(life, rule=None, ended_by=life.ended_by if _was_ended(life) else None))


def _was_ended(life: PartLife) -> bool:
    return life.fate.startswith("ended by")


def _goals(game: Game, seq: Seq) -> dict[int, GoalLine]:
    return {
        seq(goal.seq): evolve(goal, seq=seq(goal.seq), ended=tuple(seq(penalty) for penalty in goal.ended))
        for goal in game.goals
    }


def _what_of_goal(goal: GoalLine) -> object:
    """All but the tenth since the opening faceoff, which follows from periods before."""
    return evolve(goal, tenth=0)


# -- goalkeepers and totals


def _goalies(game: Game) -> dict[tuple[Team, str | None], GoalieLine]:
    return {(line.team, line.goalie): line for line in game.goalies}


def _different_totals(before: Game, after: Game) -> dict[Named, Two[Figure]]:
    old, new = totals(before.folded, before.summary), totals(after.folded, after.summary)
    names = sorted(dict.fromkeys((*old, *new)), key=in_order)
    return {name: Two(old.get(name), new.get(name)) for name in names if old.get(name) != new.get(name)}
