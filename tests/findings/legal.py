"""Random games that are legal, as logs: histories of the naive simulator, made into what a careful table would write.

The simulator's games are well-formed histories in which much collides, but not all of it is legal or well recorded:
periods have no horn, rulings end nothing, captains choose what cannot be had. Here each of these is put right, with the
simulator and never the engine as the judge, and readings, scorers, shots, doors, observations and figures are added.
"""

from __future__ import annotations

import random
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from typing import Any, Literal

from agreement.bridge import possible, ruleset
from attrs import Factory, define, frozen
from naive.games import GOALKEEPERS, PLAYERS, random_game
from naive.simulator import simulate

from rinkfold.timeline import events as ev
from rinkfold.timeline.clock import reading_in_period
from rinkfold.timeline.game import Game, replay
from rinkfold.timeline.rules import Ruleset

__all__ = ["LegalLog", "legal_game", "legal_log"]

SPARE = tuple(str(number) for number in range(101, 111))
"""Players who never sit."""
OTHERS = tuple(str(number) for number in range(201, 299))
"""Players who are penalized in the place of somebody whose game was over."""
RELIEF = {"home": "41", "away": "42"}
"""Who goes in goal for a goalkeeper who is out of the game."""
STOPS = frozenset({"stoppage", "penalty", "timeout", "penalty_shot", "period_end", "goal"})
_BEGIN = datetime(2026, 1, 10, 18, 0, tzinfo=UTC)


@define(eq=False)
class Row:
    """One event of the simulator; `ref` is the penalty that it speaks of."""

    kind: str
    period: int
    e: int
    more: list[Any] = Factory(list)
    ref: Row | None = None
    seq: int = 0


@define
class Writer:
    """A game on its way to a log."""

    rng: random.Random
    knobs: dict[str, Any]
    keepers: dict[str, set[str]]
    rows: list[Row]
    answer: dict[str, Any] = Factory(dict)

    def length(self, period: int) -> int:
        overtime = period > int(self.knobs["game.periods"])
        return int(self.knobs["overtime.length" if overtime else "game.period_length"])

    def simulate(self) -> None:
        """Let the simulator judge the rows as they stand now."""
        for number, row in enumerate(self.rows, 2):
            row.seq = number
        self.answer = simulate(self.knobs, self.keepers, [_tuple(row) for row in self.rows])

    def starts(self) -> dict[int, int]:
        """Tenths played before each period; every period has its end written, but for one that a goal ended."""
        starts, now = {}, 0
        for period in range(1, max(row.period for row in self.rows) + 1):
            starts[period] = now
            now += max((row.e for row in self.rows if row.period == period), default=0)
        return starts


def _tuple(row: Row) -> tuple[Any, ...]:
    more = list(row.more)
    if row.kind == "ruling" and row.ref is not None:
        more = [row.ref.seq]
    elif row.kind == "goal":
        more = [more[0], {**more[1], "ends": row.ref.seq if row.ref else None}]
    return (row.kind, row.seq, row.period, row.e, *more)


def _rows(events: Iterable[tuple[Any, ...]]) -> list[Row]:
    by_seq: dict[int, Row] = {}
    for event in events:
        if event[0] == "closed":
            continue
        row = by_seq[event[1]] = Row(event[0], event[2], event[3], [*event[4:]], seq=event[1])
        if row.kind == "ruling":
            row.ref = by_seq[event[4]]
        elif row.kind == "goal":
            row.ref = by_seq.get(event[5]["ends"])
    return [*by_seq.values()]


# -- putting right


def keep_goalkeepers_in_goal(game: Writer) -> None:
    """Each side's own goalkeeper starts, and nobody else goes in goal; now and then the net is empty for a while."""
    out = set[str]()
    for row in game.rows:
        if row.kind == "other" and game.rng.random() < 0.3:
            team = game.rng.choice(("home", "away"))
            row.kind, row.more = "goalie", [team, "back" if team in out else None]
            out ^= {team}
        if row.kind == "goalie" and row.more[1] is not None:
            row.more[1] = min(GOALKEEPERS[row.more[0]])
    game.rows[:0] = [Row("goalie", 1, 0, [team, min(numbers)]) for team, numbers in GOALKEEPERS.items()]


