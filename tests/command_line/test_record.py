"""`rinkfold record`: entries appended, and what each does said at once."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli.recording import Recording, Taken
from rinkfold.timeline import ProblemsFound, Remark
from rinkfold.timeline.record import append, read_log

LINES = Path(__file__).with_name("golden").joinpath("effects.txt").read_text(encoding="utf-8").splitlines()
EFFECTS = list(zip(LINES[::2], (line.strip() for line in LINES[1::2]), strict=True))


@pytest.mark.parametrize(("entry", "line"), EFFECTS, ids=LINES[::2])
def test_what_an_entry_does_is_said_in_one_line(entry: str, line: str, rinkfold: Any, started: Path) -> None:
    """What was entered, when, what it does, and how many skate: home 9 sits with a double minor until 8:20."""
    ran = rinkfold("record", started, entry, "--dry-run")
    assert ran.err == ""
    assert ran.out.splitlines()[0] == line


def test_entries_are_appended_with_time_and_chain(rinkfold: Any, fresh: Path) -> None:
    """Each entry is one line, stamped in UTC; the chain goes on."""
    ran = rinkfold("record", fresh, "h gk 31", "15:00 go", "14:10 elm pen 12 2 tripping")
    assert ran.code == 0
    assert ran.out.splitlines() == [
        "#2 home 31 in net: 1st 15:00 · home 5 on 5",
        "#3 faceoff: 1st 15:00 → play is on · home 5 on 5",
        "#4 home 12, minor 2:00 tripping: 1st 14:10 → out at 12:10 · home 4 on 5",
        "Rules: youth-14u. The league's own rules and the officials on the ice decide.",
    ]
    log = read_log(fresh)
    assert log.chained
    assert [event.kind for event in log.events] == ["game_opened", "goalie_change", "faceoff", "penalty_assessed"]
    stamps = [str(event.recorded_at) for event in log.events[1:]]
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", stamp) for stamp in stamps)


def test_one_entry_without_quotes(rinkfold: Any, started: Path) -> None:
    """The words of a single entry may stand there as separate arguments."""
    assert rinkfold("record", started, *["11:05", "away", "goal", "17", "from", "10"]).code == 0
    assert read_log(started).events[-1].kind == "goal"


def test_words_are_one_entry_only_where_they_are_not_entries_themselves(rinkfold: Any, started: Path) -> None:
    """Two entries of one word each stay two; a quoted entry is never swallowed by the word before it."""
    assert rinkfold("record", started, "undo", "undo", "--dry-run").out.count("taken back") == 2
    ran = rinkfold("record", started, "undo", "11:00 h gaol 9")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("11:00 h gaol 9: Understood: 11:00 h. Not understood: gaol.")


def test_all_or_nothing(rinkfold: Any, started: Path) -> None:
    """One entry that is not understood, and the file stays as it was; every wrong one is told."""
    before = started.read_bytes()
    ran = rinkfold("record", started, "11:05 a goal 17", "11:00 h gaol 9", "10:50 whatever")
    assert (ran.code, ran.out) == (2, "")
    assert started.read_bytes() == before
    lines = ran.err.splitlines()
    assert lines[0] == (
        "11:00 h gaol 9: Understood: 11:00 h. Not understood: gaol. Expected: what happened, such as "
        "goal, shot, penalty, stop, go, goalie, timeout, end period. Write: 11:00 h goal 9, or: 11:00 h goalie 9"
    )
    assert lines[1].startswith("10:50 whatever: ")
    assert lines[-1] == "Nothing was written."


def test_keep_going_writes_the_ones_that_are_right(rinkfold: Any, started: Path) -> None:
    """Exit code 1: some were written and some not."""
    ran = rinkfold("record", started, "11:05 a goal 17", "11:00 h gaol 9", "--keep-going")
    assert ran.code == 1
    assert ran.out.startswith("#121 goal, away 17")
    assert ran.err.startswith("11:00 h gaol 9: ")
    assert "Nothing was written" not in ran.err
    assert len(read_log(started).events) == 121


def test_keep_going_with_nothing_right(rinkfold: Any, started: Path) -> None:
    """Exit code 2, as always when nothing was written."""
    ran = rinkfold("record", started, "11:00 h gaol 9", "--keep-going")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.endswith("Nothing was written.\n")


def test_a_dry_run_writes_nothing(rinkfold: Any, started: Path) -> None:
    """The effect is said, and that nothing was written."""
    before = started.read_bytes()
    ran = rinkfold("record", started, "11:05 a goal 17", "--dry-run")
    assert ran.code == 0
    assert "Nothing was written: --dry-run." in ran.out.splitlines()
    assert started.read_bytes() == before


def test_what_the_clock_has_passed_is_offered_both_ways(rinkfold: Any, started: Path) -> None:
    """A reading of the past is not filed silently."""
    ran = rinkfold("record", started, "14:40 h goal 8")
    assert ran.code == 2
    assert "Write: 3 14:40 h goal 8, or: late 14:40 h goal 8" in ran.err


def test_a_late_entry_is_judged_at_its_own_reading(rinkfold: Any, started: Path) -> None:
    """The effect is that of its moment, not of now."""
    ran = rinkfold("record", started, "late 1 12:30 a goal 8", "--dry-run")
    assert ran.out.splitlines()[0] == (
        "#121 goal, away 8: 1st 12:30 → 0-1; power play, 4 on 5; ended the minor of 12; home 12 leaves the box"
        " · home 5 on 5"
    )


def test_undo_goes_back_one_entry_at_a_time(rinkfold: Any, started: Path) -> None:
    """A second undo takes back the entry before, not the first undo."""
    assert rinkfold("record", started, "11:05 a goal 17", "11:05 go", "undo", "undo").code == 0
    voids = [event for event in read_log(started).events if event.kind == "void"]
    assert [getattr(event, "target") for event in voids[-2:]] == [122, 121]  # noqa: B009


def test_a_target_that_is_not_there(rinkfold: Any, started: Path) -> None:
    """The entry is refused like one that is not understood."""
    before = started.read_bytes()
    ran = rinkfold("record", started, "void 999 gone")
    assert (ran.code, ran.out) == (2, "")
    assert (
        ran.err.splitlines()[0] == "void 999 gone: There is no event 999 in this log. Write the seq of the event meant."
    )
    assert started.read_bytes() == before


def test_nothing_but_corrections_after_the_closing(rinkfold: Any, started: Path) -> None:
    """A closed record is not played on, and the message says how it is opened again."""
    assert rinkfold("record", started, "close played").code == 0
    ran = rinkfold("record", started, "11:00 h goal 9")
    assert ran.code == 2
    assert "The record was closed by event 121" in ran.err
    assert "Void event 121 first" in ran.err


def test_the_head_code_is_told_at_the_closing(rinkfold: Any, fresh: Path) -> None:
    """It is the one of the file as it is now."""
    out = rinkfold("record", fresh, "close played signed Jo").out
    code = read_log(fresh).head_code
    assert f"Head code {code}: write it on the sheet. `rinkfold verify --against` compares it." in out.splitlines()
    assert rinkfold("verify", fresh, "--against", code).code == 0


def test_the_shape_for_programs(rinkfold: Any, started: Path) -> None:
    """What was written, entry by entry, with the event as it stands in the log."""
    answer = rinkfold("record", started, "850 a goal 17", "--json").answer
    assert set(answer) == {"rinkfold", "game", "ruleset", "written", "recorded"}
    assert answer["written"] is True
    (one,) = answer["recorded"]
    assert set(one) == {"seq", "entry", "effect", "event", "warnings", "hints"}
    assert (one["warnings"], one["hints"]) == ([], [])
    assert (one["seq"], one["entry"]) == (121, "2 8:50 away goal 17")
    assert one["event"] == json.loads(started.read_text("utf-8").splitlines()[-1])


def test_ejected_players_are_named_as_out(rinkfold: Any, started: Path) -> None:
    """A stand-in is told when he is out, and that the player's game is over."""
    line = rinkfold("record", started, "11:00 a pen 5 5+game fighting served 22", "--dry-run").out.splitlines()[0]
    assert line == (
        "#121 away 5, major 5:00 + game misconduct fighting: 2nd 11:00 → 22 for 5: out at 6:00; "
        "away 5 is out of the game · home 4 on 4"
    )


