"""The state that pages show: the same answers as the commands give, in words that can be shown."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from live_server.desk import EXAMPLE, At, in_process

from rinkfold import rulesets
from rinkfold.cli.answers.box import box_answer
from rinkfold.cli.answers.summary import summary_answer
from rinkfold.timeline import read_log, replay
from rinkfold.timeline.record import log_bytes


@pytest.fixture
def example(tmp_path: Path) -> Callable[[int], At]:
    """The example game as far as its first events."""

    def until(events: int) -> At:
        made = tmp_path / f"example-{events}.jsonl"
        made.write_bytes(log_bytes(read_log(EXAMPLE).events[:events]))
        return At(in_process(made))

    return until


def test_one_penalty_is_shown_with_the_reading_to_watch_for(write: At) -> None:
    """Who, for what, out at which reading, on what condition; a stoppage is shown as if play resumed."""
    state = write.state()
    (sitting,) = state["box"]["home"]
    shown = {name: sitting[name] for name in ("who", "what", "words", "watch", "waits", "out_played_t", "conditions")}
    assert shown == {
        "who": "12 Per Millbrook",
        "what": "minor, tripping",
        "words": "out at 7:15 on the board",
        "watch": "7:15",
        "waits": None,
        "out_played_t": 4650,
        "conditions": ["a goal against ends it"],
    }
    assert state["strength"]["words"] == "Home 4 on 5"
    assert state["strength"]["supposed"] is True
    assert state["reading"] == {"period": 2, "clock": "9:15", "played_t": 3450}
    assert state["rules"]["applied"] == "minor 2:00 · period 15:00 · board counts down · overtime 5:00, 5 on 5"
    assert state["rules"]["decides"] == "The league's own rules and the officials on the ice decide."


def test_a_shot_with_its_reading_is_the_latest_reading(write: At) -> None:
    """Whose time ran out before it sits no more, and an entry before it is late."""
    write.enter("915 go")
    state = write.enter("700 home shot 9")["state"]
    assert (state["reading"]["clock"], state["box"]["home"], state["strength"]["label"]) == ("7:00", [], "5 on 5")
    assert write.preview("710 stop")["problems"][0]["code"] == "entry_past"


def test_who_left_a_moment_ago_can_still_be_given_a_door(write: At) -> None:
    """Out by the rules and no door written: listed for two minutes, until the door is written."""
    write.enter("915 go")
    state = write.enter("700 stop offside")["state"]
    assert state["box"]["home"] == []
    (one,) = state["left"]["home"]
    expected = {"penalty": 2, "sits": "12", "who": "12 Per Millbrook", "what": "tripping"}
    assert one == {**expected, "at": {"period": 2, "clock": "7:15"}}
    assert write.enter("late 715 home door 12 open")["state"]["left"]["home"] == []


def test_a_third_penalty_waits_for_a_place(write: At) -> None:
    """It begins when a place opens, at 7:15, and only then does it run: its time is up at 5:15."""
    for text in ("915 h pen 9 2 hooking", "910 h pen 31 2 holding served 9"):
        write.enter(text, override=["cannot_serve"])
    last = write.state()["box"]["home"][-1]
    assert (last["state"], last["waits"], last["standing"]) == ("waiting", "place", "waits for a place, not begun")
    assert (last["up"], last["up_played_t"]) == ("5:15", 5850)
    assert last["because"]


def test_a_misconduct_waits_for_a_whistle(write: At) -> None:
    """Its time is up at a reading, and then the next whistle lets him out: there is no reading to watch for."""
    write.enter("910 a pen 4 10 arguing")
    (last,) = write.state()["box"]["away"]
    assert (last["watch"], last["waits"]) == (None, "whistle")
    assert last["words"].endswith("out at the next whistle after")
    assert last["up"] is not None


@pytest.mark.parametrize("events", [1, 60, 120, 150, 153, 200, 260, 310, 320])
def test_the_state_agrees_with_the_commands(example: Callable[[int], At], events: int) -> None:
    """Box, score, strength and goals by period are those of `box --json`, `strength --json` and `summary --json`."""
    at = example(events)
    state = at.state()
    log = read_log(at.room.table.path)
    game = replay(log, rulesets.of(log))
    now = game.at(f"{state['reading']['period']} {state['reading']['clock']}") if state["in_play"] else game.now
    box, summary = box_answer(now), summary_answer(game)
    for team in ("home", "away"):
        ours = [{name: one[name] for name in theirs} for one, theirs in zip(state["box"][team], box[team], strict=True)]
        assert ours == box[team]
    assert state["score"] == {team: summary["final"][team] for team in ("home", "away")}
    assert state["goals"] == summary["goals_by_period"]
    assert state["strength"]["label"] == now.strength.label
    faced = {line["team"]: 0 for line in summary["goalies"]}
    for line in summary["goalies"]:
        faced[line["team"]] += line["shots"]
    for team, other in (("home", "away"), ("away", "home")):
        empty = sum(goal["empty_net"] for goal in summary["goals"] if goal["team"] == team)
        assert sum(state["shots"][team]) == faced.get(other, 0) + empty


def test_the_last_entries_can_be_read_and_corrected(example: Callable[[int], At]) -> None:
    """The newest first, as short entries with their numbers."""
    entries = example(60).state()["entries"]
    assert [one["seq"] for one in entries] == list(range(60, 30, -1))
    assert all(one["text"] for one in entries)
    assert entries[0]["at"] == {"period": 1, "clock": "6:10"}


def test_a_period_that_ended_is_told_with_what_comes_next(write: At) -> None:
    """The horn, and what the board shows at the start of the next period."""
    state = write.enter("end period")["state"]
    assert state["horn"] == {"period": 2, "said": "2nd", "game_over": False}
    assert state["next"] == {"period": 3, "clock": "15:00", "said": "3rd"}
    state = write.enter("3 1500 go")["state"]
    assert (state["horn"], state["next"]) == (None, None)


def test_a_level_game_goes_on_into_overtime(write: At) -> None:
    """The next period is shorter; a game that is decided has no next one."""
    write.enter("3 0:00 end period")
    assert write.state()["next"] == {"period": 4, "clock": "5:00", "said": "OT"}


def test_what_is_found_is_shown_to_the_writer(write: At) -> None:
    """Findings as `check` has them, without the notes that every open record has."""
    write.enter("850 h goal 17", override=["other_side"])
    codes = [one["code"] for one in write.state()["findings"]]
    assert codes[0] == "other_side"
    assert "still_open" not in codes


def test_a_file_in_trouble_is_told_and_takes_no_entry(write: At, path: Path) -> None:
    """Spoilt by another program: said in the state, entries refused, and well again when the file is."""
    good = path.read_bytes()
    path.write_bytes(good + b"spoilt\n")
    assert write.room.table.refresh()
    state = write.state()
    assert state["trouble"]["code"]
    assert state["version"] == 2
    assert write.enter("home shot")["error"] == "log_trouble"
    path.write_bytes(good)
    assert write.room.table.refresh()
    assert write.state()["trouble"] is None
    assert write.enter("home shot")["status"] == 200


def test_a_file_that_was_taken_away_is_told(write: At, path: Path) -> None:
    """A drive that was pulled out: nothing is made anew in its place."""
    kept = path.rename(path.with_suffix(".kept"))
    assert write.enter("home shot")["error"] == "log_trouble"
    assert not path.exists()
    kept.rename(path)
    assert write.enter("home shot")["status"] == 200


def test_a_file_that_was_exchanged_is_shown_as_it_is(write: At, path: Path) -> None:
    """Another game in its place is no continuation: the page shows it and says so."""
    path.write_bytes(log_bytes(read_log(EXAMPLE).events[:10]))
    assert write.room.table.refresh()
    state = write.state()
    assert state["game"] == "lan-pik-2026-11-14"
    assert "exchanged" in state["notice"]


def test_the_state_is_plain_json(example: Callable[[int], At]) -> None:
    """Any program can read it; a whole game's is small."""
    text = example(310).get("api/state").text
    assert json.loads(text)["version"] == 310
    assert len(text) < 40_000
