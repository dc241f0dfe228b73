"""`rinkfold record`: what a correction or a late entry makes different in the rest of the game."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline import Amend, GameOpened, read_log, replay


def test_a_void_tells_what_is_different(rinkfold: Any, started: Path) -> None:
    """Who went back, the parts, the skaters and the totals; a dry run writes nothing."""
    before = started.read_bytes()
    ran = rinkfold("record", started, "void 17 wrong side", "--dry-run")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "#121 event 17 taken back → gone: 1 13:10 home penalty 12 minor tripping announced 2:00 · home 4 on 5",
        "  Look again: Event 28 (penalty_ended) points at event 17, which was voided. Point it elsewhere: "
        "`amend 28 penalty …`; or void it too: `void 28 its target was voided`.",
        "  Out of the box",
        "                 before         now",
        "    home 12 #17  12 at 1 11:10  nobody sits for it",
        "  Penalties",
        "                       before                            now",
        "    home 12 #17 minor  1 13:10 to 1 11:10, 2:00, served  not called",
        "  Skaters",
        "                      before       now",
        "    1 13:10 to 11:10  home 4 on 5  home 5 on 5",
        "  Totals",
        "                             before  now",
        "    home penalty minutes     13      11",
        "    home penalty minutes 12  2       0",
        "    away power plays         3       2",
        "    away power-play time     7:58    5:58",
        "Nothing was written: --dry-run.",
        "Rules: youth-14u, with overtime.skaters 3. The league's own rules and the officials on the ice decide.",
    ]
    assert started.read_bytes() == before


def test_a_late_goal_tells_whom_it_lets_out(rinkfold: Any, started: Path) -> None:
    """The goal with its strength, and what it ended."""
    out = rinkfold("record", started, "late 1 12:30 a goal 8", "--dry-run").out.splitlines()
    assert "    home 12 #17  12 at 1 11:10  12 at 1 12:30, whistle" in out
    assert "    away 1 12:30 -/#121  no goal  8 at 1 12:30, power play 4 on 5, ended home 12 #17" in out


def test_what_goes_to_the_end_says_its_line_only(rinkfold: Any, started: Path) -> None:
    """An entry on time changes nothing that was."""
    assert len(rinkfold("record", started, "11:05 a goal 17", "--dry-run").out.splitlines()) == 3


def test_a_void_of_a_void_and_an_amended_amendment(rinkfold: Any, started: Path) -> None:
    """Corrections are corrected like anything else."""
    entries = ["void 17 wrong", "void 121 it was right", "amend 17 player 14", 'amend 123 changes {"player":"15"}']
    assert rinkfold("record", started, *entries).code == 0
    game = replay(read_log(started), rulesets.of(read_log(started)))
    assert game.penalties[0].event.player == "15"
    assert game.penalties[0].penalty == 17


def test_undo_and_void_last_are_the_same(rinkfold: Any, started: Path) -> None:
    """Both take back the last entry that counts."""
    both = [rinkfold("record", started, entry, "--dry-run", "--json").answer for entry in ("undo", "void last")]
    targets = [answer["recorded"][0]["event"]["target"] for answer in both]
    assert targets == [120, 120]


def test_a_late_entry_with_and_without_after(rinkfold: Any, started: Path) -> None:
    """`after` wins over the reading's own order."""
    ran = rinkfold("record", started, "late 1 13:10 h pen 8 2 hooking after 17", "late 1 13:10 a pen 4 2 hooking")
    assert ran.code == 0
    placed = [one.event.seq for one in replay(read_log(started), rulesets.of(read_log(started))).folded.placed]
    assert placed[placed.index(17) + 1] == 121


def test_the_clock_corrected(rinkfold: Any, started: Path) -> None:
    """Time taken back was not played, and penalties have it back."""
    out = rinkfold("record", started, "1122 clock 1130 horn late", "--dry-run").out
    assert "    2 11:30 to 11:22  home 4 on 5  not played\n" in out
    assert "    home 9 #115 minor  2 12:20, 0:58, running  2 12:20, 0:50, running\n" in out