def test_what_looks_wrong_is_said_below_the_reply(rinkfold: Any, fresh: Path) -> None:
    """What `check` newly finds is said at once, with what to type; the entry is written."""
    assert rinkfold("record", fresh, "7:40 h p 12 2 tripping").code == 0
    ran = rinkfold("record", fresh, "7:20 h g 12 from 99 12")
    assert (ran.code, ran.err) == (0, "")
    reply, *said, rules = ran.out.splitlines()
    assert reply.startswith("#3 goal, home 12 from 99 and 12: ")
    assert rules.startswith("Rules: ")
    assert [line.partition(". ")[0] for line in said] == [
        "  Look again: home 12 scored while sitting in the box with 1:40 to serve (penalty #2)",
        "  Look again: home 12 assisted while sitting in the box with 1:40 to serve (penalty #2)",
        "  Look again: home 12 scored the goal and assists on it",
    ]
    assert said[-1].endswith("Write the right numbers: `amend 3 assists 99`.")
    found = rinkfold("check", fresh, "--json").answer["findings"]
    assert len([one for one in found if one["severity"] != "note"]) == len(said)


def test_a_player_whose_game_is_over(rinkfold: Any, fresh: Path) -> None:
    """Two entries at once are looked at one after another; what was said of the first is not said of the second."""
    ran = rinkfold("record", fresh, "7:10 h p 17 5+game boarding served 8", "7:05 h g 17", "7:05 go")
    looks = [line for line in ran.out.splitlines() if "Look again" in line]
    assert looks == [
        "  Look again: home 17 scored, but the player's game was over. Write the right number: `amend 3 scorer …`. "
        "If it is right, tell the officials at once."
    ]


