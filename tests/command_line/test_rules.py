"""`rinkfold rules`: the rulesets."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from rinkfold import rulesets
from rinkfold.timeline.rules import KNOBS

DECIDES = "The league's own rules and the officials on the ice decide."


def test_the_list(rinkfold: Any) -> None:
    """Every name once, with what it applies, and who decides."""
    lines = rinkfold("rules", "list").out.splitlines()
    assert [line.split()[0] for line in lines[:-2]] == list(rulesets.names())
    assert (
        "youth-8u       minor 1:30 · period 12:00 · board counts down · no side plays short · overtime 5:00, 5 on 5"
        in lines
    )
    assert lines[-1].endswith(DECIDES)
    answer = rinkfold("rules", "list", "--json").answer
    assert [one["name"] for one in answer["rulesets"]] == list(rulesets.names())
    assert set(answer["rulesets"][0]) == {"name", "title", "applied"}
    assert (answer["rinkfold"], answer["note"]) == (1, DECIDES)


def test_one_ruleset_whole(rinkfold: Any) -> None:
    """Every knob with its value, meaning and source."""
    lines = rinkfold("rules", "show", "youth-10u").out.splitlines()
    assert any(line.split()[:2] == ["lengths.minor", "1:30"] for line in lines)
    assert lines[-1] == DECIDES
    answer = rinkfold("rules", "show", "youth-10u", "--json").answer
    assert set(answer) == {"rinkfold", "name", "title", "applied", "knobs", "infractions", "note"}
    assert list(answer["knobs"]) == list(KNOBS)
    assert set(answer["knobs"]["lengths.minor"]) == {"value", "unit", "meaning", "source"}
    assert answer["knobs"]["lengths.minor"]["value"] == "1:30"
    assert all(knob["source"] for knob in answer["knobs"].values())


def test_a_league_of_ones_own(rinkfold: Any, tmp_path: Path) -> None:
    """A file is shown like a name, and a fault in it is told with file and key."""
    league = tmp_path / "our-league.toml"
    league.write_text('extends = "youth-12u"\n[lengths]\nminor = "1:30"\n', encoding="utf-8")
    assert rinkfold("rules", "show", league, "--json").answer["knobs"]["lengths.minor"]["value"] == "1:30"
    league.write_text('extends = "youth-12u"\n[lengths]\nminr = "1:30"\n', encoding="utf-8")
    ran = rinkfold("rules", "show", league)
    assert (ran.code, ran.out) == (2, "")
    assert str(league) in ran.err
    assert "lengths.minr" in ran.err


def test_a_name_that_nobody_knows(rinkfold: Any) -> None:
    """Exit code 2, and what was perhaps meant."""
    ran = rinkfold("rules", "show", "youth-11u")
    assert (ran.code, ran.out) == (2, "")
    assert "Did you mean" in ran.err


def league(tmp_path: Path, text: str) -> Path:
    """A league's own file."""
    path = tmp_path / "our-league.toml"
    path.write_text(text, encoding="utf-8")
    return path


RIGHT = 'title = "Ours"\nextends = "youth-12u"\n[lengths]\nminor = "1:30"\n[sources]\n"lengths.minor" = "by-law 7"\n'