def drop_impossible_marks(game: Writer) -> None:
    """A delayed call needs its goal; a captain chooses only what he gets in any case."""
    goals = {(row.period, row.e) for row in game.rows if row.kind == "goal"}
    called: dict[tuple[int, int], set[str]] = {}
    for row in game.rows:
        if row.kind == "penalty":
            called.setdefault((row.period, row.e), set()).add(row.more[0])
    for row in game.rows:
        if row.kind == "penalty":
            place = (row.period, row.e)
            alone = len(called[place]) == 1 and 0 < row.e < game.length(row.period) and game.knobs["ice.plays_short"]
            row.more[1] = {
                **row.more[1],
                "delayed": row.more[1]["delayed"] and place in goals,
                "on_clock": True if alone and row.more[1]["on_clock"] else None,
            }


def count_timeouts(game: Writer) -> None:
    """One for each side; what is too many becomes a stoppage."""
    left = ["home", "away"]
    for row in game.rows:
        if row.kind == "timeout":
            row.kind, row.more = ("timeout", [left.pop()]) if left else ("stoppage", [])


def end_periods(game: Writer) -> None:
    """Every period has its end, but for one that a sudden-victory goal ended."""
    score = {"home": 0, "away": 0}
    last = max((row.period for row in game.rows), default=1)
    for period in range(1, last + 1):
        here = [row for row in game.rows if row.period == period]
        sudden = False
        for row in here:
            if row.kind == "goal" or (row.kind == "penalty_shot" and row.more[1] == "scored"):
                level = score["home"] == score["away"]
                overtime = period > int(game.knobs["game.periods"])
                sudden = sudden or (overtime and level and bool(game.knobs["overtime.sudden_victory"]))
                score[row.more[0]] += 1
        if not sudden and not any(row.kind == "period_end" for row in here):
            end = game.rows.index(here[-1]) + 1 if here else _first_of(game.rows, period + 1)
            game.rows.insert(end, Row("period_end", period, game.length(period)))


def _first_of(rows: list[Row], period: int) -> int:
    return next((index for index, row in enumerate(rows) if row.period >= period), len(rows))


def write_whistles(game: Writer) -> None:
    """Write every faceoff and stoppage, each faceoff at the reading of its stoppage unless the clock runs."""
    running = game.knobs["game.clock"] == "running"
    rows: list[Row] = []
    in_play, opened, stop = False, False, (0, 0)
    for row in game.rows:
        if row.period != stop[0]:
            in_play, opened, stop = False, False, (row.period, 0)
        if not in_play and (row.period, row.e) != stop and not (row.kind == "faceoff" and running and opened):
            rows.append(Row("faceoff", *stop))
            in_play = opened = True
        if row.kind == "faceoff":
            if in_play:
                rows.append(Row("stoppage", row.period, row.e))
            in_play = opened = True
        elif row.kind in STOPS:
            in_play, stop = False, (row.period, row.e)
        rows.append(row)
    game.rows = rows


def drop_whistles(game: Writer) -> None:
    """Most tables write none."""
    game.rows = [row for row in game.rows if row.kind not in {"faceoff", "stoppage"}]


def drop_rulings_without_effect(game: Writer) -> None:
    """An official ends only what is there; dropping one can change what another ends."""
    game.simulate()
    while idle := [row for row in game.rows if row.kind == "ruling" and not _ends_something(game, row)]:
        game.rows = [row for row in game.rows if row not in idle]
        game.simulate()


def _ends_something(game: Writer, ruling: Row) -> bool:
    assert ruling.ref is not None
    before = game.rows[: game.rows.index(ruling)]
    again = any(row.kind == "ruling" and row.ref is ruling.ref for row in before)
    fates = [part[3] for key, part in game.answer["parts"].items() if key[0] == ruling.ref.seq]
    return not again and "ended by ruling" in fates


def record_ejections(game: Writer) -> None:
    """Whoever is out by the number of his penalties has his game misconduct recorded, and does not stay in goal."""
    starts = game.starts()
    net = {team: min(numbers) for team, numbers in GOALKEEPERS.items()}
    rows: list[Row] = []
    for row in game.rows:
        tenth = starts[row.period] + row.e
        if row.kind == "goalie" and row.more[1] is not None:
            out = game.answer["ejected"].get((row.more[0], row.more[1]))
            row.more[1] = RELIEF[row.more[0]] if out is not None and out <= tenth else row.more[1]
        rows.append(row)
        if row.kind == "goalie":
            net[row.more[0]] = row.more[1]
        elif row.kind == "penalty" and game.answer["ejected"].get((row.more[0], row.more[1]["player"])) == tenth:
            parts = row.more[1]["parts"]
            if "match" not in parts and "game_misconduct" not in parts:
                row.more[1] = {**row.more[1], "parts": (*parts, "game_misconduct")}
            if net[row.more[0]] == row.more[1]["player"]:
                rows.append(Row("goalie", row.period, row.e, [row.more[0], RELIEF[row.more[0]]]))
                net[row.more[0]] = RELIEF[row.more[0]]
    game.rows = rows
    game.simulate()