def test_a_dry_run_names_no_entry_that_is_not_there(rinkfold: Any, fresh: Path) -> None:
    """Nothing is written, so there is nothing to amend."""
    ran = rinkfold("record", fresh, "7:20 h g 12 from 12", "--dry-run")
    assert ran.out.splitlines()[1] == "  Look again: home 12 scored the goal and assists on it. Write the right number."


def test_what_is_still_to_come_is_a_note(rinkfold: Any, fresh: Path) -> None:
    """Who sits for a bench minor is worth knowing, and no slip."""
    ran = rinkfold("record", fresh, "7:20 h bm too many players", "--json")
    (one,) = ran.answer["recorded"]
    assert (one["warnings"], [found["code"] for found in one["hints"]]) == ([], ["no_stand_in"])
    ran = rinkfold("record", fresh, "7:00 a bm too many players")
    assert ran.out.splitlines()[1] == (
        "  Note: A team-mate has to sit for the bench minor, and nobody is named. Name the one who sits: "
        "`amend 3 served_by …`."
    )


def test_what_a_correction_makes_wrong_elsewhere(rinkfold: Any, fresh: Path) -> None:
    """A late penalty says what it makes of the goal that its player scored meanwhile."""
    assert rinkfold("record", fresh, "7:20 h g 12").code == 0
    ran = rinkfold("record", fresh, "late 8:00 h p 12 2 tripping")
    assert ran.out.splitlines()[1].startswith("  Look again: home 12 scored while sitting in the box")


def test_each_half_of_a_penalty_says_whose_it_is(rinkfold: Any, fresh: Path) -> None:
    """A team-mate sits for the minor, the player for his misconduct: who leaves when is said of each."""
    entries = ("8:00 h p 12 2 hooking", "8:00 h p 14 2 hooking", "8:00 h p 17 2+10 boarding served 9")
    line = rinkfold("record", fresh, *entries).out.splitlines()[2]
    assert line.startswith(
        "#4 home 17, minor 2:00 + misconduct 10:00 boarding: 1st 8:00 → "
        "9 for 17, minor: waits for a place, not begun, time up at 4:00, out at the next whistle after; "
        "17, misconduct: not begun, time up at 9:00 of the 2nd, out at the next whistle after; home 14: now "
    )


def test_two_that_record_at_once(fresh: Path) -> None:
    """Who read the log before another wrote is told to read it again: the entry was understood in another game."""
    one, two = Recording.of(read_log(fresh)), Recording.of(read_log(fresh))
    assert isinstance(one.take("9:15 home goal 9"), Taken)
    assert isinstance(two.take("9:15 away goal 9"), Taken)
    one.write()
    written = fresh.read_bytes()
    with pytest.raises(ProblemsFound) as refused:
        two.write()
    assert [problem.code for problem in refused.value.problems] == ["log_has_grown"]
    assert fresh.read_bytes() == written


def test_a_log_whose_last_line_is_another_by_now(fresh: Path) -> None:
    """As many lines are not yet the same log: what was read must be what stands there."""
    recording = Recording.of(read_log(fresh))
    assert isinstance(recording.take("9:15 home goal 9"), Taken)
    fresh.write_bytes(fresh.read_bytes().replace(b"Elm Owls", b"Ash Owls"))
    with pytest.raises(ProblemsFound) as refused:
        recording.write()
    assert [problem.code for problem in refused.value.problems] == ["log_has_grown"]
    assert len(read_log(fresh).events) == 1


def test_an_entry_of_another_comes_between(rinkfold: Any, fresh: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command writes nothing, and says why."""
    write = Recording.write

    def after_another(recording: Recording) -> Any:
        append(fresh, [Remark(seq=0, text="the ice was resurfaced")])
        return write(recording)

    monkeypatch.setattr(Recording, "write", after_another)
    ran = rinkfold("record", fresh, "9:15 home goal 9")
    assert (ran.code, ran.out) == (2, "")
    assert "The log is no longer as it was read: its last event is 2, expected 1. Read it again" in ran.err
    assert [event.kind for event in read_log(fresh).events] == ["game_opened", "remark"]
