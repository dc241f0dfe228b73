"""The penalties of a random game."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from attrs import define
from random_table import Bench, Table

from rinkfold.timeline import GoalieChange, PenaltyAssessed, PenaltyEnded, PenaltyShot, Remark, Stoppage
from rinkfold.timeline.clock import format_reading

__all__ = ["Calls"]

MINOR = ("tripping", "hooking", "holding", "interference", "slashing", "roughing", "high-sticking")
MAJOR = ("boarding", "charging", "checking from behind", "cross-checking", "fighting")
MISCONDUCT = ("unsportsmanlike conduct", "abuse of officials")

PARTS: Mapping[tuple[Any, ...], int] = {
    ("minor",): 66,
    ("minor", "minor"): 8,
    ("bench_minor",): 8,
    ("major",): 4,
    ("minor", "misconduct"): 4,
    ("misconduct",): 4,
    ("major", "game_misconduct"): 2,
    ("match",): 1,
    ("minor", "game_misconduct"): 1,
    ("game_misconduct",): 1,
}
"""What is announced, and how often."""


@define
class Calls(Table):
    """A table at which penalties are called."""

    def change_goalie(self, bench: Bench, goalie: str | None, e: int | None = None) -> None:
        bench.net = goalie
        if goalie is not None:
            bench.keepers.sort(key=lambda number: number != goalie)
        self.write(GoalieChange, e, team=bench.team, goalie=goalie)

    def ruling(self) -> None:
        """An official ends a penalty of which something is left."""
        played = self.e - self.faced_off
        for one in self.box:
            bench = self.home if one.team == "home" else self.away
            alone = one.player is not None and bench.fouls[one.player, "penalties"] == 1
            if alone and one.remaining > played and one.state in ("running", "offset", "waiting"):
                self.write(PenaltyEnded, team=one.team, penalty=one.penalty, cause="ruling")
                self.write(Remark, text="The referee took the penalty back.")
                return

    def calls(self) -> None:
        """The penalties of one stoppage: one, a pair, or several of both sides."""
        before = self.live.next_seq
        draw = self.rng.random()
        if draw < 0.72:
            self.penalty(self.rng.choice(self.benches))
        elif draw < 0.84:
            for bench in self.benches:
                self.penalty(bench, ("minor",))
        elif draw < 0.92:
            bench = self.rng.choice(self.benches)
            for _ in range(2):
                self.penalty(bench, ("minor",))
        elif draw < 0.96:
            for bench in self.benches:
                self.penalty(bench, ("major",))
            self.penalty(self.rng.choice(self.benches), ("minor",))
        else:
            for _ in range(self.rng.randrange(3, 6)):
                self.penalty(self.rng.choice(self.benches))
        if self.chance(0.1):
            self.more_for_one_who_sits()
        if self.live.next_seq == before:
            self.write(Stoppage, reason="puck out of play")

    def penalty(self, bench: Bench, parts: tuple[Any, ...] | None = None, **fields: Any) -> None:
        parts = parts or self.rng.choices([*PARTS], [*PARTS.values()])[0]
        if len(bench.free()) < 9:  # enough must be left to play and to serve
            return
        if parts == ("bench_minor",) and self.chance(0.3):
            self.call(bench, parts, None, staff=bench.sheet.staff[0].name if bench.sheet.staff else None, **fields)
        elif parts == ("bench_minor",):
            self.call(bench, parts, None, **fields)
        elif parts == ("misconduct",) and self.chance(0.2):
            self.call(bench, parts, None, staff=bench.sheet.staff[0].name if bench.sheet.staff else None, **fields)
        elif parts == ("minor",) and bench.net is not None and self.chance(0.05):
            self.call(bench, parts, bench.net, **fields)
        else:
            self.call(bench, parts, self.rng.choice(bench.free()), **fields)

    def more_for_one_who_sits(self) -> None:
        """Somebody who sits since before this stoppage says too much."""
        said = [one for one in self.box if one.player and one.role == "player" and one.sits == one.player]
        if said:
            one = self.rng.choice(said)
            bench = self.home if one.team == "home" else self.away
            parts = self.rng.choice((("misconduct",), ("misconduct",), ("game_misconduct",), ("minor",)))
            if one.player not in bench.out:
                self.call(bench, parts, one.player)

    def call(self, bench: Bench, parts: tuple[Any, ...], player: str | None, **fields: Any) -> None:
        """Write a penalty down, with the game misconduct that goes with it and whoever has to serve it."""
        if player is not None:
            parts = self.with_game_misconduct(bench, player, parts)
            bench.sitting.add(player)
            bench.fouls[player, "sat"] += 1
        length = sum(self.rules.part_length(part) for part in parts)
        served_by = self.server(bench, player, parts)
        self.write(
            PenaltyAssessed,
            team=bench.team,
            player=player,
            parts=parts,
            infraction=self.infraction(parts),
            announced=format_reading(length) if length and self.chance(0.3) else None,
            served_by=served_by,
            **fields,
            **self.report(parts),
        )
        self.busy = True
        if player is not None and player == bench.net and player in bench.out:
            self.change_goalie(bench, next(one for one in bench.keepers if one != player))

    def with_game_misconduct(self, bench: Bench, player: str, parts: tuple[Any, ...]) -> tuple[Any, ...]:
        """The parts, with a game misconduct where the ruleset ends the player's game by the number of them."""
        had = bench.fouls
        had[player, "penalties"] += 1
        for part in parts:
            had[player, part] += 1
        ejection = self.rules.ejection
        allowed = {"always": 1, "second": 2, "third": 3, "never": 99}[ejection.major]
        over = had[player, "major"] >= allowed
        over |= 0 < ejection.misconducts <= had[player, "misconduct"]
        over |= 0 < ejection.player_penalties <= had[player, "penalties"]
        over |= had[player, "match"] + had[player, "game_misconduct"] > 0
        if over:
            bench.out.add(player)
        said = {"match", "game_misconduct"}.isdisjoint(parts)
        return (*parts, "game_misconduct") if over and said else parts

    def server(self, bench: Bench, player: str | None, parts: Sequence[str]) -> str | None:
        """A team-mate, where one has to sit for time on the clock."""
        timed = [part for part in parts if part not in ("misconduct", "game_misconduct")]
        keeper = player in bench.keepers
        if not timed or (player is not None and not keeper and player not in bench.out and len(timed) == len(parts)):
            return None
        chosen = self.rng.choice(bench.free())
        bench.sitting.add(chosen)
        bench.fouls[chosen, "sat"] += 1
        return chosen

    def infraction(self, parts: Sequence[str]) -> str:
        if "bench_minor" in parts:
            return "too many players"
        if "major" in parts or "match" in parts:
            return self.rng.choice(MAJOR)
        return self.rng.choice(MINOR if "minor" in parts else MISCONDUCT)

    def report(self, parts: Sequence[str]) -> dict[str, Any]:
        """What leagues want to read about whoever is sent off."""
        if {"misconduct", "match", "game_misconduct"}.isdisjoint(parts) or self.chance(0.1):
            return {}
        return {"rule": "as announced", "note": "Said too much, and would not stop."}

    def penalty_shot(self) -> None:
        bench = self.rng.choice(self.benches)
        against = self.other(bench)
        if against.net is None or len(against.free()) < 9:
            return self.calls()
        self.call(against, ("minor",), self.rng.choice(against.free()), penalty_shot=True)
        result = self.rng.choice(("scored", "saved", "missed"))
        if result == "scored":
            self.score(bench)
        elif result == "saved":
            self.shots[self.period, bench.team] += 1
        self.write(PenaltyShot, team=bench.team, player=self.rng.choice(bench.free()), result=result)
