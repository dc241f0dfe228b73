"""Who sits in the box at an instant, for what, how long, and when and on what condition he may leave."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal

from attrs import frozen

from ..events import PartKind, PenaltyAssessed, Team
from ..fold.rulebook import (
    AT_STOPPAGE,
    GAME_OVER,
    HELD,
    NEVER_SHORT,
    OFF_THE_CLOCK_LAST,
    OFFSET,
    STAND_IN,
    TIME_STARTS,
    TWO_SLOTS,
    Rule,
)
from ..fold.state import Chain, GameState, Part, Role, Side, Sitter
from ..rules import Ruleset
from .forecast import Out, Way, forecast

__all__ = ["Because", "Sitting", "box"]

NEVER_ON_THE_CLOCK = frozenset({"misconduct", "game_misconduct"})

PartState = Literal["waiting", "running", "suspended", "offset", "held"]


@frozen
class Because:
    """A reason: the rule in words, where it stands, the event behind it, and a sentence.

    Attributes:
        rule: the rule in words.
        source: publisher, edition and number, or *common practice*.
        seq: the penalty's event.
        text: the sentence to be shown.
    """

    rule: str
    source: str
    seq: int | None
    text: str


@frozen
class Sitting:
    """One person in the box.

    Two penalties of a side run at a time and a third waits (NHL 26.1; IIHF 26; Hockey Canada 4.14); who leaves when
    stands in section 4 of the penalty model.

    Attributes:
        team: whose box.
        role: ``"player"``, or ``"stand-in"`` for whoever sits in his place.
        infraction: what for, as written.
        part: the part that this person serves now.
        state: ``"waiting"`` for a place, ``"running"``, ``"suspended"``, ``"offset"`` (a substitute skates)
            or ``"held"`` (time is up).
        because: why this person sits, and last why he may leave then.
        player: the penalized player, ``None`` for a bench minor or a number still to come.
        sits: who sits, ``None`` for a team-mate not named.
        penalty: the `seq` of the penalty whose part is meant.
        remaining: tenths that this person still serves.
        serves: the parts that this is made of, in order, each as the `seq` of its penalty and its kind.
        out: when and how he may leave if nothing else happens.
        ends_on_goal: a goal against now would end the part.
        assumed: the part's start was taken to be the call, since no faceoff was written under a running clock.
    """

    team: Team
    player: str | None
    sits: str | None
    role: Role
    penalty: int
    infraction: str | None
    part: PartKind
    state: PartState
    remaining: int
    serves: tuple[tuple[int, PartKind], ...]
    out: Out
    ends_on_goal: bool
    assumed: bool
    because: tuple[Because, ...]

    @property
    def waits_for_place(self) -> bool:
        """Whether two others of the side are on the clock and this time begins when one of them is done."""
        return self.state == "waiting" and self.because[0].rule == TWO_SLOTS.name


@frozen
class _View:
    """What is needed to describe the people of one box."""

    team: Team
    side: Side
    state: GameState
    rules: Ruleset
    penalties: Mapping[int, PenaltyAssessed]
    assumed: frozenset[tuple[int, int]]
    outs: Mapping[tuple[Team, str | int, Role], Out]
    ends_on_goal: frozenset[int | str]


def box(
    state: GameState,
    rules: Ruleset,
    penalties: Mapping[int, PenaltyAssessed],
    assumed: frozenset[tuple[int, int]] = frozenset(),
    stopped: GameState | None = None,
) -> tuple[Sitting, ...]:
    """Everybody who sits in `state`, in which play is on; home first, those on the clock before those off it.

    `penalties` are the assessed penalties by `seq`; `assumed` the parts whose start was assumed. `stopped` is the
    state as it is where `state` is as if play resumed: at the end of a period the forecast goes on with the next one.
    """
    outs = {} if state.ice.over else forecast(stopped or state, rules)
    sittings: list[Sitting] = []
    sides: tuple[tuple[Team, Side], ...] = (("home", state.home), ("away", state.away))
    for team, side in sides:
        view = _View(team, side, state, rules, penalties, assumed, outs, _ended_by_goal(state, team, side, rules))
        sittings.extend(_sittings(view))
    return tuple(sittings)


def _sittings(view: _View) -> Iterator[Sitting]:
    for chain in view.side.slots:
        yield _on_the_clock(view, chain, "running")
        yield from _off_the_clock(view, chain)
    for chain in view.side.queue:
        yield _on_the_clock(view, chain, "waiting")
        yield from _off_the_clock(view, chain)
    for sitter in view.side.held:
        yield _time_is_up(view, sitter, HELD)
    for chain in view.side.off:
        yield from _off_the_clock(view, chain)
    for sitter in view.side.finished:
        yield _time_is_up(view, sitter, AT_STOPPAGE)


def _ended_by_goal(state: GameState, team: Team, side: Side, rules: Ruleset) -> frozenset[int | str]:
    """The chains of whose running minors a goal against now would end one."""
    opponent = state.away if team == "home" else state.home
    if side.on_ice >= opponent.on_ice or rules.goals.ends_minor == "none":
        return frozenset()
    minors = [chain for chain in side.slots if chain.clock[0].is_minor and not chain.clock[0].lone]
    if not minors:
        return frozenset()
    if rules.goals.ends_minor == "first_assessed":
        return frozenset({min(minors, key=lambda chain: chain.clock[0].assessed).key})
    least = min(chain.clock[0].left_at(state.now) for chain in minors)
    return frozenset(chain.key for chain in minors if chain.clock[0].left_at(state.now) == least)


def _on_the_clock(view: _View, chain: Chain, state: PartState) -> Sitting:
    """Who sits for what is on the clock, in a slot or in the queue."""
    sitter = chain.clock_sitter()
    serves = chain.clock if sitter.role != "player" else chain.clock + chain.off_the_clock
    rules = [TIME_STARTS if state == "running" else TWO_SLOTS]
    if sitter.role == "stand-in":
        rules.append(STAND_IN)
    return _sitting(
        view,
        sitter,
        chain.player,
        chain.clock[0],
        state,
        serves,
        rules,
        ends_on_goal=state == "running" and chain.key in view.ends_on_goal,
    )


def _off_the_clock(view: _View, chain: Chain) -> Iterator[Sitting]:
    """Who sits for offset time and misconducts, if another sits for what is on the clock or nothing is."""
    sitter = chain.off_sitter()
    parts = chain.off_the_clock
    if sitter is None or not parts:
        return
    part = parts[0]
    rule = OFFSET if view.rules.ice.plays_short else NEVER_SHORT
    yield _sitting(
        view,
        sitter,
        chain.player,
        part,
        _off_state(part, chain),
        parts,
        [rule if chain.offset else OFF_THE_CLOCK_LAST],
    )


def _off_state(part: Part, chain: Chain) -> PartState:
    if part.ends_at is not None:
        return "offset" if chain.offset else "running"
    return "suspended" if part.begun else "waiting"


def _time_is_up(view: _View, sitter: Sitter, rule: Rule) -> Sitting:
    """Somebody who has served and sits until a stoppage, or until a place opens."""
    penalty = view.penalties.get(sitter.penalties[-1]) if sitter.penalties else None
    part = Part(penalty.seq if penalty else 0, 0, _last_served(penalty, sitter) if penalty else "minor", 0, 0)
    return _sitting(view, sitter, penalty.player if penalty else None, part, "held", (), [rule])


def _last_served(penalty: PenaltyAssessed, sitter: Sitter) -> PartKind:
    """The last part of the penalty; for a stand-in, who sat for what was on the clock, the last of that."""
    served = [kind for kind in penalty.parts if sitter.role != "stand-in" or kind not in NEVER_ON_THE_CLOCK]
    return (served or penalty.parts)[-1]


def _sitting(
    view: _View,
    sitter: Sitter,
    player: str | None,
    part: Part,
    state: PartState,
    serves: Sequence[Part],
    rules: list[Rule],
    *,
    ends_on_goal: bool = False,
) -> Sitting:
    penalty = view.penalties.get(part.penalty)
    out = view.outs.get((view.team, sitter.key, sitter.role), Out(None, "on expiry", GAME_OVER))
    reasons = tuple(
        Because(rule.name, rule.source, part.penalty, _sentence(rule, part, out)) for rule in (*rules, out.rule)
    )
    return Sitting(
        view.team,
        player,
        sitter.who,
        sitter.role,
        part.penalty,
        penalty.infraction if penalty else None,
        part.kind,
        state,
        sum(owed.left_at(view.state.now) for owed in serves),
        tuple((owed.penalty, owed.kind) for owed in serves),
        out,
        ends_on_goal,
        (part.penalty, part.index) in view.assumed,
        reasons,
    )


_WAYS: Mapping[Way, str] = {
    "on expiry": "leaves when the time is over",
    "at stoppage": "leaves at the next whistle after the time is over",
    "when a place opens": "leaves when a place opens, or at a whistle before that",
}


def _sentence(rule: Rule, part: Part, out: Out) -> str:
    """The rule as a sentence about this part."""
    if rule is GAME_OVER:
        return "The game ends before the time is over."
    if rule is out.rule:
        at = f" ({out.at})" if out.at is not None else ""
        return f"{_WAYS[out.how]}{at}".capitalize() + "."
    return rule.name.capitalize() + "."