def penalize_others(game: Writer) -> None:
    """Whoever is out of the game is not on the ice any more: what he is called for later somebody else did."""
    starts, fresh = game.starts(), iter(OTHERS)
    game.simulate()
    while late := [row for row in game.rows if row.kind == "penalty" and _is_back(game, row, starts)]:
        for row in late:
            row.more[1] = {**row.more[1], "player": next(fresh)}
        game.simulate()


def _is_back(game: Writer, row: Row, starts: dict[int, int]) -> bool:
    out = game.answer["ejected"].get((row.more[0], row.more[1]["player"]))
    return out is not None and out < starts[row.period] + row.e


def drop_choices_not_had(game: Writer) -> None:
    """A goal says which penalty it ends only where that one is ended."""
    for row in game.rows:
        ended = game.answer["goals"].get(row.seq, {}).get("ended")
        if row.kind == "goal" and row.ref is not None and (ended is None or ended[0] != row.ref.seq):
            row.ref = None


# -- from rows to a log


@frozen
class LegalLog:
    """A log as `replay` wants it, and the rules it is played by."""

    header: ev.GameOpened
    events: tuple[ev.Event, ...]
    rules: Ruleset
    keeps_whistles: bool


def legal_log(seed: int) -> LegalLog:
    """The legal game of a seed."""
    rng = random.Random(seed)
    knobs, keepers, events = random_game(rng)
    knobs.update(possible(knobs))
    knobs["game.reading"] = rng.choice(("remaining", "remaining", "elapsed"))
    game = Writer(rng, knobs, keepers, _rows(events))
    whistles = rng.random() < 0.6
    keep_goalkeepers_in_goal(game)
    drop_impossible_marks(game)
    count_timeouts(game)
    end_periods(game)
    drop_whistles(game) if not whistles else None
    drop_rulings_without_effect(game)
    write_whistles(game) if whistles else None
    penalize_others(game)
    drop_rulings_without_effect(game)
    record_ejections(game)
    drop_choices_not_had(game)
    rules = ruleset(knobs)
    header = _header(keepers)
    return LegalLog(header, (header, *Paper(game, rules).events()), rules, whistles)


def legal_game(seed: int) -> Game:
    """The legal game of a seed, replayed."""
    log = legal_log(seed)
    return replay(log, log.rules)


def _header(keepers: dict[str, set[str]]) -> ev.GameOpened:
    numbers = ["1", "30", "41", "42", *PLAYERS, *SPARE, *OTHERS, *(str(number) for number in range(60, 100))]

    def sheet(team: str) -> ev.TeamSheet:
        players = (
            ev.Player(number=number, position="goalkeeper" if number in keepers[team] else None) for number in numbers
        )
        return ev.TeamSheet(name=team, roster=tuple(players))

    return ev.GameOpened(
        seq=1, format=1, game="random", ruleset="random", home=sheet("home"), away=sheet("away"),
        officials=ev.Officials(referees=("Ada Birk",)),
    )  # fmt: skip


