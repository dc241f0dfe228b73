"""Small sequences worked by hand from the penalty model, so that the naive simulator is itself tested.

Times are tenths of a second elapsed: a minor is 1200, a major and a match 3000, a misconduct 6000, a period 12000.
"""

import random
from collections import Counter
from typing import Any

import pytest

from naive.games import random_game
from naive.simulator import RULES_COUNTED, simulate

KNOBS: dict[str, Any] = {
    "game.periods": 3,
    "game.period_length": 12000,
    "game.clock": "stop",
    "game.running_clock.starts_at_lead": 0,
    "game.running_clock.from_period": 3,
    "game.running_clock.stops_below": 0,
    "ice.skaters": 5,
    "ice.min_skaters": 3,
    "ice.plays_short": True,
    "lengths.minor": 1200,
    "lengths.major": 3000,
    "lengths.match": 3000,
    "lengths.misconduct": 6000,
    "goals.ends_minor": "least_time_left",
    "goals.penalty_shot_ends_minor": False,
    "goals.awarded_ends_minor": False,
    "goals.shorthanded_ends_own_minor": False,
    "delayed_call.even": "wash",
    "delayed_call.shorthanded_goal": "wash",
    "coincident.lone_minor_pair": "substitute",
    "coincident.late_netting": False,
    "ejection.major": "never",
    "ejection.misconducts": 0,
    "ejection.player_penalties": 0,
    "ejection.counts_washed_out": True,
    "overtime.skaters": 5,
    "overtime.length": 3000,
    "overtime.periods": 1,
    "overtime.sudden_victory": True,
    "overtime.equal_pair": "on_the_clock",
}
FOUR = {"coincident.lone_minor_pair": "four_on_four"}
MAJORS = ("major", "match")
KEEPERS: dict[str, set[str]] = {"home": {"1"}, "away": {"30"}}


class Log:
    """Writes events with numbers in order; every method gives the seq of what it wrote."""

    def __init__(self, period: int = 1) -> None:
        self.events: list[tuple[Any, ...]] = []
        self.period = period

    def at(self, e: int, kind: str, *rest: Any) -> int:
        self.events.append((kind, len(self.events) + 1, self.period, e, *rest))
        return len(self.events)

    def goal(self, e: int, team: str, ends: int | None = None, awarded: bool = False) -> int:
        return self.at(e, "goal", team, {"ends": ends, "awarded": awarded})

    def pen(self, e: int, team: str, player: str | None, *parts: str, **more: Any) -> int:
        details = {"player": player, "staff": False, "parts": parts, "served_by": None}
        details |= {"delayed": False, "on_clock": None, "shot": False} | more
        return self.at(e, "penalty", team, details)

    def play(self, e: int) -> int:
        return self.at(e, "faceoff")

    def run(self, **knobs: Any) -> dict[str, Any]:
        return simulate(KNOBS | knobs, KEEPERS, self.events)

    def run_with(self, knobs: dict[str, Any]) -> dict[str, Any]:
        return simulate(KNOBS | knobs, KEEPERS, self.events)


def who(answer: dict[str, Any]) -> list[tuple[Any, ...]]:
    """Returns without the seqs: (tenth, team, number, how)."""
    return [(t, team, number, how) for t, team, _, number, _, how in answer["returns"]]


def test_a_minor_runs_from_the_faceoff_and_the_player_returns_on_expiry() -> None:
    """Called at 600: 600 + 1200 = 1800. From tenth 600 on 4v5, from 1800 on 5v5."""
    log = Log()
    seq = log.pen(600, "home", "7", "minor")
    log.at(2000, "stoppage")
    answer = log.run()
    assert answer["skaters"] == [(5, 5)] * 600 + [(4, 5)] * 1200 + [(5, 5)] * 200
    assert answer["returns"] == [(1800, "home", (seq,), "7", "player", "on expiry")]
    assert answer["parts"] == {(seq, 0): (600, 1800, 1200, "served")}


def test_three_minors_in_a_row_hold_and_release() -> None:
    """Called at 100, 200, 300: the third starts at 1300 and ends at 2500.

    1300: the first runs out, the third starts, the first is held. 1400: the second runs out, the first goes on and the
    second is held. 2500: the third runs out, the second goes on, the third waits for the whistle at 2600.
    """
    log = Log()
    for e, player in ((100, "2"), (200, "3"), (300, "4")):
        log.pen(e, "away", player, "minor")
    log.at(2600, "stoppage")
    answer = log.run()
    assert who(answer) == [
        (1400, "away", "2", "on expiry"),
        (2500, "away", "3", "on expiry"),
        (2600, "away", "4", "at stoppage"),
    ]
    assert [answer["skaters"][t] for t in (150, 250, 350, 1350, 1400, 2499, 2500)] == [
        (5, 4),
        (5, 3),
        (5, 3),
        (5, 3),
        (5, 4),
        (5, 4),
        (5, 5),
    ]
    assert answer["parts"][(3, 0)] == (1300, 2500, 1200, "served")