def test_a_file_in_which_nothing_is_wrong(rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 0, what is applied, and who decides."""
    path = league(tmp_path, RIGHT)
    ran = rinkfold("rules", "check", path)
    applied = "minor 1:30 · period 15:00 · board counts down · overtime 5:00, 5 on 5"
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [f"{path}: nothing wrong with it.", applied, DECIDES]
    assert rinkfold("rules", "check", path, "--json").answer == {
        "rinkfold": 1,
        "ruleset": str(path),
        "applied": applied,
        "findings": [],
        "note": DECIDES,
    }


def test_everything_that_is_wrong_with_a_file(rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 1, each with its line, key, what was expected and what to write; nothing is applied."""
    path = league(tmp_path, 'extends = "youth-12u"\n[lengths]\nminr = "1:30"\nmajor = 5\n')
    ran = rinkfold("rules", "check", path)
    assert ran.code == 1
    assert ran.out.splitlines() == [
        f'{path}:3: lengths.minr: There is no such knob. Did you mean "lengths.minor"?',
        f'{path}:4: lengths.major: Expected a length as a reading such as "2:00", found 5. '
        'If minutes are meant, write "5:00".',
        "",
        f"{path}: 2 errors.",
        DECIDES,
    ]
    answer = rinkfold("rules", "check", path, "--json").answer
    assert answer["applied"] is None
    assert [(one["line"], one["field"], one["severity"]) for one in answer["findings"]] == [
        (3, "lengths.minr", "error"),
        (4, "lengths.major", "error"),
    ]
    assert set(answer["findings"][0]) == {"code", "severity", "file", "line", "field", "message", "fix"}


def test_odd_things_and_notes(rinkfold: Any, tmp_path: Path) -> None:
    """A warning is exit code 1, a note is not but under --strict."""
    odd = league(tmp_path, RIGHT.replace("1:30", "0:02"))
    ran = rinkfold("rules", "check", odd)
    assert ran.code == 1
    assert f"{odd}:4: warning: lengths.minor: 0:02 is very short" in ran.out
    assert f"{odd}: 1 warning." in ran.out
    noted = league(tmp_path, RIGHT.replace('title = "Ours"\n', ""))
    assert (rinkfold("rules", "check", noted).code, rinkfold("rules", "check", noted, "--strict").code) == (0, 1)


def test_a_file_that_cannot_be_checked(rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 2 and no answer."""
    for name in (tmp_path / "none.toml", tmp_path / "x" / "none.toml", "youth-11u"):
        ran = rinkfold("rules", "check", name)
        assert (ran.code, ran.out) == (2, "")
        assert ran.err
    assert rinkfold("rules", "check").code == 2


def test_what_two_rulesets_set_differently(rinkfold: Any, tmp_path: Path) -> None:
    """Each value with the source of its side; exit code 1."""
    path = league(tmp_path, RIGHT)
    ran = rinkfold("rules", "diff", "youth-12u", path)
    assert (ran.code, ran.err) == (1, "")
    assert ran.out.splitlines()[3:] == [
        "lengths.minor  A minor or bench minor.",
        "  youth-12u   2:00  common practice",
        "  our-league  1:30  by-law 7",
        "",
        "1 rule differs.",
        DECIDES,
    ]
    answer = rinkfold("rules", "diff", "youth-12u", path, "--json").answer
    assert set(answer) == {"rinkfold", "a", "b", "differences", "infractions", "note"}
    assert (answer["a"]["name"], answer["b"]["title"], set(answer["b"])) == (
        "youth-12u",
        "Ours",
        {"name", "title", "applied"},
    )
    assert answer["differences"] == [
        {
            "knob": "lengths.minor",
            "meaning": "A minor or bench minor.",
            "a": {"value": "2:00", "source": "common practice"},
            "b": {"value": "1:30", "source": "by-law 7"},
        }
    ]
    assert answer["infractions"] == {"a": [], "b": []}


def test_rulesets_that_are_the_same_and_nearly_so(rinkfold: Any) -> None:
    """Exit code 0 where nothing differs; words for infractions alone are a difference too."""
    same = rinkfold("rules", "diff", "adult", "adult")
    assert (same.code, same.out.splitlines()[-2]) == (0, "The same.")
    words = rinkfold("rules", "diff", "youth-12u", "youth-18u")
    assert words.code == 1
    assert "infractions offered by youth-12u alone: body checking" in words.out
    assert "The rules are the same; only the words for infractions differ." in words.out
    assert rinkfold("rules", "diff", "youth-12u", "youth-18u", "--json").answer["infractions"] == {
        "a": ["body checking"],
        "b": [],
    }


def test_two_of_which_one_is_wrong(rinkfold: Any, tmp_path: Path) -> None:
    """Exit code 2 and no answer."""
    for pair in (("adult", "adlut"), (league(tmp_path, "x = 1\n"), "adult"), ("adult",)):
        ran = rinkfold("rules", "diff", *pair)
        assert (ran.code, ran.out) == (2, "")
        assert ran.err


def test_a_broken_package_takes_the_others_not_down(
    rinkfold: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is told on standard error and left out, exit code 1."""
    shipped = rulesets.names()
    info = tmp_path / "tides-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: tides\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text("[rinkfold.rulesets]\ntides = no_such_module:X\n", encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    ran = rinkfold("rules", "list", "--json")
    assert ran.code == 1
    assert [one["name"] for one in ran.answer["rulesets"]] == list(shipped)
    assert 'The ruleset "tides" of an installed package (no_such_module:X) cannot be imported' in ran.err
    assert rinkfold("rules", "list").code == 1


def test_a_package_that_ends_the_program_does_not(
    rinkfold: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that calls `sys.exit` as it is imported is told like any other that is broken; the others stay usable."""
    info = tmp_path / "tides-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: tides\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text("[rinkfold.rulesets]\ntides = ending_module:X\n", encoding="utf-8")
    (tmp_path / "ending_module.py").write_text("import sys\n\nsys.exit(3)\n", encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    ran = rinkfold("rules", "list", "--json")
    assert ran.code == 1
    assert [one["name"] for one in ran.answer["rulesets"]] == list(rulesets.names())[:-1]
    assert "cannot be imported: SystemExit: 3" in ran.err