@define
class Paper:
    """Writes the log of a game line by line."""

    game: Writer
    rules: Ruleset
    written: list[ev.Event] = Factory(list)
    seqs: dict[int, int] = Factory(dict)  # of the simulator's events
    net: dict[str, str | None] = Factory(dict)
    score: dict[tuple[int, str], int] = Factory(dict)

    def events(self) -> list[ev.Event]:
        """Every line behind the first."""
        doors = self._doors()
        place = (0, 0)
        for row in self.game.rows:
            while doors and doors[0][:2] <= (row.period, row.e):
                self._door(*doors.pop(0))
            if (row.period, row.e) != place and row.e > 0 and row.kind != "faceoff":  # nobody shoots before that
                self._maybe_a_shot(row)
            place = (row.period, row.e)
            self._write(row)
        self._shootout()
        self._close()
        return self.written

    def add(self, cls: type[ev.Event], period: int, e: int, **fields: Any) -> int:
        """Write one line; its number."""
        seq = len(self.written) + 2
        clock = reading_in_period(e, self.rules.period_length(period), self.rules.game.reading)
        recorded = (_BEGIN + timedelta(seconds=20 * seq)).isoformat().replace("+00:00", "Z")
        self.written.append(cls(seq=seq, period=period, clock=clock, recorded_at=recorded, **fields))
        return seq

    def _write(self, row: Row) -> None:
        writer = getattr(self, f"_{row.kind}")
        seq = writer(row)
        if seq is not None:
            self.seqs[row.seq] = seq

    def _faceoff(self, row: Row) -> int:
        return self.add(ev.Faceoff, row.period, row.e)

    def _stoppage(self, row: Row) -> int:
        return self.add(ev.Stoppage, row.period, row.e)

    def _timeout(self, row: Row) -> int:
        return self.add(ev.Timeout, row.period, row.e, team=row.more[0])

    def _goalie(self, row: Row) -> int:
        self.net[row.more[0]] = row.more[1]
        return self.add(ev.GoalieChange, row.period, row.e, team=row.more[0], goalie=row.more[1])

    def _ruling(self, row: Row) -> int:
        assert row.ref is not None
        penalty = self.seqs[row.ref.seq]
        return self.add(ev.PenaltyEnded, row.period, row.e, team=row.ref.more[0], penalty=penalty, cause="ruling")

    def _goal(self, row: Row) -> int:
        rng, team = self.game.rng, row.more[0]
        scorer, *assists = self._attackers(row, team)
        fields: dict[str, Any] = {"scorer": scorer, "assists": tuple(assists[: rng.randrange(3)])}
        if rng.random() < 0.1:
            fields = {"scorer": None}
        if rng.random() < 0.3:
            fields["empty_net"] = self.net["away" if team == "home" else "home"] is None
        if rng.random() < 0.1:
            twice = self.add(ev.Goal, row.period, row.e, team=team, awarded=row.more[1]["awarded"], **fields)
            self.add(ev.Void, row.period, row.e, target=twice, reason="written twice")
        ends = self.seqs.get(row.ref.seq) if row.ref else None
        self._scored(row, team)
        return self.add(ev.Goal, row.period, row.e, team=team, ends=ends, awarded=row.more[1]["awarded"], **fields)

    def _attackers(self, row: Row, team: str) -> list[str]:
        """Three who may be on the ice: those who sat and by the simulator are out again, and those who never sit."""
        here = {event.scorer for event in self.written[-8:] if isinstance(event, ev.Goal)}
        tenth = self.game.starts()[row.period] + row.e
        back = [number for number in PLAYERS if self._is_back(team, number, tenth)]
        self.game.rng.shuffle(back)
        spare = self.game.rng.sample(SPARE, len(SPARE))
        return [number for number in (*back[:2], *spare) if number not in here][:3]

    def _is_back(self, team: str, number: str, tenth: int) -> bool:
        """Whether he was penalized, and everything he sat for is over at `tenth`, before what happens there."""
        starts = self.game.starts()
        calls = [
            row.seq
            for row in self.game.rows
            if row.kind == "penalty"
            and row.more[0] == team
            and row.more[1]["player"] == number
            and starts[row.period] + row.e <= tenth
        ]
        out = self.game.answer["ejected"].get((team, number))
        ruled = any(row.kind == "ruling" and starts[row.period] + row.e == tenth for row in self.game.rows)
        over = {
            seq
            for at, side, penalties, who, _, how in self.game.answer["returns"]
            if (side, who) == (team, number) and (at < tenth or (at == tenth and how == "on expiry" and not ruled))
            for seq in penalties
        }
        return bool(calls) and out is None and over.issuperset(calls)

    def _scored(self, row: Row, team: str) -> None:
        self.score[row.period, team] = self.score.get((row.period, team), 0) + 1

    def _penalty(self, row: Row) -> int:
        team, more = row.more
        length = sum(self.rules.part_length(kind) for kind in more["parts"])
        announced = reading_in_period(length, 0, "elapsed") if self.game.rng.random() < 0.3 else None
        return self.add(
            ev.PenaltyAssessed,
            row.period,
            row.e,
            team=team,
            player=more["player"],
            staff="Bo Lind" if more["staff"] else None,
            parts=more["parts"],
            infraction="tripping",
            announced=announced,
            served_by=more["served_by"] if not more["staff"] or "bench_minor" in more["parts"] else None,
            delayed_call=more["delayed"] or None,
            on_clock=more["on_clock"],
            penalty_shot=more["shot"] or None,
        )

    def _penalty_shot(self, row: Row) -> int:
        team, result = row.more
        if result == "scored":
            self._scored(row, team)
        player = self.game.rng.choice(SPARE)
        net = self.net["away" if team == "home" else "home"]
        result = "missed" if result == "saved" and net is None else result
        return self.add(ev.PenaltyShot, row.period, row.e, team=team, player=player, result=result)

    def _period_end(self, row: Row) -> int:
        seq = self.add(ev.PeriodEnd, row.period, row.e)
        for team in ("home", "away"):
            goals = self.score.get((row.period, team), 0)
            self.add(ev.Figures, row.period, row.e, team=team, goals=goals, source="board")
        return seq

    def _other(self, row: Row) -> int | None:
        """What somebody saw: what the simulator says, an extra attacker for an empty net included."""
        tenth = self.game.starts()[row.period] + row.e
        skaters = self.game.answer["skaters"]
        if tenth >= len(skaters) or any(self._changes_net(other, row) for other in self.game.rows):
            self.add(ev.Remark, row.period, row.e, text="a remark")
            return None
        home, away = skaters[tenth]
        return self.add(
            ev.ObservedStrength,
            row.period,
            row.e,
            home=home + (self.net.get("home", "") is None),
            away=away + (self.net.get("away", "") is None),
        )

    @staticmethod
    def _changes_net(other: Row, row: Row) -> bool:
        return other.kind == "goalie" and (other.period, other.e) == (row.period, row.e)

    def _doors(self) -> list[tuple[int, int, str, int]]:
        """Where the door opened in play because the time was up: period, tenths of it, side, penalty."""
        starts = self.game.starts()
        ends = {period: max(row.e for row in self.game.rows if row.period == period) for period in starts}
        if self.game.knobs["game.clock"] == "running" or self.game.knobs["game.running_clock.starts_at_lead"]:
            return []
        rows = {starts[row.period] + row.e for row in self.game.rows}
        found = []
        for tenth, team, penalties, _, _, how in self.game.answer["returns"]:
            period = max(number for number, start in starts.items() if start <= tenth)
            e = tenth - starts[period]
            if how == "on expiry" and tenth not in rows and 0 < e < ends[period]:
                found.append((period, e, team, penalties[-1]))
        return sorted(found)

    def _door(self, period: int, e: int, team: str, penalty: int) -> None:
        late = self.game.rng.choice((0, 0, 0, 5))
        following = [row.e for row in self.game.rows if row.period == period and row.e > e]
        e = e + late if following and min(following) > e + late else e
        self.add(ev.PenaltyEnded, period, e, team=team, penalty=self.seqs[penalty], cause="released")

    def _maybe_a_shot(self, row: Row) -> None:
        team = self.game.rng.choice(("home", "away"))
        against = "away" if team == "home" else "home"
        if self.game.rng.random() < 0.3 and self.net.get(against):
            player = self.game.rng.choice((*SPARE, None))
            self.add(ev.Shot, row.period, row.e, team=team, player=player, count=self.game.rng.choice((None, 2)))

    def _shootout(self) -> None:
        level = sum(n for (_, team), n in self.score.items() if team == "home") == sum(
            n for (_, team), n in self.score.items() if team == "away"
        )
        last = self.game.rows[-1]
        if not level or last.period <= self.rules.game.periods:
            return
        for number in range(3):
            for team in ("home", "away"):
                player = SPARE[number]
                self.add(ev.ShootoutAttempt, last.period, last.e, team=team, player=player, result="missed")

    def _close(self) -> None:
        whole = all(row.e == self.rules.period_length(row.period) for row in self.game.rows if row.kind == "period_end")
        reached = self.game.rows[-1].period >= self.rules.game.periods
        seq = len(self.written) + 2
        outcome: Literal["played", "shortened"] = "played" if whole and reached else "shortened"
        self.written.append(ev.GameClosed(seq=seq, outcome=outcome, signed="Ada Birk"))
