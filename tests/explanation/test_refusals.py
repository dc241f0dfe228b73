"""`rinkfold explain`: what cannot be explained ends with exit code 2 and says what to type."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

WHERE = "The seqs of penalties stand in `rinkfold penalties`, those of goals in `rinkfold summary --json`.\n"
OF_THE_GAME = [
    (("--penalty", "43"), "Event 43 is `1 8:52 home goal 10 from 19 4`, and no penalty. Type: {} --goal 43.\n"),
    (
        ("--goal", "17"),
        "Event 17 is `1 13:10 home penalty 12 minor tripping announced 2:00`, and no goal. Type: {} --penalty 17.\n",
    ),
    (("--penalty", "28"), "Event 28 is `1 11:10 home door #17 open`, and no penalty. Type: {} --penalty 17.\n"),
    (("--goal", "4"), 'Event 4 is `1 15:00 go`, and no goal. Type: {} --at "1 15:00".\n'),
    (
        ("--goal", "187"),
        'Event 187 is `2 1:45 away penalty shot 10 saved`, and no goal. Type: {} --at "2 1:45".\n',
    ),
    (
        ("--goal", "1"),
        'Event 1 is the line that opens the game, and no goal. Type: {} --at "2 7:42", with a game time.\n',
    ),
    (
        ("--goal", "200"),
        "Event 200 is `amend #162`, and no goal. Type: {} with the seq of what it corrects, 162.\n",
    ),
    (("--penalty", "321"), f"There is no event 321 in this log, whose last is 320. {WHERE}"),
    (("--penalty", "0"), f"There is no event 0 in this log, whose last is 320. {WHERE}"),
    (
        ("--goal", "second"),
        "'second' is not the number of an event. After --goal write the event's seq, a whole number from 2 to 320.\n",
    ),
    (
        ("--at", "9:15"),
        "'9:15' is not a game time. Write the period and what the board shows: "
        '--at "2 7:42", in overtime --at "OT 3:10".\n',
    ),
]


@pytest.mark.parametrize(("options", "expected"), OF_THE_GAME, ids=lambda value: value[-1])
def test_what_is_meant_is_said(options: tuple[str, str], expected: str, rinkfold: Any, example: Path) -> None:
    """What the event is, and what could be typed instead."""
    ran = rinkfold("explain", example, *options)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == expected.replace("{}", f"rinkfold explain {example}")


@pytest.mark.parametrize(
    ("options", "found"),
    [
        ((), "none"),
        (("--at", "2 7:42", "--goal", "43"), "--at and --goal"),
        (("--penalty", "17", "--goal", "43"), "--penalty and --goal"),
    ],
)
def test_exactly_one_question(options: tuple[str, ...], found: str, rinkfold: Any, example: Path) -> None:
    """None or several are refused, with an example."""
    ran = rinkfold("explain", example, *options)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        f"Expected exactly one of --at, --penalty and --goal, found {found}. "
        f'Type for example: rinkfold explain {example} --at "2 7:42". {WHERE}'
    )


def test_what_was_taken_back_is_not_explained(rinkfold: Any, started: Path) -> None:
    """By which event, and how to ask what it would be."""
    assert rinkfold("record", started, "void 115 wrong side").code == 0
    ran = rinkfold("explain", started, "--penalty", "115")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        "Event 115 (2 12:20 home penalty 9 minor+minor high-sticking) was taken back by event 121 and does not count. "
        f"What would be different if it did: rinkfold whatif {started} --void 121.\n"
    )


def test_a_hash_before_the_number_is_no_matter(rinkfold: Any, example: Path) -> None:
    """As the answers write it."""
    assert rinkfold("explain", example, "--goal", "#43").out == rinkfold("explain", example, "--goal", "43").out


def test_no_names_in_refusals(rinkfold: Any, example: Path) -> None:
    """Staff and officials are not named."""
    for seq in ("163", "320"):
        err = rinkfold("explain", example, "--goal", seq).err
        assert "Dorit" not in err
        assert "Halvestrand" not in err


def test_broken_logs_are_refused(rinkfold: Any) -> None:
    """As by every command."""
    folder = Path(__file__).resolve().parents[1] / "data" / "broken_logs"
    for path in sorted(folder.glob("*.jsonl")):
        ran = rinkfold("explain", path, "--at", "1 9:00")
        assert (ran.code, ran.out) == (2, "")
        assert ran.err