def test_two_that_run_out_at_one_tenth_with_one_waiting() -> None:
    """2 and 3 at 100, 4 queued: at 1300 both run out; 4 starts for 2 (held), then 3's right lets 2 go and 3 is held."""
    log = Log()
    for player in ("2", "3", "4"):
        log.pen(100, "home", player, "minor")
    log.at(1500, "stoppage")
    answer = log.run()
    assert who(answer) == [(1300, "home", "2", "on expiry"), (1500, "home", "3", "at stoppage")]
    assert answer["last"] == (4, 5)
    assert answer["parts"][(3, 0)] == (1300, None, 200, "running")


def test_goal_ends_the_minor_with_least_time_and_the_second_half_starts() -> None:
    """A 2+2 at 0 has 300 left at 900, a minor at 500 has 800: the first half ends, the second starts at 900 to 2100."""
    log = Log()
    double = log.pen(0, "home", "7", "minor", "minor")
    log.pen(500, "home", "8", "minor")
    goal = log.goal(900, "away")
    log.at(2500, "stoppage")
    answer = log.run()
    assert answer["goals"][goal] == {"strength": "power play", "ended": (double, 0), "washed": None}
    assert answer["parts"][(double, 0)] == (0, 900, 900, "ended by goal")
    assert answer["parts"][(double, 1)] == (900, 2100, 1200, "served")
    assert who(answer) == [(1700, "home", "8", "on expiry"), (2100, "home", "7", "on expiry")]


@pytest.mark.parametrize(("ends", "expected"), [(None, 1), (2, 2), (99, 1)])
def test_equal_time_left_the_captain_chooses(ends: int | None, expected: int) -> None:
    """Two minors of one stoppage have equal time left; the default is the one assessed first."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.pen(100, "home", "8", "minor")
    goal = log.goal(400, "away", ends=ends)
    assert log.run()["goals"][goal]["ended"] == (expected, 0)


def test_first_assessed_and_none() -> None:
    """8's minor has less left after 7's second half began: least time ends 8's, the older books end 7's."""
    log = Log()
    log.pen(0, "home", "7", "minor", "minor")  # second half 1200 to 2400: 900 left at 1500
    log.pen(500, "home", "8", "minor")  # to 1700: 200 left at 1500
    goal = log.goal(1500, "away")
    assert log.run()["goals"][goal]["ended"] == (2, 0)
    assert log.run_with({"goals.ends_minor": "first_assessed"})["goals"][goal]["ended"] == (1, 1)
    assert log.run_with({"goals.ends_minor": "none"})["goals"][goal]["ended"] is None


def test_a_lone_pair_either_way() -> None:
    """One minor each at 100: substituted 5v5, both leave at the whistle at 1500; on the clock 4v4 until 1300."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.pen(100, "away", "17", "minor")
    log.at(1500, "stoppage")
    off, on = log.run(), log.run_with(FOUR)
    assert set(off["skaters"]) == {(5, 5)}
    assert who(off) == [(1500, "home", "7", "at stoppage"), (1500, "away", "17", "at stoppage")]
    assert off["parts"][(1, 0)] == (100, 1300, 1200, "offset")
    assert on["skaters"][100:1301] == [(4, 4)] * 1200 + [(5, 5)]
    assert who(on) == [(1300, "home", "7", "on expiry"), (1300, "away", "17", "on expiry")]


def test_a_goal_spares_a_lone_pair() -> None:
    """4v4 by a lone pair, then 8 makes it 3v4: only his minor can end though 7's has less left."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.pen(100, "away", "17", "minor")
    log.pen(400, "home", "8", "minor")
    goal = log.goal(700, "away")
    answer = log.run_with(FOUR)
    assert answer["goals"][goal]["ended"] == (3, 0)
    assert answer["last"] == (4, 4)


def test_a_ruled_pair_among_other_penalties() -> None:
    """R9: on_clock true on one minor each side; the third minor has no partner and stays: 3v4 under either knob."""
    log = Log()
    log.pen(100, "home", "7", "minor", on_clock=True)
    log.pen(100, "home", "8", "minor")
    log.pen(100, "away", "17", "minor", on_clock=True)
    goal = log.goal(200, "away")
    answer = log.run()
    assert answer["skaters"][150] == (3, 4)
    assert answer["goals"][goal]["ended"] == (2, 0)


def test_as_few_players_short_as_possible() -> None:
    """7 has minor+major, 8 a minor; 17 a minor, 18 a major: 7's major is offset, and offsetting 8's minor too
    would leave 7's minor: one chain either way; stand-ins decide: 7 owes an offset major, so 8's minor stays."""
    log = Log()
    log.pen(100, "home", "7", "minor", "major")
    log.pen(100, "home", "8", "minor")
    log.pen(100, "away", "17", "minor")
    log.pen(100, "away", "18", "major")
    log.play(100)
    log.at(200, "stoppage")
    answer = log.run()
    assert answer["last"] == (4, 5)
    fates = {part: row[3] for part, row in answer["parts"].items()}
    assert fates == {(1, 0): "waiting", (1, 1): "offset", (2, 0): "running", (3, 0): "offset", (4, 0): "offset"}


def test_a_player_who_sits_is_no_player_more() -> None:
    """7 sits a minor; then 7 and 8 get a minor each, 17 one: keeping 7's leaves one player short, keeping 8's two."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.pen(300, "home", "7", "minor")
    log.pen(300, "home", "8", "minor")
    log.pen(300, "away", "17", "minor")
    log.at(400, "stoppage")
    answer = log.run()
    assert answer["last"] == (4, 5)
    assert answer["parts"][(2, 0)][3] == "waiting"
    assert answer["parts"][(3, 0)] == (300, None, 100, "offset")


