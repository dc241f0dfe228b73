"""Every change of a game as a step: when, because of what, what it was, and the rule that says so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from attrs import frozen

from ...events import Team
from ...fold.changes import (
    Change,
    Ejected,
    GameEnded,
    GoalieChanged,
    GoalJudged,
    Held,
    PartEnded,
    PartSetAside,
    PartStarted,
    PartSuspended,
    PenaltyCalled,
    PlayResumed,
    PowerPlayCounted,
    Returned,
    ReturnWithdrawn,
    StrengthChanged,
    Waits,
)
from ...fold.rulebook import BENCH_MINOR, STAND_IN, Rule
from ...fold.state import Chain, Sitter
from ...folded import FoldedGame
from ...moment import Moment
from ...rules import KNOBS, knob_value
from .causes import Block, CauseKind
from .citing import Citing
from .events import cause_text, event_of
from .ledger import Ledger
from .naming import Naming, Words
from .saying import Saying

__all__ = ["WHAT", "Cause", "Setting", "Step", "narrate"]

WHAT: Mapping[type[Any], str] = {
    PenaltyCalled: "called",
    PartStarted: "started",
    PartSuspended: "suspended",
    PartSetAside: "set aside",
    PartEnded: "ended",
    Waits: "waits",
    Held: "held",
    Returned: "returned",
    ReturnWithdrawn: "return withdrawn",
    Ejected: "ejected",
    GoalieChanged: "goalkeeper",
    GoalJudged: "goal",
    PowerPlayCounted: "power play",
    StrengthChanged: "strength",
    PlayResumed: "start assumed",
    GameEnded: "game over",
}
"""What each kind of change is called in answers for programs. A stand-in is told with the start of what he serves."""


@frozen
class Cause:
    """What stands behind a step: an event and its `seq`, or time; `text` says it in a few words.

    The `seq` of time that runs out is that of the penalty; ``None`` for what is only supposed.
    """

    kind: CauseKind
    seq: int | None
    text: str


@frozen
class Setting:
    """A knob that decided: its dotted name, the value by which was answered, where that comes from.

    Attributes:
        overridden: this game sets it otherwise than its ruleset.
    """

    name: str
    value: Any
    source: str
    overridden: bool


@frozen
class Step:
    """One thing that changed.

    Attributes:
        tenth: played tenths since the opening faceoff.
        change: the change that the fold told; its `rule` may be wider than the one cited here.
        number: which of the causes of the game it belongs to.
        text: what changed, as a clause without a full stop.
        stands_in: it tells who sits for another, which goes with the start of a part.
    """

    at: Moment
    tenth: int
    cause: Cause
    change: Change
    number: int
    text: str
    rule: Rule
    setting: Setting | None = None
    stands_in: bool = False

    @property
    def penalties(self) -> frozenset[int]:
        """The penalties that it is about."""
        one = getattr(self.change, "penalty", None)
        return frozenset(getattr(self.change, "penalties", ()) if one is None else (one,))

    @property
    def team(self) -> Team | None:
        """The side that it is about, ``None`` where both are."""
        return getattr(self.change, "team", None)

    @property
    def what(self) -> str:
        """The kind of change, in a word or two for programs."""
        return "stand-in" if self.stands_in else WHAT[type(self.change)]


def narrate(game: FoldedGame, blocks: Iterable[Block], naming: Naming) -> list[Step]:
    """The steps of `blocks`, which begin with the first of the game."""
    ledger = Ledger()
    words = Words(naming, game.rules, game.penalties)
    steps: list[Step] = []
    for number, block in enumerate(blocks):
        told = [*_Narrator(game, words, ledger, block, number).steps()]
        steps.extend(sorted(told, key=_goal_first))
    return steps


_A: Mapping[Team, str] = {"home": "a home", "away": "an away"}


def _goal_first(step: Step) -> bool:
    """A goal is told before what it ended, although it is judged after it."""
    return not isinstance(step.change, GoalJudged)


@frozen
class _Narrator:
    """Tells one block, and writes it down for those after it."""

    game: FoldedGame
    words: Words
    ledger: Ledger
    block: Block
    number: int

    def steps(self) -> Iterator[Step]:
        saying = Saying(self.game, self.words, self.ledger, self.block)
        citing = Citing(self.game.rules, self.game.penalties, self.ledger, self.block)
        cause = self._cause()
        for index, change in enumerate(self.block.changes):
            text = saying.text(change)
            if text is not None:
                rule = citing.rule(change)
                setting = self._setting(citing.knob(change, rule))
                yield self._step(cause, change, text, rule, setting)
            if isinstance(change, PartStarted) and change.on_clock:
                yield from self._stand_in(cause, change, index)
            self.ledger.note(change)

    def _cause(self) -> Cause:
        block = self.block
        event = event_of(self.game, block.seq)
        seq = block.seq
        if block.kind == "clock":
            seq = getattr(block.changes[0], "penalty", None)
        return Cause(block.kind, seq, cause_text(block, event, self.words))

    def _step(
        self,
        cause: Cause,
        change: Change,
        text: str,
        rule: Rule,
        setting: Setting | None = None,
        *,
        stands: bool = False,
    ) -> Step:
        at = self.game.moment_of(change)
        return Step(at, change.at, cause, change, self.number, text, rule, setting, stands)

    def _setting(self, name: str | None) -> Setting | None:
        if name is None:
            return None
        from ...knobs.values import written

        value = written(knob_value(self.game.rules, name), KNOBS[name])
        overridden = name in (self.game.header.settings or {})
        return Setting(name, value, self.game.rules.sources.get(name, ""), overridden)

    # -- who sits for another

    def _stand_in(self, cause: Cause, change: PartStarted, index: int) -> Iterator[Step]:
        chain = self._chain_of(change)
        sitter = chain.clock_sitter() if chain is not None else self._left_later(change, index)
        if sitter is None or sitter.role != "stand-in" or (change.team, sitter.key) in self.ledger.seated:
            return
        self.ledger.seated.add((change.team, sitter.key))
        penalty = self.game.penalties[change.penalty]
        who = f"{_A[change.team]} team-mate" if sitter.who is None else self.words.person(change.team, sitter.who)
        bench = penalty.parts[change.index] == "bench_minor"
        whom = "the bench" if bench else self.words.naming.called(change.team, penalty.player)
        why = "" if chain is None else self._why(chain)
        text = f"{who} sits for {whom}{f': {why}' if why else ''}"
        yield self._step(cause, change, text, BENCH_MINOR if bench else STAND_IN, stands=True)

    def _chain_of(self, change: PartStarted) -> Chain | None:
        part = (change.penalty, change.index)
        chains = self.block.after.side(change.team).slots
        return next((chain for chain in chains if any(one.order == part for one in chain.clock)), None)

    def _left_later(self, change: PartStarted, index: int) -> Sitter | None:
        """Who left the box for it, if all of it was told with one event."""
        for later in self.block.changes[index:]:
            if isinstance(later, Returned) and later.team == change.team and change.penalty in later.penalties:
                return Sitter(later.who, later.role, later.key, later.penalties)
        return None

    def _why(self, chain: Chain) -> str:
        player = self.words.naming.called(self._team_of(chain), chain.player)
        if chain.is_bench_minor:
            return ""
        if chain.ejected:
            return f"{player} is out of the game"
        if chain.keeper:
            return "a goalkeeper does not sit"
        if chain.off_the_clock:
            return f"{player} has {'offset time' if chain.offset else 'a misconduct'} to serve after it"
        return "as recorded"

    def _team_of(self, chain: Chain) -> Any:
        return "home" if chain in self.block.after.home.slots else "away"
