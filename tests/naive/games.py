"""Rich random games for the naive simulator: well-formed histories in which things collide often.

Periods are short (two to six minutes) and most times are whole tens of seconds, so that time runs out exactly at
goals and whistles, chains queue, and penalties are carried into overtime.
"""

import random
from typing import Any

from .knobs import random_knobs

Event = tuple[Any, ...]
GOALKEEPERS = {"home": {"1"}, "away": {"30"}}
PLAYERS = ("2", "3", "4", "5", "7", "8", "9", "11", "12")
PARTS: tuple[tuple[tuple[str, ...], int], ...] = (
    (("minor",), 40),
    (("minor", "minor"), 12),
    (("major",), 8),
    (("minor", "misconduct"), 7),
    (("misconduct",), 4),
    (("major", "game_misconduct"), 4),
    (("minor", "major"), 3),
    (("match",), 1),
    (("minor", "minor", "misconduct"), 2),
    (("minor", "game_misconduct"), 2),
    (("minor", "major", "game_misconduct"), 1),
    (("major", "game_misconduct", "match"), 1),
    (("game_misconduct",), 1),
    (("minor", "minor", "minor"), 1),
)


def random_game(rng: random.Random) -> tuple[dict[str, Any], dict[str, set[str]], list[Event]]:
    """One game: knobs, goalkeepers named by the rosters, events in game order."""
    knobs = random_knobs(rng)
    goalkeepers = {team: set(numbers) if rng.random() < 0.7 else set() for team, numbers in GOALKEEPERS.items()}
    game = Writer(rng, knobs)
    game.write()
    return knobs, goalkeepers, game.events