def test_the_captain_outranks_the_three() -> None:
    """Two minors against one: the earlier is offset, unless the captain wants it on the clock."""
    for wish, stays in ((None, 2), (True, 1)):
        log = Log()
        log.pen(100, "home", "7", "minor", on_clock=wish)
        log.pen(100, "home", "8", "minor")
        log.pen(100, "away", "17", "minor")
        log.at(200, "stoppage")
        assert log.run()["parts"][(stays, 0)][3] == "running"


def test_an_extra_minor_is_served_before_the_offset_major() -> None:
    """7: major+minor against 17: major. The minor is on the clock 100 to 1300 by a stand-in, then 7 sits his major."""
    log = Log()
    log.pen(100, "home", "7", "major", "minor")
    log.pen(100, "away", "17", "major")
    log.at(4400, "stoppage")
    answer = log.run()
    assert answer["parts"][(1, 1)] == (100, 1300, 1200, "served")
    assert answer["parts"][(1, 0)] == (1300, 4300, 3000, "offset")
    assert answer["returns"][0] == (1300, "home", (1,), None, "stand-in", "on expiry")
    assert (4400, "home", (1,), "7", "player", "at stoppage") in answer["returns"]


def test_late_netting() -> None:
    """Period 3, 5:00 left is 9000: 3000 - 1200 = 1800 on clock, 9100 to 10900, then 1200 offset. No goal ends it."""
    log = Log(period=3)
    major = log.pen(9100, "home", "7", "major")
    minor = log.pen(9100, "away", "17", "minor")
    goal = log.goal(9500, "away")
    log.at(11999, "stoppage")
    answer = log.run_with({"coincident.late_netting": True})
    assert answer["skaters"][9100] == (4, 5)
    assert answer["skaters"][10899:10901] == [(4, 5), (5, 5)]
    assert answer["goals"][goal]["ended"] is None
    assert answer["parts"][(major, 0)] == (9100, None, 2899, "offset")
    assert answer["parts"][(minor, 0)] == (9100, 10300, 1200, "offset")


def test_delayed_call_at_even_strength() -> None:
    """At 5v5 the minor of [major, minor] is washed out and the major served."""
    log = Log()
    goal = log.goal(500, "away")
    seq = log.pen(500, "home", "7", "major", "minor", delayed=True)
    log.at(600, "stoppage")
    answer = log.run()
    assert answer["goals"][goal]["washed"] == (seq, 1)
    assert answer["parts"][(seq, 1)] == (None, 500, 0, "washed out")
    assert answer["last"] == (4, 5)
    assert log.run_with({"delayed_call.even": "serve"})["parts"][(seq, 1)][3] == "waiting"


def test_delayed_call_short_by_a_minor_and_the_same_written_early() -> None:
    """The running minor ends and the called one is served, whichever of goal and call was written first."""
    for early in (False, True):
        log = Log()
        log.pen(0, "home", "7", "minor")
        if early:
            log.pen(500, "home", "8", "minor", delayed=True)
        log.goal(500, "away")
        if not early:
            log.pen(500, "home", "8", "minor", delayed=True)
        log.at(600, "stoppage")
        answer = log.run()
        assert answer["last"] == (4, 5)
        assert who(answer) == [(500, "home", "7", "at stoppage")]


def test_delayed_call_swap() -> None:
    """4v4 by separate minors: under swap 7's minor ends and 8's is served; under wash 8's is washed out."""
    log = Log()
    log.pen(0, "home", "7", "minor")
    log.pen(300, "away", "17", "minor")
    goal = log.goal(600, "away")
    log.pen(600, "home", "8", "minor", delayed=True)
    swap, wash = log.run_with({"delayed_call.even": "swap"}), log.run()
    assert swap["goals"][goal] == {"strength": "even", "ended": (1, 0), "washed": None}
    assert wash["goals"][goal] == {"strength": "even", "ended": None, "washed": (4, 0)}
    assert swap["last"] == wash["last"] == (4, 4)