def test_amended_rules_are_pinned_anew(rinkfold: Any, fresh: Path) -> None:
    """The amendment carries the whole ruleset, so that a later release of the library changes nothing."""
    assert rinkfold("record", fresh, "12:00 go", "11:00 h pen 4 2 hooking", "11:00 go", "8:00 stop").code == 0
    ran = rinkfold("record", fresh, "amend 1 ruleset youth-10u because wrong age class")
    assert (ran.code, ran.err) == (0, "")
    first, *rest = ran.out.splitlines()
    assert first.startswith("#6 event 1 changed: ruleset → minor 1:30 · ")
    assert "    home 4 #3  4 at 1 9:00  4 at 1 9:30" in rest
    assert rest[-1].startswith("Rules: youth-10u.")
    log = read_log(fresh)
    amendment = log.events[-1]
    assert isinstance(amendment, Amend)
    assert amendment.changes["pinned"]["name"] == "youth-10u"
    assert replay(log).rules == rulesets.of(log)
    assert rulesets.of(log).lengths.minor == 900


def test_amended_settings_of_a_league_keep_the_rest(rinkfold: Any, fresh: Path) -> None:
    """What was pinned stays for the rest."""
    ran = rinkfold("record", fresh, 'amend 1 settings {"lengths.minor": "1:00"} because ours')
    assert ran.code == 0
    log = read_log(fresh)
    opened = log.events[0]
    assert isinstance(opened, GameOpened)
    assert opened.pinned is not None
    now = rulesets.pin(rulesets.of(log))["knobs"]
    assert [name for name, old in opened.pinned["knobs"].items() if now[name] != old] == ["lengths.minor"]


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        ("amend 1 ruleset youth-11u because x", "youth-11u"),
        ('amend 1 settings {"lengths.minr": "1:00"} because x', "lengths.minor"),
        ("amend 17 scorer 4 because x", "scorer"),
        ("void 1 x", "Amend it."),
    ],
)
def test_a_correction_that_does_not_fit_is_refused(entry: str, told: str, rinkfold: Any, started: Path) -> None:
    """Exit code 2, nothing written, and the message says what would fit."""
    before = started.read_bytes()
    ran = rinkfold("record", started, entry)
    assert (ran.code, ran.out) == (2, "")
    assert told in ran.err
    assert "Traceback" not in ran.err
    assert started.read_bytes() == before


def test_a_correction_that_spoils_an_earlier_one_is_refused_at_once(rinkfold: Any, fresh: Path) -> None:
    """What the log would not take is refused as an entry, with the event at fault."""
    entries = ["remark a", 'amend 2 {"period":1,"clock":"9:00"}', 'amend 3 changes {"period":1}']
    ran = rinkfold("record", fresh, *entries, "--dry-run")
    assert ran.code == 2
    assert "As amended itself" in ran.err


def test_for_programs(rinkfold: Any, started: Path) -> None:
    """A correction has the differences too, in the shape of `whatif`."""
    (one,) = rinkfold("record", started, "void 17 wrong", "--json").answer["recorded"]
    supposed = rinkfold("whatif", started, "--void", "17", "--json").answer
    assert set(one) == {"seq", "entry", "effect", "event", "warnings", "hints", "differences"}
    assert set(one["differences"]) <= set(supposed)
    assert one["differences"]["first"] == {"period": 1, "clock": "13:10"}
    json.dumps(one)


def test_a_closed_record_has_another_head_code_after_a_correction(rinkfold: Any, fresh: Path) -> None:
    """The code on the sheet no longer fits, and that is said; not when nothing was written, nor in an open record."""
    closing = rinkfold("record", fresh, "close played", "--json").answer["head_code"]
    assert closing == read_log(fresh).head_code
    assert "head code" not in rinkfold("record", fresh, "remark signed late", "--dry-run").out
    out = rinkfold("record", fresh, "remark signed late").out
    code = read_log(fresh).head_code
    assert code != closing
    assert f"The record was closed; its head code is now {code}: write it on the sheet." in out
    assert "ead code" not in rinkfold("record", fresh, "void 2 not over").out
