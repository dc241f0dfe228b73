"""`rinkfold whatif`: what would have been different; the record stays as it is."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.opening import open_log
from rinkfold.cli.paper import Style
from rinkfold.cli.people import people_of
from rinkfold.cli.supposing import suppose, suppositions
from rinkfold.cli.tables.differences import difference_lines
from rinkfold.cli.two_games import TwoGames
from rinkfold.timeline import ProblemsFound
from rinkfold.timeline.views.difference import differences

DIFFERENCES = {"same", "first", "releases", "parts", "strengths", "goals", "goalies", "totals"}


def lines(ran: Any) -> list[str]:
    """The lines of an answer, which has to be one."""
    assert (ran.code, ran.err) == (0, "")
    return list(ran.out.splitlines())


def test_a_goal_that_never_counted(rinkfold: Any, example: Path, golden: Any) -> None:
    """The bench minor is served to its end; score, shots, power play and result are others."""
    assert rinkfold("whatif", example, "--void", "43").out == golden("void_43")


def test_a_penalty_at_another_reading(rinkfold: Any, example: Path, golden: Any) -> None:
    """Ten seconds earlier: the one who waited begins ten seconds earlier, and the goal ends less of his."""
    assert rinkfold("whatif", example, "--amend", "140", "clock=8:20").out == golden("amend_140")


def test_a_penalty_that_was_forgotten(rinkfold: Any, example: Path, golden: Any) -> None:
    """It takes its place at its reading, in a record that was closed long after."""
    ran = rinkfold("whatif", example, "--insert", "2 9:15 home penalty 12 minor tripping")
    assert ran.out == golden("insert_2_9_15")


def test_as_worked_out_by_hand(rinkfold: Any, example: Path) -> None:
    """Without the goal at 2 11:05 the first minor of 9 runs to 10:20, the second to 8:20, and 9 leaves then."""
    answer = rinkfold("whatif", example, "--void", "121", "--json").answer
    assert answer["first"] == {"period": 2, "clock": "11:05"}
    parts = {(one["after"]["penalty"], index): one["after"] for index, one in enumerate(answer["parts"])}
    assert [(part["end"]["clock"], part["served_s"], part["fate"]) for part in parts.values()] == [
        ("10:20", 120, "served"),
        ("8:20", 120, "served"),
    ]
    assert [
        (one["before"]["who"], one["before"]["at"], one["after"]["at"], one["after"]["how"])
        for one in answer["releases"]
    ] == [("9", {"period": 2, "clock": "9:05"}, {"period": 2, "clock": "8:20"}, "on expiry")]


def test_an_own_goal_is_told(rinkfold: Any, example: Path) -> None:
    """Where that is all that differs, the two columns differ in it, and so do the two goals for programs."""
    ran = rinkfold("whatif", example, "--amend", "43", "own_goal=yes")
    (row,) = (re.split(" {2,}", line.strip()) for line in lines(ran) if "#43 " in line and "  " in line.strip())
    _, as_recorded, supposed = row
    assert "own goal" not in as_recorded
    assert supposed == as_recorded.replace("power play 5 on 4", "power play 5 on 4, own goal")
    (goal,) = rinkfold("whatif", example, "--amend", "43", "own_goal=yes", "--json").answer["goals"]
    differing = {name for name in goal["before"] if goal["before"][name] != goal["after"][name]}
    assert (differing, goal["after"]["own_goal"]) == ({"own_goal"}, True)
    goals = rinkfold("summary", example, "--json").answer["goals"]
    assert {goal["own_goal"] for goal in goals} == {False}


def test_another_kind_of_penalty_is_told_in_each_column(rinkfold: Any, example: Path) -> None:
    """What was a minor is not called a major in the column of what is recorded."""
    ran = rinkfold("whatif", example, "--amend", "17", "parts=5")
    (row,) = (re.split(" {2,}", line.strip()) for line in lines(ran) if re.search("#17 .* served|#17  minor", line))
    assert row[0].endswith("#17")
    assert row[1].startswith("minor: 1 ")
    assert row[2].startswith("major: 1 ")


AMENDMENTS = {
    "goal": ("own_goal=yes", "awarded=yes", "empty_net=yes", "scorer=99", "team=away", "team=home"),
    "penalty_assessed": ("player=6", "parts=5", "parts=10", "team=away", "team=home", "served_by=8"),
    "shot": ("period=2", "team=home"),
    "goalie_change": ("goalie=1", "goalie=31"),
}


def test_two_columns_are_never_the_same(example: Path) -> None:
    """Whatever is amended: a row that is shown because something differs says what."""
    log = open_log(str(example))
    rows = []
    for event in [event for event in log.events if event.kind in AMENDMENTS][::3]:
        for change in AMENDMENTS[event.kind]:
            option = suppositions(["--amend", str(event.seq), change])[1]
            try:
                supposed = suppose(log, [option])
            except ProblemsFound:
                continue  # somebody out of the game cannot be in it
            found = differences(supposed.before, supposed.after)
            two = TwoGames(supposed.before, supposed.after, found, ("as recorded", "supposed"))
            told = difference_lines(two, people_of(supposed.before.header), Style())
            rows += [re.split(" {2,}", line.strip()) for line in told if line.startswith("  ")]
    wrong = [row for row in rows if len(row) == 3 and row[1] == row[2]]
    assert len(rows) > 300
    assert not [row for row in wrong if "staff" not in row[0]]  # a number beside staff is a finding of its own


def test_several_apply_in_the_order_given(rinkfold: Any, example: Path) -> None:
    """Of two amendments of one field the later one counts, whatever stands between them."""
    first, last = ("--amend", "17", "player=6"), ("--amend", "17", "player=7")
    for order, number in (((*first, "--void", "43", *last), "7"), ((*last, "--void", "43", *first), "6")):
        answer = rinkfold("whatif", example, *order, "--json").answer
        assert [one["event"]["kind"] for one in answer["supposed"]] == ["amend", "void", "amend"]
        assert answer["parts"][0]["after"]["player"] == number


def test_a_later_one_may_point_at_an_earlier_one(rinkfold: Any, example: Path) -> None:
    """What is supposed can be taken back again by `last`: then nothing is different."""
    ran = rinkfold("whatif", example, "--insert", "2 9:15 home penalty 12 2 tripping", "--void", "last")
    assert "Nothing would be different." in lines(ran)


def test_several_fields_and_words_in_them(rinkfold: Any, example: Path) -> None:
    """Behind one --amend, each as the shell hands it over."""
    answer = rinkfold(
        "whatif", example, "--amend", "17", "clock=13:20", "infraction=too long in coming", "player=6", "--json"
    ).answer
    assert answer["supposed"][0]["event"]["changes"] == {
        "clock": "13:20",
        "infraction": "too long in coming",
        "player": "6",
    }
    assert rinkfold("whatif", example, "--amend=17", "clock=13:20").code == 0


def test_nothing_is_written(rinkfold: Any, started: Path) -> None:
    """Not a byte, and no file beside it."""
    before, beside = started.read_bytes(), sorted(started.parent.iterdir())
    for options in (("--void", "115"), ("--insert", "11:00 away goal 17"), ("--amend", "115", "parts=2")):
        assert "Nothing was written." in lines(rinkfold("whatif", started, *options))
    assert started.read_bytes() == before
    assert sorted(started.parent.iterdir()) == beside


def test_a_game_that_goes_on(rinkfold: Any, started: Path) -> None:
    """Releases that are only foreseen are compared too, and called so for programs."""
    answer = rinkfold("whatif", started, "--amend", "115", "parts=2", "--json").answer
    (release,) = answer["releases"]
    assert (release["before"]["at"]["clock"], release["after"]["at"]["clock"]) == ("8:20", "10:20")
    assert release["before"]["foreseen"]
    assert release["after"]["foreseen"]


def test_a_record_that_was_opened_for_an_entry_is_closed_again(rinkfold: Any, started: Path) -> None:
    """Abandoned with a minor running, it stays so: nobody is foreseen to leave, and a time-out changes nothing."""
    assert rinkfold("record", started, "close abandoned").code == 0
    ran = rinkfold("whatif", started, "--insert", "2 11:22 away timeout")
    assert lines(ran)[1] == "Nothing would be different."
    supposed = suppose(open_log(str(started)), suppositions(["--insert", "2 11:22 away timeout"])[1::2])
    assert (supposed.before.over, supposed.after.over) == (True, True)
    assert supposed.after.events[-1].kind == "game_closed"


def test_what_makes_no_difference(rinkfold: Any, example: Path) -> None:
    """Is said in a line."""
    assert lines(rinkfold("whatif", example, "--void", "130"))[1] == "Nothing would be different."
    answer = rinkfold("whatif", example, "--void", "130", "--json").answer
    assert answer["same"] is True
    assert answer["first"] is None


def test_the_same_as_if_it_were_written(rinkfold: Any, started: Path) -> None:
    """What is supposed and then written gives what was supposed."""
    entry = "11:00 away pen 24 2 holding"
    supposed = rinkfold("whatif", started, "--insert", entry, "--json").answer
    added = [one["after"] for one in supposed["parts"] if one["before"] is None]
    assert rinkfold("record", started, entry).code == 0
    life = rinkfold("penalties", started, "--json").answer["penalties"][-1]
    assert [(part["kind"], part["start"], part["end"], part["fate"]) for part in added] == [
        (part["kind"], part["start"], part["end"], part["fate"]) for part in life["parts"]
    ]


def test_whose_rules(rinkfold: Any, example: Path) -> None:
    """In every answer, with what is overridden; after an amendment of the rules with what is amended."""
    assert lines(rinkfold("whatif", example, "--void", "43"))[-1] == (
        "Rules: youth-14u, with overtime.skaters 3. The league's own rules and the officials on the ice decide."
    )
    amended = rinkfold("whatif", example, "--amend", "1", 'settings={"lengths.minor":"1:30"}')
    assert lines(amended)[-1].startswith("Rules: youth-14u, with lengths.minor 1:30. ")
    assert re.search(r"^  home 12 #17 +12 at 1 11:10 +12 at 1 11:40$", amended.out, flags=re.MULTILINE)


def test_the_shape_for_programs(rinkfold: Any, example: Path) -> None:
    """Field for field as documented."""
    answer = rinkfold("whatif", example, "--void", "43", "--insert", "2 9:15 h pen 12 2 tripping", "--json").answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "supposed"} | DIFFERENCES
    assert answer["supposed"][0] == {
        "entry": "void #43 taken back",
        "event": {"seq": 322, "kind": "void", "target": 43, "reason": "taken back"}
        | {"recorded_at": answer["supposed"][0]["event"]["recorded_at"]},
    }
    assert set(answer["releases"][0]["before"]) == {"team", "penalty", "who", "role", "at", "how", "foreseen"}
    assert set(answer["parts"][0]["before"]) == {
        "team", "player", "penalty", "kind", "length", "start", "end", "served_s", "fate", "ended_by",
    }  # fmt: skip
    assert set(answer["strengths"][0]) == {"from", "to", "lasts_s", "before", "after"}
    assert set(answer["strengths"][0]["after"]) == {"home", "away", "home_goalie", "away_goalie", "label"}
    assert answer["goals"][0]["before"]["seq"] == 43
    assert answer["goals"][0]["after"] is None
    assert {"name": "goals", "team": "home", "period": None, "player": None, "before": 5, "after": 4} in answer[
        "totals"
    ]
    json.dumps(answer, allow_nan=False)


REFUSED = [
    (("--void",), "Nothing stands behind --void. "),
    (("--void", "x"), "--void x: Understood: void. Not understood: x. "),
    (("--void", "999"), "--void 999: There is no event 999 in this log. "),
    (("--void", "1"), "--void 1: Event 1 opens the game and cannot be voided. "),
    (("--amend", "17"), "--amend 17: the change is missing. Write the seq, a field and its new value: "),
    (("--amend", "17", "foo=3"), "--amend 17 foo=3: Understood: amend 17. Not understood: foo=3. "),
    (("--amend", "17", "clock=99:99"), "--amend 17 clock=99:99: "),
    (("--insert", "blah"), "--insert blah: Not understood: blah. "),
    (("--void", "43", "--insert", "2 9:15 home gaol 17"), "--insert 2 9:15 home gaol 17: "),
    ((), "Nothing is supposed. Write the seq "),
]


@pytest.mark.parametrize(
    ("options", "begins"), REFUSED, ids=lambda value: value if isinstance(value, str) else str(len(value))
)
def test_what_is_not_understood(options: tuple[str, ...], begins: str, rinkfold: Any, example: Path) -> None:
    """Exit code 2, which of them it is, and what to write."""
    ran = rinkfold("whatif", example, *options)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(begins)
    assert "Traceback" not in ran.err


def test_a_broken_log_is_refused(rinkfold: Any, tmp_path: Path) -> None:
    """As by every command."""
    path = tmp_path / "torn.jsonl"
    path.write_text('{"seq": 1}\n', encoding="utf-8")
    ran = rinkfold("whatif", path, "--void", "2")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"{path}:1: ")