def test_delayed_call_on_the_power_play() -> None:
    """The short side scores: the call on the other is washed out, or served by the knob; a short-handed goal."""
    log = Log()
    log.pen(0, "home", "7", "minor")
    goal = log.goal(600, "home")
    log.pen(600, "away", "17", "minor", delayed=True)
    assert log.run()["last"] == (4, 5)
    answer = log.run_with({"delayed_call.shorthanded_goal": "serve"})
    assert answer["last"] == (4, 4)
    assert answer["goals"][goal]["strength"] == "short-handed"
    own = log.run_with({"goals.shorthanded_ends_own_minor": True})
    assert own["goals"][goal] == {"strength": "short-handed", "ended": (1, 0), "washed": (3, 0)}


def test_misconduct_is_suspended_and_resumes() -> None:
    """Minor 100 to 1300 by a stand-in, misconduct from 1300. At 2300 (1000 served) a new minor: 2300 to 3500 by a
    stand-in, then 5000 more: 3500 to 8500; 7 leaves at the whistle at 9000."""
    log = Log()
    log.pen(100, "home", "7", "minor", "misconduct")
    log.pen(2300, "home", "7", "minor", served_by="20")
    log.at(9000, "stoppage")
    answer = log.run()
    assert answer["parts"][(1, 1)] == (1300, 8500, 6000, "served")
    assert answer["parts"][(2, 0)] == (2300, 3500, 1200, "served")
    assert answer["returns"] == [
        (1300, "home", (1,), None, "stand-in", "on expiry"),
        (3500, "home", (2,), "20", "stand-in", "on expiry"),
        (9000, "home", (1,), "7", "player", "at stoppage"),
    ]


def test_begun_minor_first_then_the_new_major_then_the_other_minor() -> None:
    """2+2 at 0; at 500 a major: first half to 1200, major to 4200, second half to 5400."""
    log = Log()
    log.pen(0, "home", "7", "minor", "minor")
    log.pen(500, "home", "7", "major")
    log.at(6000, "stoppage")
    answer = log.run()
    assert [answer["parts"][part][:2] for part in ((1, 0), (2, 0), (1, 1))] == [(0, 1200), (1200, 4200), (4200, 5400)]
    assert answer["returns"] == [(5400, "home", (1, 2), "7", "player", "on expiry")]


def test_minors_are_entered_before_majors() -> None:
    """At one stoppage: a major, then two minors: the minors get the slots, the major waits until 1300."""
    log = Log()
    log.pen(100, "home", "7", "major")
    log.pen(100, "home", "8", "minor")
    log.pen(100, "home", "9", "minor")
    log.at(1400, "stoppage")
    answer = log.run()
    assert answer["parts"][(1, 0)] == (1300, None, 100, "running")


def test_goalkeeper_penalties_run_beside_each_other() -> None:
    """Two minors on the goalkeeper at 100 and 200: 3v5, the named team-mates return at 1300 and 1400."""
    log = Log()
    log.pen(100, "home", "1", "minor", served_by="20")
    log.pen(200, "home", "1", "minor", served_by="21")
    log.at(1500, "stoppage")
    answer = log.run()
    assert answer["skaters"][250] == (3, 5)
    assert answer["returns"] == [
        (1300, "home", (1,), "20", "stand-in", "on expiry"),
        (1400, "home", (2,), "21", "stand-in", "on expiry"),
    ]


def test_ejection_ends_the_misconduct_and_releases_the_second_team_mate() -> None:
    """The goalkeeper's second misconduct ejects: both misconducts end at 600, the one who sits for the first leaves."""
    log = Log()
    log.pen(100, "home", "1", "minor", "misconduct", served_by="20")
    log.pen(600, "home", "1", "minor", "misconduct", served_by="21")
    log.at(700, "stoppage")
    answer = log.run_with({"ejection.misconducts": 2})
    assert answer["ejected"] == {("home", "1"): 600}
    assert answer["parts"][(1, 1)] == (None, 600, 0, "ended by ejection")
    assert answer["returns"] == [(600, "home", (1,), None, "stand-in", "at stoppage")]
    assert answer["last"] == (3, 5)


@pytest.mark.parametrize(("knob", "value", "calls"), [("ejection.major", "second", 2), ("ejection.major", "always", 1)])
def test_majors_that_eject(knob: str, value: str, calls: int) -> None:
    """The call that makes the count full ejects at its own tenth; a stand-in serves the major."""
    log = Log()
    for i in range(calls):
        log.pen(100 + 4000 * i, "home", "7", "major")
    last = 100 + 4000 * (calls - 1)
    log.at(last + 3100, "stoppage")
    answer = log.run_with({knob: value})
    assert answer["ejected"] == {("home", "7"): last}
    assert answer["returns"][-1] == (last + 3000, "home", (calls,), None, "stand-in", "on expiry")


