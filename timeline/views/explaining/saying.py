"""What one change is in the trade's words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import frozen

from ...clock import format_reading, reading_in_period
from ...events import Goal, Team
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
from ...fold.rulebook import GOAL_CHOICE, HELD, HELD_LONGEST
from ...fold.state import Role
from ...folded import FoldedGame
from ...wording import listed
from .causes import Block
from .events import event_of
from .ledger import Ledger
from .naming import KINDS_OF_PART, Words
from .scoring import Scoring

__all__ = ["Saying"]


@frozen
class Saying:
    """Says the changes of one block, with what was told before it."""

    game: FoldedGame
    words: Words
    ledger: Ledger
    block: Block

    def text(self, change: Change) -> str | None:
        """A clause about `change`; ``None`` for one that says nothing by itself."""
        say = _SAYINGS.get(type(change))
        return None if say is None else say(self, change)

    # -- penalties and their parts

    def _called(self, change: PenaltyCalled) -> str:
        call = self.words.penalties[change.penalty]
        infraction = f" for {call.infraction}" if call.infraction else ""
        said = [f"{self.words.offender(call)} is given a {self.words.parts(call)}{infraction}"]
        if call.served_by is not None:
            said.append(f"{self.words.person(call.team, call.served_by)} is named to serve it")
        if call.delayed_call:
            said.append("the arm was up when the goal went in")
        if call.penalty_shot:
            said.append("a penalty shot is awarded")
        return "; ".join(said)

    def _started(self, change: PartStarted) -> str:
        part = self.words.part(change.penalty, change.index)
        again = (change.penalty, change.index) in self.ledger.started
        begins = "goes on" if again else "begins"
        over = f"runs until {self._board(change.ends_at, change)} if nothing else happens"
        if not change.on_clock:
            known = again or (change.penalty, change.index) in self.ledger.aside
            return f"{part} {begins} and {over}{'' if known else ', off the clock: a substitute skates'}"
        length = change.ends_at - change.at
        shorter = not again and length < self.game.rules.part_length(self._kind(change))
        share = f" with {format_reading(length)} on the clock" if shorter else ""
        opened = "a place is free: " if change.penalty in self.ledger.waiting else ""
        return f"{opened}{part} {begins}{share} and {over}"

    def _kind(self, change: PartStarted) -> str:
        return self.words.penalties[change.penalty].parts[change.index]

    def _board(self, tenth: int, change: Change) -> str:
        """The reading at a tenth still to come, if the periods until then are played out."""
        rules = self.game.rules
        period, played = change.period, tenth - self._period_start(change)
        while played > (length := rules.period_length(period)):
            period, played = period + 1, played - length
        reading = reading_in_period(played, rules.period_length(period), rules.game.reading)
        if period == change.period:
            return reading
        return f"{reading} of {'overtime' if period > rules.game.periods else f'period {period}'}"

    def _period_start(self, change: Change) -> int:
        spans = (span.start for span in self.game.periods if span.period == change.period)
        return next(spans, self.block.after.ice.period_start)

    def _suspended(self, change: PartSuspended) -> str:
        part = self.words.part(change.penalty, change.index)
        if not change.begun:
            return f"{part} has not begun: other time comes before it"
        return f"{part} stands still with {format_reading(change.left)} to serve"

    def _set_aside(self, change: PartSetAside) -> str:
        return f"{self.words.part(change.penalty, change.index)} is served off the clock: a substitute skates"

    def _ended(self, change: PartEnded) -> str:
        part = self.words.part(change.penalty, change.index)
        served = self.ledger.served.get((change.penalty, change.index), 0) + change.served
        kind = self.words.penalties[change.penalty].parts[change.index]
        left = format_reading(max(self.game.rules.part_length(kind) - served, 0))
        match change.fate:
            case "served":
                if kind == "game_misconduct":
                    return f"{part} is written: nobody sits for it"
                return f"{part} is over, {format_reading(served)} served"
            case "offset":
                return f"{part} is over, {format_reading(served)} served off the clock"
            case "ended by goal":
                return f"the goal ends {part} with {left} left{self._chosen(change)}"
            case "ended by ruling":
                return f"an official ends {part} with {left} left"
            case "ended by ejection":
                return f"nobody serves {'the rest of ' if served else ''}{part}"
            case "washed out":
                return f"{part} is written and not served: the goal washes it out"
            case "replaced by penalty shot":
                return f"{part} is written and not served: the penalty shot stands in its place"
            case "unserved":
                return f"{part} is written: nobody serves it"

    def _chosen(self, change: PartEnded) -> str:
        """Why this one among minors with equal time left."""
        if change.rule is not GOAL_CHOICE:
            return ""
        goal = event_of(self.game, change.seq)
        chosen = isinstance(goal, Goal) and goal.ends == change.penalty
        return ", chosen by the captain" if chosen else ", the first assessed of equals"

    def _waits(self, change: Waits) -> str:
        running = [self.words.offender(self.words.penalties[one.penalty]) for one in self._on_the_clock(change)]
        who = self.words.offender(self.words.penalties[change.penalty])
        busy = f", both are taken, by {listed(running)}" if running else ""
        return f"{who} waits for a place{busy}; a substitute skates"

    def _on_the_clock(self, change: Waits) -> list[PartStarted]:
        """What runs on the clock when the change is settled: what ran before, and what the same settlement starts."""
        starting = [
            one
            for one in self.block.changes
            if isinstance(one, PartStarted) and one.on_clock and one.team == change.team and one.at == change.at
        ]
        return [*self.ledger.on_the_clock(change.team), *(one for one in starting if one.penalty != change.penalty)]

    # -- people

    def _held(self, change: Held) -> str:
        who = self._sitter(change.team, change.who, change.role, change.penalties)
        if change.rule is not HELD:
            return f"{who} sits on until the next whistle"
        moved_up = [one for one in self.block.changes if isinstance(one, PartStarted) and one.on_clock]
        taker = next((one for one in moved_up if one.team == change.team and one.at == change.at), None)
        if taker is not None:
            waited = self.words.offender(self.words.penalties[taker.penalty])
            return f"{who} sits on: the place goes to {waited}, who waited"
        longer = next((one for one in self.block.changes if self._is_let_out_first(one, change)), None)
        first = "somebody" if not isinstance(longer, Returned) else self.words.person(longer.team, longer.who)
        return f"{who} sits on: {first} has been held longer"

    def _is_let_out_first(self, one: Change, held: Held) -> bool:
        return (
            isinstance(one, Returned)
            and one.rule is HELD_LONGEST
            and (one.team, one.at) == (held.team, held.at)
            and one.key != held.key
        )

    def _returned(self, change: Returned) -> str:
        who = self._sitter(change.team, change.who, change.role, change.penalties)
        if change.rule is HELD_LONGEST:
            who = f"{who} and was held longest," if who.endswith(",") else f"{who}, held longest,"
            who = who.replace(", and was", " and was")
        injured = self.words.naming.is_injured(change.team, change.who)
        return f"{who} may leave the box{' (recorded as injured)' if injured else ''}"

    def _withdrawn(self, change: ReturnWithdrawn) -> str:
        return f"{self.words.person(change.team, change.who)} sits on: penalized again at this stoppage"

    def _sitter(self, team: Team, who: str | None, role: Role, penalties: tuple[int, ...]) -> str:
        """Who sits; for a stand-in also for whom."""
        person = f"the {team} team-mate" if who is None else self.words.person(team, who)
        if role == "player" or not penalties:
            return person
        penalty = self.words.penalties[penalties[-1]]
        return f"{person}, who sat for {self.words.offender(penalty).removeprefix(f'{team} ')},"

    def _ejected(self, change: Ejected) -> str:
        who = self.words.person(change.team, change.player)
        call = self.words.penalties.get(change.seq or 0)
        at_once = [kind for kind in ("match", "game_misconduct") if call is not None and kind in call.parts]
        if at_once:
            return f"{who} is out of the game: a {KINDS_OF_PART[at_once[0]]}"
        record = self.block.after.side(change.team).record(change.player)
        counts = [(record.majors, "major"), (record.misconducts, "misconduct"), (record.penalties, "penalty")]
        given = [_counted(count, word) for count, word in counts if count]
        return f"{who} is out of the game: {listed(given)} so far"

    # -- the rest

    def _power_play(self, change: PowerPlayCounted) -> str:
        plays = "a power play is" if change.count == 1 else f"{change.count} power plays are"
        return f"{plays} counted for {change.team}"

    def _scoring(self, change: GoalieChanged | GoalJudged | StrengthChanged) -> str:
        return Scoring(self.game, self.words, self.ledger, self.block).text(change)

    def _assumed(self, change: PlayResumed) -> str | None:
        if not change.assumed:
            return None
        return "penalty time is taken to start at the reading of the call: the clock runs and no faceoff is written"

    def _over(self, change: GameEnded) -> str:
        return "the game is over"


def _counted(count: int, word: str) -> str:
    plural = {"penalty": "penalties"}.get(word, f"{word}s")
    return f"{count} {word if count == 1 else plural}"


_SAYINGS: Mapping[type[Any], Callable[[Saying, Any], str | None]] = {
    PenaltyCalled: Saying._called,
    PartStarted: Saying._started,
    PartSuspended: Saying._suspended,
    PartSetAside: Saying._set_aside,
    PartEnded: Saying._ended,
    Waits: Saying._waits,
    Held: Saying._held,
    Returned: Saying._returned,
    ReturnWithdrawn: Saying._withdrawn,
    Ejected: Saying._ejected,
    GoalieChanged: Saying._scoring,
    GoalJudged: Saying._scoring,
    PowerPlayCounted: Saying._power_play,
    StrengthChanged: Saying._scoring,
    PlayResumed: Saying._assumed,
    GameEnded: Saying._over,
}
"""How each kind is said. A whistle says nothing by itself: the cause names it."""
