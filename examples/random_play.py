"""How a random game goes: periods, stretches of play, what play is stopped for, and the end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from attrs import define
from random_calls import Calls
from random_clubs import person
from random_table import SECOND, TEAMS, Bench, Team

from rinkfold.timeline import (
    Amend,
    ClockSet,
    Faceoff,
    Figures,
    GameClosed,
    Goal,
    ObservedPlayer,
    ObservedStrength,
    PenaltyEnded,
    PeriodEnd,
    Remark,
    RosterChange,
    ShootoutAttempt,
    Shot,
    Stoppage,
    Timeout,
    Void,
)

__all__ = ["Play"]

REASONS = ("offside", "icing", "puck out of play", "goalkeeper holds the puck", "net off its place", None)


@define
class Play(Calls):
    """A game from the opening faceoff to the signatures."""

    def play(self) -> None:
        self.changes_before_the_game()
        last = self.rules.game.periods + self.rules.overtime.periods
        for period in range(1, last + 1):
            self.period, self.e = period, 0
            self.start_period()
            self.play_period()
            if self.live.game.over or (period >= self.rules.game.periods and not self.level()):
                break
        if self.level() and self.rules.shootout.rounds:
            self.shootout()
        self.close()

    def changes_before_the_game(self) -> None:
        for bench in self.benches:
            if self.chance(0.2):
                absent = bench.skaters.pop(self.rng.randrange(len(bench.skaters)))
                self.aside(RosterChange, team=bench.team, number=absent, status="absent")
            if self.chance(0.2):
                fields = {"number": "99", "name": person(self.rng), "position": "forward", "status": "playing"}
                self.aside(RosterChange, team=bench.team, **fields)
                bench.skaters.append("99")

    def start_period(self) -> None:
        """Each side has a goalkeeper in net."""
        for bench in self.benches:
            if bench.net is None:
                self.change_goalie(bench, self.rng.choice(bench.keepers) if self.period == 1 else bench.keepers[0])

    def play_period(self) -> None:
        length = self.rules.period_length(self.period)
        while True:
            self.face_off()
            end = self.e + SECOND * max(5, round(self.rng.expovariate(SECOND / self.tempo)))
            horn = end > length - (35 if self.live.game.folded.last.ice.running else 3) * SECOND
            self.stretch(length if horn else end)
            self.e = length if horn else end
            if horn:
                break
            self.whistle()
            if self.live.game.over:
                return
            if self.live.game.folded.last.ice.running:
                self.e += SECOND * self.rng.randrange(5, 25)
        self.write(PeriodEnd)
        self.figures()

    def face_off(self) -> None:
        self.write(Faceoff)
        self.faced_off = self.e
        if self.busy:
            self.box = self.live.now.box
            self.busy = bool(self.box)
        for bench in self.benches:
            bench.sitting = {one.sits for one in self.box if one.team == bench.team and one.sits is not None}
            bench.sitting |= {one.player for one in self.box if one.team == bench.team and one.player is not None}
        if self.chance(0.01) or (self.box and self.chance(0.05)):
            self.look_at_the_ice()

    def look_at_the_ice(self) -> None:
        """Somebody counts, or looks for one player, just after a faceoff."""
        strength = self.live.now.strength
        self.write(ObservedStrength, home=strength.home, away=strength.away)
        seen = next((one for one in self.box if one.sits and one.remaining > 2 * SECOND), None)
        if seen is not None:
            self.write(ObservedPlayer, team=seen.team, player=seen.sits, where="box")
        bench = self.rng.choice(self.benches)
        self.write(ObservedPlayer, team=bench.team, player=self.rng.choice(bench.free()), where="ice")

    # -- while play is on

    def stretch(self, end: int) -> None:
        """What is written while play goes on up to `end`: shots, doors, goalkeepers off for an extra attacker."""
        acts: list[tuple[int, int, Any]] = []
        for _ in range(self.rng.choice((0, 0, 1, 1, 1, 2))):
            acts.append((self.between(end), 1, self.shot))
        acts += [(e, 0, door) for e, door in self.openings(end)]
        if self.period >= self.rules.game.periods and self.period_left(end) < 150 * SECOND:
            acts += [(self.between(end), 2, self.pull_goalie)]
        for e, _, act in sorted(acts, key=lambda one: one[:2]):
            if self.faced_off < e < end:
                act(e)

    def between(self, end: int) -> int:
        e = self.rng.randrange(self.faced_off + SECOND, max(end, self.faced_off + 2 * SECOND))
        last_minute = self.period_left(e) < 60 * SECOND
        return e if last_minute else e // SECOND * SECOND

    def period_left(self, e: int) -> int:
        return self.rules.period_length(self.period) - e

    def shot(self, e: int) -> None:
        bench = self.rng.choice(self.benches)
        if self.other(bench).net is None:
            return
        player = None if self.chance(0.1) else self.rng.choice(bench.free())
        count = 2 if self.chance(0.04) else None
        self.shots[self.period, bench.team] += count or 1
        if self.chance(0.03):  # without a reading: it stands where it is written
            self.aside(Shot, period=self.period, team=bench.team, player=player, count=count)
            return
        seq = self.write(Shot, e, team=bench.team, player=player, count=count)
        if self.chance(0.01):
            twice = self.write(Shot, e, team=bench.team, player=player, count=count)
            self.aside(Void, target=twice, reason="written twice")
        elif self.chance(0.01):
            self.aside(Amend, target=seq, changes={"player": self.rng.choice(bench.free())}, reason="wrong number")

    def openings(self, end: int) -> Iterator[tuple[int, Any]]:
        """When doors open before `end` because somebody's time is up, if nothing happens before."""
        for one in self.box if self.doors else ():
            if one.out.how != "on expiry" or one.out.at is None or one.out.at.period != self.period:
                continue
            e = self.faced_off + one.remaining
            if self.clock(e) == one.out.at.clock and e < end:
                yield (
                    e,
                    lambda e, one=one: self.write(
                        PenaltyEnded, e, team=one.team, penalty=one.penalty, cause="released"
                    ),
                )

    def pull_goalie(self, e: int) -> None:
        for bench in self.benches:
            behind = self.total(self.goals, bench.team) < self.total(self.goals, self.other(bench).team)
            if behind and bench.net is not None and self.period_left(e) > 5 * SECOND:
                self.change_goalie(bench, None, e)

    # -- when play stops

    def whistle(self) -> None:
        """What play was stopped for."""
        draw = self.rng.random()
        if draw < 0.1:
            self.goal()
        elif draw < 0.20:
            self.calls()
        elif draw < 0.21:
            self.penalty_shot()
        elif draw < 0.22:
            self.correct_the_clock()
        else:
            self.write(Stoppage, reason=self.rng.choice(REASONS))
            self.pause()

    def pause(self) -> None:
        """What happens in a stoppage in which nobody is penalized."""
        bench = self.rng.choice(self.benches)
        if self.chance(0.03) and bench.timeouts < self.rules.game.timeouts:
            bench.timeouts += 1
            self.write(Timeout, team=bench.team)
        elif self.chance(0.01) or bench.net is None:
            self.change_goalie(bench, self.rng.choice([one for one in bench.keepers if one not in bench.out]))
        elif self.chance(0.05):
            self.ruling()
        elif self.chance(0.01):
            self.write(Remark, text="The glass behind the home goal was mended.")
        elif self.chance(0.005):
            self.new_number(bench)

    def correct_the_clock(self) -> None:
        """The clock ran on after the whistle; the officials put a second back."""
        if self.e - self.faced_off < 8 * SECOND:
            return self.whistle()
        self.e += SECOND
        self.write(Stoppage, reason="puck out of play")
        shown, self.e = self.clock(self.e), self.e - SECOND
        self.live.record(ClockSet(seq=0, period=self.period, clock=shown, to=self.clock(self.e), reason="ran on"))

    def new_number(self, bench: Bench) -> None:
        """A torn sweater: somebody who was never penalized and never sat goes on with another number."""
        taken = {player.number for player in bench.sheet.roster or ()} | {*bench.skaters}
        unstained = [number for number in bench.free() if not bench.fouls[number, "sat"]]
        number = next(str(n) for n in range(70, 99) if str(n) not in taken)
        old = self.rng.choice(unstained)
        self.write(RosterChange, team=bench.team, number=number, was=old)
        bench.skaters[bench.skaters.index(old)] = number

    def goal(self) -> None:
        bench = self.rng.choice(self.benches)
        against = self.other(bench)
        scorer, *assists = self.rng.sample(bench.free(), 3)
        fields: dict[str, Any] = {"scorer": scorer, "assists": tuple(assists[: self.rng.randrange(3)])}
        if against.net is None:
            fields["empty_net"] = True
        if self.chance(0.02):
            fields = {"scorer": scorer, "own_goal": True, **({"empty_net": True} if against.net is None else {})}
        elif self.chance(0.01):
            fields = {"scorer": scorer, "awarded": True}
        elif self.chance(0.02):
            fields["scorer"] = None
        self.score(bench)
        ends = None if fields.get("awarded") else self.captains_choice(against)
        seq = self.write(Goal, team=bench.team, ends=ends, **fields)
        if self.chance(0.03) and not fields.get("awarded"):
            self.aside(Amend, target=seq, changes={"assists": assists[:1]}, reason="as the referee said")
        if not self.live.game.over and self.chance(0.12):
            self.penalty(against, ("minor",) if self.chance(0.8) else ("minor", "minor"), delayed_call=True)

    def captains_choice(self, against: Bench) -> int | None:
        """Of two minors with the same time left the captain may choose."""
        played = self.e - self.faced_off
        equal = [one for one in self.box if one.team == against.team and one.ends_on_goal and one.remaining > played]
        return equal[-1].penalty if len(equal) == 2 and self.chance(0.5) else None

    # -- the end

    def figures(self) -> None:
        """What the board, and now and then the shot sheet, shows of the period."""
        for team in TEAMS:
            shots = self.shots[self.period, team] if self.chance(0.3) else None
            self.write(Figures, team=team, goals=self.goals[self.period, team], shots=shots, source="board")

    def shootout(self) -> None:
        """Rounds until one side cannot catch up any more, then one by one; nobody shoots who may sit."""
        rounds, scored = self.rules.shootout.rounds, Counter[Team]()
        shooters = {bench.team: self.rng.sample(bench.free(), len(bench.free())) for bench in self.benches}
        for turn in range(200):
            for index, bench in enumerate(self.benches):
                player = shooters[bench.team][turn % len(shooters[bench.team])]
                result = self.rng.choice(("scored", "saved", "missed"))
                self.write(ShootoutAttempt, team=bench.team, player=player, result=result)
                scored[bench.team] += result == "scored"
                if self.settled(scored, rounds, turn, index):
                    return

    @staticmethod
    def settled(scored: Counter[Team], rounds: int, turn: int, index: int) -> bool:
        """Whether the other side can no longer catch up; home shoots first."""
        lead = scored["home"] - scored["away"]
        home_left = max(rounds - turn - 1, 0)
        return lead > home_left + (index == 0) or -lead > home_left

    def close(self) -> None:
        for bench in self.benches:
            self.aside(Figures, team=bench.team, goals=self.total(self.goals, bench.team), source="score sheet")
        if self.chance(0.005):
            return  # nobody closed the record
        signed = self.live.game.header.officials
        names = (*signed.referees, signed.scorekeeper) if signed else ()
        self.aside(GameClosed, outcome="played", signed=tuple(name for name in names if name))