def test_washed_out_penalties_may_not_count() -> None:
    """Three penalties eject; the first was washed out."""
    log = Log()
    log.goal(100, "away")
    log.pen(100, "home", "7", "minor", delayed=True)
    log.pen(200, "home", "7", "minor")
    log.pen(300, "home", "7", "minor")
    knobs = {"ejection.player_penalties": 3}
    assert log.run_with(knobs)["ejected"] == {("home", "7"): 300}
    assert log.run_with(knobs | {"ejection.counts_washed_out": False})["ejected"] == {}


def test_penalized_at_the_whistle_of_his_own_expiry() -> None:
    """R15: 7's minor runs out at 1300, at that reading he is penalized again: no return then, a new chain to 2500."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.pen(1300, "home", "7", "minor")
    log.at(2600, "stoppage")
    answer = log.run()
    assert answer["returns"] == [(2500, "home", (2,), "7", "player", "on expiry")]


def test_two_goals_at_one_reading() -> None:
    """R5: both power play; the first ends 7's first half, the second half was not running then: nothing more ends."""
    log = Log()
    log.pen(0, "home", "7", "minor", "minor")
    first, second = log.goal(500, "away"), log.goal(500, "away")
    answer = log.run()
    assert [answer["goals"][g]["strength"] for g in (first, second)] == ["power play", "power play"]
    assert [answer["goals"][g]["ended"] for g in (first, second)] == [(1, 0), None]


def test_expiry_at_the_tenth_of_a_goal_comes_first() -> None:
    """The minor is over at 1200, so the goal at 1200 is scored at even strength."""
    log = Log()
    log.pen(0, "home", "7", "minor")
    goal = log.goal(1200, "away")
    assert log.run()["goals"][goal] == {"strength": "even", "ended": None, "washed": None}


def test_running_clock_between_whistle_and_faceoff() -> None:
    """7's minor 0 to 1200 goes on through the stoppage 1000 to 1300: he leaves at 1200. 8's starts at 1300."""
    log = Log()
    log.pen(0, "home", "7", "minor")
    log.play(0)
    log.pen(1000, "home", "8", "minor")
    log.play(1300)
    log.at(2600, "stoppage")
    answer = log.run_with({"game.clock": "running"})
    assert who(answer) == [(1200, "home", "7", "on expiry"), (2500, "home", "8", "on expiry")]
    assert [answer["skaters"][t] for t in (999, 1000, 1199, 1200, 1300)] == [(4, 5), (3, 5), (3, 5), (4, 5), (4, 5)]
    stop = log.run()  # R16: under a stop clock play had gone on from 1000
    assert stop["parts"][(3, 0)][:2] == (1000, 2200)


def test_running_clock_by_lead() -> None:
    """R17: on at a lead of 2, off below 1; the minor called at 300 starts at the faceoff at 400."""
    log = Log()
    log.goal(100, "home")
    log.goal(200, "home")
    log.play(200)
    seq = log.pen(300, "away", "17", "minor")
    log.play(400)
    log.at(500, "other")
    knobs = {"game.running_clock.starts_at_lead": 2, "game.running_clock.from_period": 1}
    assert log.run_with(knobs)["parts"][(seq, 0)] == (400, None, 100, "running")
    assert log.run_with(knobs | {"game.running_clock.from_period": 2})["parts"][(seq, 0)] == (300, None, 200, "running")


def test_overtime_adds_a_skater_and_goes_back_at_the_stoppage() -> None:
    """Base 3: a minor in overtime at 100 is 4v3; at 1300 the player is added, 4v4, until the whistle at 1400: 3v3."""
    log = Log(period=4)
    log.pen(100, "away", "17", "minor")
    log.at(1400, "stoppage")
    answer = log.run_with({"overtime.skaters": 3})
    assert [answer["skaters"][t] for t in (99, 100, 1299, 1300, 1399)] == [(3, 3), (4, 3), (4, 3), (4, 4), (4, 4)]
    assert answer["last"] == (3, 3)


def test_equal_pair_off_the_clock() -> None:
    """Lone pair at 11500 of the third, 700 left each at the horn: base 3 without them; both leave at 800's whistle."""
    log = Log(period=3)
    log.pen(11500, "home", "7", "minor")
    log.pen(11500, "away", "17", "minor")
    log.period = 4
    log.play(0)
    log.at(800, "stoppage")
    answer = log.run_with(FOUR | {"overtime.skaters": 3, "overtime.equal_pair": "off_the_clock"})
    assert answer["skaters"][11600] == (4, 4)
    assert answer["skaters"][12100] == (3, 3)
    assert who(answer) == [(12800, "home", "7", "at stoppage"), (12800, "away", "17", "at stoppage")]
    kept = log.run_with(FOUR | {"overtime.skaters": 3})
    assert [kept["skaters"][t] for t in (12100, 12700)] == [(3, 3), (4, 4)]


