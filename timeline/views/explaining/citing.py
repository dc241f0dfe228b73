"""The rule behind a change, said as narrowly as what was told before allows.

The fold gives each change the rule at work. Where that is a wide one, a narrower one of the rulebook is cited: that a
second minor starts at the goal which ended the first, that a place opened for one who waited, that an overtime below
five a side adds the player.
"""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from ...events import PenaltyAssessed, Team
from ...fold.changes import (
    Change,
    Ejected,
    GameEnded,
    GoalJudged,
    Held,
    PartEnded,
    PartSetAside,
    PartStarted,
    Returned,
    StrengthChanged,
)
from ...fold.rulebook import (
    AT_STOPPAGE,
    CAPTAIN,
    CHAIN_ORDER,
    EQUAL_PAIR,
    FORMULA,
    GOAL_FIRST,
    GOAL_LEAST_TIME,
    GOAL_OWN_MINOR,
    GOAL_STARTS_NEXT,
    HELD,
    HELD_LONGEST,
    LATE_NETTING,
    LONE_PAIR,
    LONE_PAIR_SUBSTITUTED,
    NEVER_SHORT,
    OFF_THE_CLOCK_LAST,
    OFFSET,
    OFFSET_CHOICE,
    ON_EXPIRY,
    OVERTIME_ADDS,
    RECORDED,
    SUDDEN_VICTORY,
    SWAP,
    TIME_STARTS,
    TWO_SLOTS,
    Rule,
)
from ...fold.state import PlayerRecord
from ...rules import Ruleset
from .causes import Block
from .ledger import Ledger

__all__ = ["EXTRA_ATTACKER", "Citing"]

EXTRA_ATTACKER = Rule("goalkeepers and extra attackers are counted apart from penalties", "common practice", "4")

KNOBS: Mapping[Rule, str] = {
    GOAL_LEAST_TIME: "goals.ends_minor",
    GOAL_FIRST: "goals.ends_minor",
    GOAL_OWN_MINOR: "goals.shorthanded_ends_own_minor",
    SWAP: "delayed_call.even",
    LONE_PAIR: "coincident.lone_minor_pair",
    LONE_PAIR_SUBSTITUTED: "coincident.lone_minor_pair",
    LATE_NETTING: "coincident.late_netting",
    NEVER_SHORT: "ice.plays_short",
    EQUAL_PAIR: "overtime.equal_pair",
    OVERTIME_ADDS: "overtime.skaters",
    SUDDEN_VICTORY: "overtime.sudden_victory",
}
"""The knob by which the ruleset decides, for the rules that the books set differently."""

_MAJORS = ("major", "match")
_MINORS = ("minor", "bench_minor")
_OUT_AT_ONCE = ("match", "game_misconduct")


