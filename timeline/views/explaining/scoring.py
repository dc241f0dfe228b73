"""What a goal, a goalkeeper's change and a change of the skaters are in the trade's words."""

from __future__ import annotations

from attrs import frozen

from ...events import TEAMS, Goal, PenaltyShot, Team
from ...fold.changes import GoalieChanged, GoalJudged, PartEnded, PartStarted, StrengthChanged
from ...folded import FoldedGame
from ...wording import listed
from .causes import Block
from .events import event_of
from .ledger import Ledger
from .naming import Words

__all__ = ["Scoring"]

_A_MAJOR = {"major": "a major", "match": "a match penalty"}


@frozen
class Scoring:
    """Says who scored how, and how many skate, with what was told before it."""

    game: FoldedGame
    words: Words
    ledger: Ledger
    block: Block

    def text(self, change: GoalieChanged | GoalJudged | StrengthChanged) -> str:
        """A clause about `change`."""
        if isinstance(change, GoalJudged):
            return self._goal(change)
        return self._goalie(change) if isinstance(change, GoalieChanged) else self._strength(change)

    def _goalie(self, change: GoalieChanged) -> str:
        if change.goalie is None:
            return f"{change.team} has taken its goalkeeper out for one more skater"
        return f"{self.words.person(change.team, change.goalie)} is in net"

    def _goal(self, change: GoalJudged) -> str:
        strength = self.ledger.strength
        label = f", home {strength.home} on {strength.away} away" if strength is not None else ""
        kinds = {"even": "at even strength", "power play": "on the power play", "short-handed": "short-handed"}
        kind = kinds[change.strength] if change.strength else self._kind_of_goal()
        ended = next(
            (one for one in self.block.changes if isinstance(one, PartEnded) and one.fate == "ended by goal"), None
        )
        if ended is not None:
            ends = ": that ends a minor" + (" of its own" if ended.team == change.team else "")
        else:
            ends = f"; it ends nothing: {self._why_nothing(change)}"
        return f"{change.team} scores {kind}{label}{ends}"

    def _kind_of_goal(self) -> str:
        event = event_of(self.game, self.block.seq)
        return "on a penalty shot" if isinstance(event, PenaltyShot) else "by an award"

    def _why_nothing(self, change: GoalJudged) -> str:
        event = event_of(self.game, self.block.seq)
        if isinstance(event, PenaltyShot):
            return "a goal on a penalty shot leaves penalties as they are"
        if isinstance(event, Goal) and event.awarded:
            return "an awarded goal leaves penalties as they are"
        conceding: Team = "away" if change.team == "home" else "home"
        if not self.ledger.is_short(conceding):
            attacker = f"; {change.team} has one more for its goalkeeper" if change.team in self.ledger.empty else ""
            return f"no penalty left {conceding} short-handed{attacker}"
        kinds = {self._kind_of_part(one) for one in self.ledger.on_the_clock(conceding)}
        if kinds and kinds.isdisjoint({"minor", "bench_minor"}):
            return f"{conceding} is short by {listed([_A_MAJOR[kind] for kind in sorted(kinds)])}"
        return f"{conceding} has no minor running that a goal ends"

    def _strength(self, change: StrengthChanged) -> str:
        label = f"home {change.home} on {change.away} away"
        skaters = self.ledger.without_attackers(change)
        if skaters == self.ledger.skaters:
            return f"{label}: {self._nets()}"
        sitting = [
            self.words.offender(self.words.penalties[one.penalty])
            for team in TEAMS
            for one in self.ledger.on_the_clock(team)
        ]
        if not sitting:
            return f"{label}: {self._nobody(change, skaters)}"
        return f"{label}: time of {listed(sitting)} is on the clock"

    def _nets(self) -> str:
        """Why the skaters changed, or did not, when penalties left them as they were."""
        if not self.ledger.empty:
            return "both with a goalkeeper"
        teams = [team for team in TEAMS if team in self.ledger.empty]
        return f"{listed(list(teams))} skates one more for its goalkeeper"

    def _nobody(self, change: StrengthChanged, skaters: tuple[int, int]) -> str:
        base = self.game.rules.base_skaters(change.period)
        later = f", the next whistle makes it {base} on {base}" if max(skaters) > base else ""
        return f"no time is on the clock{later}"

    def _kind_of_part(self, change: PartStarted) -> str:
        return self.words.penalties[change.penalty].parts[change.index]