SMALL_OVERTIME: dict[str, Any] = FOUR | {
    "game.periods": 1,
    "game.period_length": 1200,
    "lengths.minor": 200,
    "lengths.major": 400,
    "overtime.skaters": 3,
    "overtime.equal_pair": "off_the_clock",
    "coincident.late_netting": True,
}


def goalkeeper_in_an_equal_pair(*more: str) -> Log:
    """2's major and the goalkeeper's 2+2 at 915, level, so nothing is netted: at the horn both have 115 left."""
    log = Log()
    log.pen(915, "home", "2", "major", served_by="64")
    log.pen(915, "away", "30", "minor", "minor", *more, served_by="65")
    return log


def test_an_equal_pair_leaves_the_goalkeepers_team_mate_seated() -> None:
    """R14 d: after the pair nothing of the goalkeeper's 2+2 is on the clock, so 65, who was named, sits on for it.

    64 sat for what 2 had on the clock, which is over at the pair; 2 sits for the rest himself, to the whistle.
    """
    log = goalkeeper_in_an_equal_pair()
    log.period = 2
    log.at(200, "stoppage")
    answer = log.run_with(SMALL_OVERTIME)
    assert answer["parts"][(2, 0)] == (915, 1115, 200, "served")
    assert answer["parts"][(2, 1)] == (1115, 1315, 200, "offset")
    assert answer["returns"] == [
        (1200, "home", (1,), "64", "stand-in", "at stoppage"),
        (1400, "home", (1,), "2", "player", "at stoppage"),
        (1400, "away", (2,), "65", "stand-in", "at stoppage"),
    ]


@pytest.mark.parametrize(("e", "served"), [(915, 285), (1050, 150), (1200, 0)])
def test_an_equal_pair_leaves_the_named_one_whatever_was_served(e: int, served: int) -> None:
    """R14 d: one part over, one part begun, or none: 65 is the one who returns for the goalkeeper's penalty, once."""
    log = Log()
    log.pen(e, "home", "2", "major")
    seq = log.pen(e, "away", "30", "minor", "minor", served_by="65")
    log.period = 2
    at_the_faceoff = log.at(0, "faceoff")
    then = simulate(KNOBS | SMALL_OVERTIME, KEEPERS, log.events[:at_the_faceoff])
    assert sum(row[2] for part, row in then["parts"].items() if part[0] == seq) == served
    assert then["last"] == (3, 3)
    log.at(500, "stoppage")
    answer = log.run_with(SMALL_OVERTIME)
    assert [row for row in answer["returns"] if row[1] == "away"] == [
        (1700, "away", (seq,), "65", "stand-in", "at stoppage")
    ]


def test_an_equal_pair_does_not_bring_back_a_stand_in_who_lost_his_place() -> None:
    """R14 c: 65 was penalized at 950, his place went to somebody not named, who sits on after the pair.

    65's own minor is over at 1150.
    """
    log = goalkeeper_in_an_equal_pair()
    log.pen(950, "away", "65", "minor")
    log.period = 2
    log.at(200, "stoppage")
    answer = log.run_with(SMALL_OVERTIME)
    assert [row for row in answer["returns"] if row[1] == "away"] == [
        (1150, "away", (3,), "65", "player", "on expiry"),
        (1400, "away", (2,), None, "stand-in", "at stoppage"),
    ]


def test_an_equal_pair_where_a_second_team_mate_sits_already() -> None:
    """With a misconduct besides, a second team-mate has sat from the start: 65, who sat for the clock time, returns."""
    log = goalkeeper_in_an_equal_pair("misconduct")
    log.period = 2
    log.at(900, "stoppage")
    answer = log.run_with(SMALL_OVERTIME | {"lengths.misconduct": 500})
    assert [row for row in answer["returns"] if row[1] == "away"] == [
        (1200, "away", (2,), "65", "stand-in", "at stoppage"),
        (2100, "away", (2,), None, "stand-in", "at stoppage"),
    ]


def test_an_equal_pair_leaves_the_one_who_sits_for_a_bench_minor_seated() -> None:
    """R14 d: one bench minor each at 1150, 50 of them served: 66 and 67, who were named, sit on to the whistle."""
    log = Log()
    log.pen(1150, "home", None, "bench_minor", served_by="66")
    log.pen(1150, "away", None, "bench_minor", served_by="67")
    log.period = 2
    log.at(200, "stoppage")
    answer = log.run_with(SMALL_OVERTIME)
    assert who(answer) == [(1400, "home", "66", "at stoppage"), (1400, "away", "67", "at stoppage")]


def test_period_cut_short_and_horn_penalty() -> None:
    """Cut short at 9000: played time goes on from 9000; the penalty at the horn starts there, and ends 10200."""
    log = Log()
    log.at(9000, "period_end")
    seq = log.pen(9000, "home", "7", "minor")
    log.period = 2
    log.at(2000, "stoppage")
    answer = log.run()
    assert len(answer["skaters"]) == 11000
    assert answer["parts"][(seq, 0)] == (9000, 10200, 1200, "served")