@frozen
class Citing:
    """Cites rules and knobs for the changes of one block."""

    rules: Ruleset
    penalties: Mapping[int, PenaltyAssessed]
    ledger: Ledger
    block: Block

    def rule(self, change: Change) -> Rule:
        """The rule of `change`, narrower where what was told before says how."""
        if isinstance(change, PartStarted):
            return self._of_a_start(change)
        if isinstance(change, StrengthChanged) and change.rule is FORMULA:
            return self._of_a_strength(change)
        if isinstance(change, PartSetAside) and change.rule is OFFSET:
            return self._of_an_offset(change)
        if isinstance(change, Returned) and change.rule is ON_EXPIRY and change.how == "at stoppage":
            return AT_STOPPAGE
        if isinstance(change, Held) and change.rule is HELD and not self._somebody_moves_up(change):
            return HELD_LONGEST
        if isinstance(change, GameEnded) and any(isinstance(one, GoalJudged) for one in self.block.changes):
            return SUDDEN_VICTORY
        if isinstance(change, GoalJudged):
            ended = (one for one in self.block.changes if isinstance(one, PartEnded) and one.fate == "ended by goal")
            return next((one.rule for one in ended), change.rule)
        return change.rule

    def knob(self, change: Change, rule: Rule) -> str | None:
        """The dotted name of the knob by which the ruleset decided; ``None`` where the books agree."""
        if isinstance(change, PartEnded) and change.fate == "washed out":
            return self._of_a_wash(change.team)
        if isinstance(change, Ejected):
            return self._of_an_ejection(change)
        if rule is LONE_PAIR and isinstance(change, PartStarted) and self.penalties[change.penalty].on_clock:
            return None  # the officials ruled so
        return KNOBS.get(rule)

    # -- starts

    def _of_a_start(self, change: PartStarted) -> Rule:
        before = self.ledger.before
        if isinstance(before, PartEnded) and before.at == change.at and self._is_of_one_player(before, change):
            if not change.on_clock:
                return OFF_THE_CLOCK_LAST
            return GOAL_STARTS_NEXT if before.fate == "ended by goal" else CHAIN_ORDER
        if change.rule is not TIME_STARTS:
            return change.rule
        if change.penalty in self.ledger.waiting:
            return TWO_SLOTS
        return self._of_a_start_at_a_faceoff(change)

    def _is_of_one_player(self, ended: PartEnded, started: PartStarted) -> bool:
        if ended.team != started.team:
            return False
        number = self.penalties[ended.penalty].player
        return ended.penalty == started.penalty or (
            number is not None and number == self.penalties[started.penalty].player
        )

    def _of_a_start_at_a_faceoff(self, change: PartStarted) -> Rule:
        if not change.on_clock or (change.penalty, change.index) in self.ledger.started:
            return change.rule
        if change.ends_at - change.at < self.rules.part_length(self._kind(change)):
            return LATE_NETTING
        chains = self.block.after.side(change.team).slots
        if any(part.lone and part.order == (change.penalty, change.index) for chain in chains for part in chain.clock):
            return LONE_PAIR
        chosen = self.penalties[change.penalty].on_clock is True and change.team in self._offsetting()
        return CAPTAIN if chosen else change.rule

    def _offsetting(self) -> set[Team]:
        return {one.team for one in self.block.changes if isinstance(one, PartSetAside)}

    def _somebody_moves_up(self, change: Held) -> bool:
        return any(
            isinstance(one, PartStarted) and one.on_clock and (one.team, one.at) == (change.team, change.at)
            for one in self.block.changes
        )

    # -- offsetting

    def _of_an_offset(self, change: PartSetAside) -> Rule:
        if self.penalties[change.penalty].on_clock is False:
            return CAPTAIN
        if self._had_a_choice(change):
            return OFFSET_CHOICE
        pair = [one for one in self.block.changes if isinstance(one, PartSetAside)]
        alone = len(pair) == len(self._called_short()) == 2 and all(self._kind(one) in _MINORS for one in pair)
        nobody = not self.ledger.running and not self.ledger.waiting
        substituted = self.rules.coincident.lone_minor_pair == "substitute"
        return LONE_PAIR_SUBSTITUTED if alone and nobody and substituted else change.rule

    def _had_a_choice(self, change: PartSetAside) -> bool:
        """Whether that side was given more of the like than was offset."""
        like = _MINORS if self._kind(change) in _MINORS else _MAJORS
        given = [kind for team, kind in self._called_short() if team == change.team and kind in like]
        offset = [
            one
            for one in self.block.changes
            if isinstance(one, PartSetAside) and one.team == change.team and self._kind(one) in like
        ]
        return len(given) > len(offset)

    def _called_short(self) -> list[tuple[Team, str]]:
        """The parts called at this stoppage that leave a side short."""
        return [
            (call.team, kind)
            for call in self.ledger.called
            for kind in self.penalties[call.penalty].parts
            if kind in _MINORS + _MAJORS
        ]

    def _kind(self, change: PartStarted | PartSetAside) -> str:
        return self.penalties[change.penalty].parts[change.index]

    # -- skaters

    def _of_a_strength(self, change: StrengthChanged) -> Rule:
        skaters = self.ledger.without_attackers(change)
        if self.ledger.skaters == skaters:
            before = self.ledger.strength
            same = before is not None and (before.home, before.away) == (change.home, change.away)
            return RECORDED if same else EXTRA_ATTACKER
        base = self.rules.base_skaters(change.period)
        added = self.ledger.skaters is not None and sum(skaters) > sum(self.ledger.skaters)
        if self.block.kind == "clock" and added and base < self.rules.ice.skaters:
            return OVERTIME_ADDS
        return change.rule

    # -- knobs

    def _of_a_wash(self, called: Team) -> str | None:
        """By how the side scored on stood."""
        other: Team = "away" if called == "home" else "home"
        if self.ledger.is_short(called):
            return None
        return "delayed_call.shorthanded_goal" if self.ledger.is_short(other) else "delayed_call.even"

    def _of_an_ejection(self, change: Ejected) -> str | None:
        call = self.penalties.get(change.seq or 0)
        if call is None or any(kind in _OUT_AT_ONCE for kind in call.parts):
            return None
        record: PlayerRecord = self.block.after.side(change.team).record(change.player)
        if "major" in call.parts and self._majors_are_too_many(record):
            return "ejection.major"
        if "misconduct" in call.parts and 0 < self.rules.ejection.misconducts <= record.misconducts:
            return "ejection.misconducts"
        return "ejection.player_penalties"

    def _majors_are_too_many(self, record: PlayerRecord) -> bool:
        return 0 < self.rules.ejection.ending_major <= record.majors