class Writer:
    """Writes one game, keeping just enough of it in mind to stay well-formed: the reading, the score, who was named."""

    def __init__(self, rng: random.Random, knobs: dict[str, Any]) -> None:
        self.rng = rng
        self.knobs = knobs
        self.events: list[Event] = []
        self.period = 1
        self.e = 0
        self.ends_at = 0  # the reading at which this period ends
        self.stopped = True  # no faceoff written since the last whistle
        self.score = {"home": 0, "away": 0}
        self.over = False
        self.penalized: dict[str, list[str]] = {"home": [], "away": []}
        self.seqs: dict[str, list[int]] = {"home": [], "away": []}
        self.times: list[int] = []  # readings of this period from which time may run
        self.called_last: str | None = None
        self.stand_ins = 60
        self.brawls = rng.choice((0.03, 0.15, 0.4))
        self.calm = rng.choice((0.0, 0.2, 0.4))  # how often a moment is nothing but a whistle or a reading
        self.writes_faceoffs = rng.choice((0.2, 0.7, 0.95))
        self.longest_step = rng.choice((300, 500, 900))
        self.goals = rng.choice((0.06, 0.25, 0.45))

    def chance(self, p: float) -> bool:
        return self.rng.random() < p

    def add(self, kind: str, *rest: Any) -> int:
        self.events.append((kind, len(self.events) + 2, self.period, self.e, *rest))
        return len(self.events) + 1

    def length(self) -> int:
        overtime = self.period > int(self.knobs["game.periods"])
        return int(self.knobs["overtime.length" if overtime else "game.period_length"])

    def sudden(self) -> bool:
        level = self.score["home"] == self.score["away"]
        return self.period > int(self.knobs["game.periods"]) and bool(self.knobs["overtime.sudden_victory"]) and level

    def write(self) -> None:
        if self.chance(0.3):
            self.add("goalie", self.rng.choice(("home", "away")), self.rng.choice(("1", "30")))
        while not self.over:
            self.write_period()
            if not self.over:
                self.next_period()
        if self.chance(0.5):
            self.events.append(("closed", len(self.events) + 2))

    def next_period(self) -> None:
        """After a period: the next one, an overtime, or the end of the writing."""
        periods, overtimes = int(self.knobs["game.periods"]), int(self.knobs["overtime.periods"])
        last = periods + (overtimes or 2)
        decided = self.period >= periods and self.score["home"] != self.score["away"]
        if decided or self.period >= last or self.chance(0.03):
            self.over = True
            return
        self.period += 1
        self.e, self.times, self.stopped = 0, [], True

    def write_period(self) -> None:
        if self.chance(0.15):
            self.some_calls()  # at the opening reading: one stoppage with the horn before it
        if self.chance(self.writes_faceoffs):
            self.faceoff()
        ends_at = self.length()
        if self.chance(0.08):
            ends_at = self.rng.randrange(ends_at // 3, ends_at)
        self.ends_at = ends_at
        while not self.over and self.step(ends_at):
            self.moment()
        if self.over:
            return
        if ends_at < self.length() or self.chance(0.85):
            self.horn(ends_at)
        elif self.chance(0.3) and self.e < ends_at:
            self.e = ends_at
            self.some_calls()

    def horn(self, ends_at: int) -> None:
        minor = int(self.knobs["lengths.minor"])
        if self.chance(0.3) and ends_at - minor // 2 > self.e:
            self.e = ends_at - minor // 2  # an equal pair that is carried over
            for team in ("home", "away"):
                self.call(team, parts=("minor",))
            if self.chance(0.3):
                self.call(self.rng.choice(("home", "away")), parts=("minor",))
        self.e = ends_at
        if self.chance(0.2):
            self.some_calls()
        self.add("period_end")
        if self.chance(0.15):
            self.some_calls()

    def step(self, ends_at: int) -> bool:
        """Go on to the next reading; False when the period has come to its end."""
        if not self.stopped and self.chance(0.04):
            return True  # again at the same reading, after a faceoff there
        kind = self.rng.random()
        after = self.e + self.rng.randrange(1, self.longest_step)
        if kind < 0.35 and self.times:  # just when something may run out
            lengths = ("lengths.minor", "lengths.minor", "lengths.major", "lengths.misconduct")
            after = self.rng.choice(self.times) + int(self.knobs[self.rng.choice(lengths)])
        elif kind < 0.85:
            after = (after // 100 + 1) * 100
        if after <= self.e:
            after = self.e + 100
        if after >= ends_at:
            return False
        self.e = after
        return True

    def moment(self) -> None:
        draw = self.rng.random()
        if self.chance(self.calm):
            draw = self.rng.uniform(0.87, 1.0)
        if draw < self.goals:
            self.goal_moment()
        elif draw < self.goals + 0.06:
            self.misconduct_for_one_who_sits()
        elif draw < 0.75:
            if self.chance(0.4):
                self.add("stoppage")
            self.some_calls()
        elif draw < 0.80:
            self.penalty_shot_moment()
        elif draw < 0.87:
            self.ruling()
            return
        elif draw < 0.92:
            self.add(self.rng.choice(("stoppage", "stoppage", "timeout")))
        elif draw < 0.94:
            self.faceoff()
            return
        else:
            self.aside()
            return
        self.stopped = True
        if self.chance(0.06):
            self.ruling()
        self.maybe_faceoff()

    def aside(self) -> None:
        if self.chance(0.3):
            self.add("goalie", self.rng.choice(("home", "away")), self.rng.choice(("1", "30", None, "9")))
        else:
            self.add("other")

    def maybe_faceoff(self) -> None:
        if self.over or not self.chance(self.writes_faceoffs):
            return
        later = 0.7 if self.knobs["game.clock"] == "running" else 0.15
        if self.chance(later):
            after = self.e + self.rng.choice((10, 50, 100, 100, 200, int(self.knobs["lengths.minor"])))
            if after < self.ends_at:
                self.e = after
        self.faceoff()

    def faceoff(self) -> None:
        self.add("faceoff")
        self.stopped = False
        self.times.append(self.e)

    def ruling(self) -> None:
        recent = self.seqs["home"][-4:] + self.seqs["away"][-4:]
        if recent:
            self.add("ruling", self.rng.choice(recent))
        else:
            self.add("other")

    def goal_moment(self) -> None:
        team = self.rng.choice(("home", "away"))
        if self.called_last is not None and self.chance(0.6):
            team = "away" if self.called_last == "home" else "home"
        against = "away" if team == "home" else "home"
        delayed = self.chance(0.4)
        early = delayed and self.chance(0.15)
        if early:
            self.call(against, delayed=True)
        awarded = self.chance(0.08)
        self.goal(team, awarded)
        if delayed:
            for _ in range(self.rng.choice((0, 1, 2) if early else (1, 1, 2))):
                self.call(against if self.chance(0.85) else team, delayed=True)
        elif not self.over and self.chance(0.06):
            self.goal(self.rng.choice(("home", "away")), awarded=False)
        if self.chance(0.15):
            self.some_calls()
        self.times.append(self.e)

    def goal(self, team: str, awarded: bool) -> None:
        ends = None
        against = "away" if team == "home" else "home"
        if self.seqs[against] and self.chance(0.6):
            ends = self.rng.choice(self.seqs[against][-3:])
        sudden = self.sudden()
        self.add("goal", team, {"ends": ends, "awarded": awarded})
        self.score[team] += 1
        self.over = self.over or sudden

    def misconduct_for_one_who_sits(self) -> None:
        """A misconduct on the player called last, and perhaps an official takes it back."""
        team = self.rng.choice(("home", "away"))
        if not self.penalized[team]:
            self.some_calls()
            return
        self.call(team, parts=("misconduct",), player=self.penalized[team][-1])
        self.stopped = True
        if self.chance(0.6):
            if self.chance(0.8):
                self.faceoff()
                later = self.e + self.rng.choice((10, 50, 100))
                self.e = later if later < self.ends_at else self.e
            self.add("ruling", self.seqs[team][-1])

    def penalty_shot_moment(self) -> None:
        team = self.rng.choice(("home", "away"))
        self.call("away" if team == "home" else "home", shot=True)
        if self.chance(0.2):
            self.some_calls()
        result = self.rng.choice(("scored", "saved", "missed"))
        sudden = self.sudden()
        self.add("penalty_shot", team, result)
        if result == "scored":
            self.score[team] += 1
            self.over = self.over or sudden

    def some_calls(self) -> None:
        """The penalties of one stoppage: one, or a lone pair, or a brawl."""
        self.stopped = True
        draw = self.rng.random()
        if draw < self.brawls:
            for _ in range(self.rng.randrange(2, 7)):
                self.call(self.rng.choice(("home", "away")), choices=True)
        elif draw < self.brawls + 0.15:
            ruled = self.chance(0.3)
            for team in ("home", "away"):
                self.call(team, parts=("minor",), on_clock=True if ruled else None)
            if ruled and self.chance(0.5):
                self.call(self.rng.choice(("home", "away")))
        elif draw < self.brawls + 0.22:
            first = self.rng.choice(("home", "away"))
            self.call(first, parts=self.rng.choice((("major",), ("major", "game_misconduct"), ("match",))))
            other = "away" if first == "home" else "home"
            self.call(other, parts=self.rng.choice((("minor",), ("minor", "minor"))))
        elif draw < self.brawls + 0.32:
            team = self.rng.choice(("home", "away"))
            for _ in range(2):  # equal time: the captain chooses
                self.call(team, parts=("minor",))
        else:
            team = self.rng.choice(("home", "away"))
            for _ in range(self.rng.choice((1, 1, 1, 2, 3))):
                self.call(team)
        self.times.append(self.e)

    def call(
        self,
        team: str,
        *,
        parts: tuple[str, ...] | None = None,
        delayed: bool = False,
        shot: bool = False,
        choices: bool = False,
        on_clock: bool | None = None,
        player: str | None = None,
    ) -> None:
        draw = 1.0 if player is not None else self.rng.random()
        if parts is None:
            parts = self.rng.choices([p for p, _ in PARTS], [w for _, w in PARTS])[0]
        player = player or self.player(team)
        staff = False
        if shot:
            parts = self.rng.choice((("minor",), ("minor",), ("minor", "minor"), ("minor", "misconduct")))
        elif draw < 0.06:
            parts = ("bench_minor",)
            player = None
        elif draw < 0.09:
            staff, player = True, None
            parts = self.rng.choice((("bench_minor",), ("bench_minor", "game_misconduct"), ("misconduct",), ("match",)))
        elif draw < 0.12:
            player = None
        if choices and self.chance(0.25):
            on_clock = self.chance(0.6)
        served_by = self.stand_in() if self.names_stand_in(parts, player) else None
        if player is not None:
            self.penalized[team].append(player)
        details = {"player": player, "staff": staff, "parts": parts, "served_by": served_by}
        details |= {"delayed": delayed, "on_clock": on_clock, "shot": shot}
        self.called_last = team
        self.seqs[team].append(self.add("penalty", team, details))
        if served_by is not None and self.chance(0.3):
            self.penalized[team].append(served_by)  # so that he is penalized himself before long

    def names_stand_in(self, parts: tuple[str, ...], player: str | None) -> bool:
        if player in ("1", "30", None):
            return self.chance(0.5)
        return self.chance(0.35 if len(parts) > 1 or parts == ("major",) else 0.05)

    def stand_in(self) -> str:
        self.stand_ins += 1
        return str(self.stand_ins)

    def player(self, team: str) -> str:
        """Somebody of a team: often one who was penalized lately, now and then the goalkeeper."""
        if self.chance(0.07):
            return "1" if team == "home" else "30"
        if self.penalized[team] and self.chance(0.4):
            return self.rng.choice(self.penalized[team][-3:])
        return self.rng.choice(PLAYERS)