def test_sudden_victory_leaves_the_rest_unserved() -> None:
    """A goal at 500 of overtime ends it: the major called at 100 has served 400."""
    log = Log(period=4)
    seq = log.pen(100, "home", "7", "major")
    log.goal(500, "away")
    answer = log.run()
    assert answer["over"]
    assert answer["parts"][(seq, 0)] == (100, 500, 400, "unserved")


def test_penalty_shot_and_awarded_goal() -> None:
    """The shot replaces the first minor; a goal on it or an awarded one ends nothing and has no strength."""
    log = Log()
    log.pen(0, "home", "7", "minor")
    seq = log.pen(300, "home", "8", "minor", "minor", shot=True)
    shot = log.at(300, "penalty_shot", "away", "scored")
    awarded = log.goal(600, "away", awarded=True)
    answer = log.run()
    assert answer["parts"][(seq, 0)] == (None, 300, 0, "replaced by penalty shot")
    assert answer["parts"][(seq, 1)][3] == "running"
    nothing = {"strength": None, "ended": None, "washed": None}
    assert answer["goals"] == {shot: nothing, awarded: nothing}
    old = log.run_with({"goals.penalty_shot_ends_minor": True, "goals.awarded_ends_minor": True})
    assert [old["goals"][g]["ended"] for g in (shot, awarded)] == [(1, 0), (seq, 1)]


def test_staff_and_bench_minor() -> None:
    """The bench part leaves the team short and somebody not named sits; the rest of it nobody serves."""
    log = Log()
    seq = log.pen(100, "home", None, "bench_minor", "game_misconduct", staff=True)
    log.at(1400, "stoppage")
    answer = log.run()
    assert answer["parts"][(seq, 1)] == (None, 100, 0, "unserved")
    assert answer["returns"] == [(1300, "home", (seq,), None, "stand-in", "on expiry")]


def test_somebody_who_sits_for_another_is_penalized() -> None:
    """20 sits for 7's minor (beside a misconduct); at 500 20 is penalized: his own chain to 1700, 7's place to a new
    stand-in who returns at 1300."""
    log = Log()
    log.pen(100, "home", "7", "minor", "misconduct", served_by="20")
    log.pen(500, "home", "20", "minor")
    log.at(1800, "stoppage")
    answer = log.run()
    assert who(answer) == [(1300, "home", None, "on expiry"), (1700, "home", "20", "on expiry")]


def test_the_stand_in_stays_when_a_run_out_and_a_goal_end_two_parts_at_one_tenth() -> None:
    """R14 b: 63 sits for the major, which comes first. At 3100 it runs out and a minor starts; then the goal ends that.

    The major was over first, so 63 goes on sitting: two minors to 5500.
    """
    log = Log()
    minors = log.pen(100, "away", "5", "minor", "minor", "minor", served_by="62")
    major = log.pen(100, "away", "5", "major", served_by="63")
    goal = log.goal(3100, "home")
    log.at(6000, "stoppage")
    answer = log.run_with({"ejection.major": "second"})
    assert answer["goals"][goal]["ended"] == (minors, 0)
    assert answer["parts"][(major, 0)] == (100, 3100, 3000, "served")
    assert answer["parts"][(minors, 0)] == (3100, 3100, 0, "ended by goal")
    assert answer["returns"] == [(5500, "away", (minors, major), "63", "stand-in", "on expiry")]


def test_the_stand_in_stays_when_a_goal_a_tenth_later_ends_the_minor() -> None:
    """Who sits does not hang on a tenth: at 3099 the major runs and no minor ends, at 3101 the first minor ends."""
    for e, end in ((3099, 6700), (3101, 5501)):
        log = Log()
        log.pen(100, "away", "5", "minor", "minor", "minor", served_by="62")
        log.pen(100, "away", "5", "major", served_by="63")
        log.goal(e, "home")
        log.at(7000, "stoppage")
        assert log.run()["returns"] == [(end, "away", (1, 2), "63", "stand-in", "on expiry")]


def test_the_stand_in_stays_when_a_run_out_and_a_ruling_end_two_parts_at_one_tenth() -> None:
    """At 3100 the major runs out, then an official ends the minor that starts: 63 sits on for the other, to 4300."""
    log = Log()
    ruled = log.pen(100, "away", "5", "minor", served_by="61")
    log.pen(100, "away", "5", "minor", served_by="62")
    log.pen(100, "away", "5", "major", served_by="63")
    log.at(3100, "ruling", ruled)
    log.at(3100, "stoppage")
    log.at(5000, "stoppage")
    assert log.run()["returns"] == [(4300, "away", (1, 2, 3), "63", "stand-in", "on expiry")]


def test_ruling_in_play_with_one_waiting() -> None:
    """R6: the ruling at 500 ends 2's minor, the queue moves up, 2 is held until the whistle at 600."""
    log = Log()
    seqs = [log.pen(100, "home", player, "minor") for player in ("2", "3", "4")]
    log.at(500, "ruling", seqs[0])
    log.at(600, "stoppage")
    answer = log.run()
    assert answer["parts"][(seqs[0], 0)] == (100, 500, 400, "ended by ruling")
    assert answer["parts"][(seqs[2], 0)][0] == 500
    assert who(answer) == [(600, "home", "2", "at stoppage")]


def test_ruling_before_play_resumes_takes_no_part_in_the_offsetting() -> None:
    """R6: without 8's minor there is nothing to offset 17's; 17 alone is short."""
    log = Log()
    log.pen(100, "away", "17", "minor")
    seq = log.pen(100, "home", "8", "minor")
    log.at(100, "ruling", seq)
    log.at(200, "stoppage")
    answer = log.run()
    assert answer["last"] == (5, 4)
    assert answer["returns"] == []


def test_the_need_for_a_stand_in_goes_away() -> None:
    """7's minor to 1300; at 300 a misconduct: a stand-in takes over; the ruling at 500 ends the misconduct in play, the
    stand-in leaves at the whistle at 600 and 7 sits to 1300."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    misconduct = log.pen(300, "home", "7", "misconduct")
    log.at(500, "ruling", misconduct)
    log.at(600, "stoppage")
    log.at(1400, "stoppage")
    answer = log.run()
    assert who(answer) == [(600, "home", None, "at stoppage"), (1300, "home", "7", "on expiry")]


def test_nobody_plays_short() -> None:
    """R20: every part is served off the clock, the player leaves at the whistle."""
    log = Log()
    log.pen(100, "home", "7", "minor")
    log.at(1400, "stoppage")
    answer = log.run_with({"ice.plays_short": False})
    assert set(answer["skaters"]) == {(5, 5)}
    assert answer["parts"][(1, 0)] == (100, 1300, 1200, "offset")
    assert who(answer) == [(1400, "home", "7", "at stoppage")]


def test_random_games_reach_every_rule() -> None:
    counts: Counter[str] = Counter()
    for seed in range(300):
        counts.update(simulate(*random_game(random.Random(seed)))["counts"])
    assert [rule for rule in RULES_COUNTED if not counts[rule]] == []
    assert set(counts) <= set(RULES_COUNTED)


@pytest.mark.parametrize("seed", range(40))
def test_swapping_the_sides_swaps_the_answer(seed: int) -> None:
    swap = {"home": "away", "away": "home"}
    knobs, goalkeepers, events = random_game(random.Random(seed))
    mirrored = [tuple(swap.get(x, x) if i == 4 and isinstance(x, str) else x for i, x in enumerate(e)) for e in events]
    here = simulate(knobs, goalkeepers, events)
    there = simulate(knobs, {swap[team]: numbers for team, numbers in goalkeepers.items()}, mirrored)
    assert there["skaters"] == [(away, home) for home, away in here["skaters"]]
    assert there["parts"] == here["parts"]
    assert there["goals"] == here["goals"]
    assert Counter(there["returns"]) == Counter((t, swap[team], *rest) for t, team, *rest in here["returns"])


@pytest.mark.parametrize("seed", range(20))
def test_a_later_event_never_changes_what_was_before(seed: int) -> None:
    knobs, goalkeepers, events = random_game(random.Random(seed))
    whole = simulate(knobs, goalkeepers, events)
    for cut in range(1, len(events), 7):
        part = simulate(knobs, goalkeepers, events[:cut])
        assert whole["skaters"][: len(part["skaters"])] == part["skaters"]
        t = len(part["skaters"])
        assert [r for r in whole["returns"] if r[0] < t] == [r for r in part["returns"] if r[0] < t]


@pytest.mark.parametrize("seed", range(60))
def test_invariants(seed: int) -> None:
    knobs, goalkeepers, events = random_game(random.Random(seed))
    answer = simulate(knobs, goalkeepers, events)
    parts = {(e[1], i): kind for e in events if e[0] == "penalty" for i, kind in enumerate(e[5]["parts"])}
    assert set(answer["parts"]) == set(parts)
    assert all(3 <= n <= 5 for pair in answer["skaters"] for n in pair)
    for part, (start, end, served, fate) in answer["parts"].items():
        kind = parts[part]
        length = 0 if kind == "game_misconduct" else knobs[f"lengths.{kind.replace('bench_', '')}"]
        assert served <= length
        if fate == "served" or (fate == "offset" and end is not None):
            assert served == length or (fate == "served" and knobs["coincident.late_netting"] and kind in MAJORS)
        assert start is not None or served == 0
    ended = [goal["ended"] for goal in answer["goals"].values() if goal["ended"] is not None]
    assert len(ended) == len(set(ended))
