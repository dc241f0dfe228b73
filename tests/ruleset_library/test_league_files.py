"""A league's own file, and what installed packages offer."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from rinkfold import rulesets
from rinkfold.timeline.problems import ProblemsFound

LEAGUE = """
title = "Northern Lakes league, under 10"
extends = "youth-10u"
infractions = ["tripping", "body checking"]

[lengths]
minor = "1:00"
major = "3:00"

[game.running_clock]
starts_at_lead = 5

[sources]
"lengths.minor" = "our by-laws, 7"
"""


@pytest.fixture
def league(tmp_path: Path) -> Path:
    path = tmp_path / "northern-lakes.toml"
    path.write_text(LEAGUE, encoding="utf-8")
    return path


def test_a_league_says_only_what_differs(league: Path) -> None:
    """The rest comes from what the file extends."""
    rules = rulesets.load(league)
    assert rulesets.diff(rulesets.load("youth-10u"), rules) == (
        ("game.running_clock.starts_at_lead", 0, 5),
        ("lengths.minor", "1:30", "1:00"),
        ("lengths.major", "5:00", "3:00"),
    )
    assert (rules.name, rules.title) == ("northern-lakes", "Northern Lakes league, under 10")
    assert rules.infractions == ("tripping", "body checking")


def test_a_source_is_inherited_with_its_value_and_not_without(league: Path) -> None:
    """A restated value has the source given with it, or the league's file; an inherited one keeps what it had."""
    sources = rulesets.load(league).sources
    assert sources["lengths.minor"] == "our by-laws, 7"
    assert sources["lengths.major"] == "the league's file northern-lakes.toml"
    assert sources["lengths.match"] == rulesets.load("youth-10u").sources["lengths.match"]


def test_a_file_extends_another_by_a_path_from_its_own_folder(league: Path, tmp_path: Path) -> None:
    """The path is relative to the file that says it, wherever the program was started."""
    cup = tmp_path / "cups" / "spring-cup.toml"
    cup.parent.mkdir()
    cup.write_text('extends = "../northern-lakes.toml"\n[game]\ntimeouts = 0\nclock = "running"\n', encoding="utf-8")
    assert league.exists()
    rules = rulesets.load(os.fspath(cup))
    assert (rules.game.timeouts, rules.lengths.minor, rules.lengths.misconduct) == (0, 600, 6000)
    assert rules.sources["lengths.minor"] == "our by-laws, 7"
    assert (rules.name, rules.title) == ("spring-cup", "spring-cup")


def test_a_file_that_extends_nothing_has_the_engines_own_values(tmp_path: Path) -> None:
    """What it does not set is said not to be set."""
    path = tmp_path / "bare.toml"
    path.write_text('[lengths]\nminor = "1:00"\n', encoding="utf-8")
    rules = rulesets.load(path)
    assert (rules.lengths.minor, rules.lengths.major) == (600, 3000)
    assert rules.sources["lengths.major"] == "not set: the engine's own value"


@pytest.mark.parametrize("raw", [b"\xef\xbb\xbf", b""], ids=["with a byte order mark", "without"])
def test_files_as_windows_editors_write_them_are_read(raw: bytes, tmp_path: Path) -> None:
    """A byte order mark and CR LF do no harm."""
    path = tmp_path / "bare.toml"
    path.write_bytes(raw + b'extends = "adult"\r\n[lengths]\r\nminor = "1:00"\r\n')
    assert rulesets.load(path).lengths.minor == 600


def test_sources_may_be_written_without_quotation_marks(tmp_path: Path) -> None:
    """A dotted key without them makes tables in TOML; here it means the same."""
    path = tmp_path / "bare.toml"
    path.write_text('[lengths]\nminor = "1:00"\n[sources]\nlengths.minor = "by-law 3"\n', encoding="utf-8")
    assert rulesets.load(path).sources["lengths.minor"] == "by-law 3"


def install(folder: Path, entry: str, module: str = "") -> None:
    """Put a package with one entry point on the path that starts at `folder`."""
    info = folder / "northern_lakes-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: northern-lakes\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[rinkfold.rulesets]\n{entry}\n", encoding="utf-8")
    (folder / "northern_lakes_rules.py").write_text(module, encoding="utf-8")


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that Python imports from."""
    folder = tmp_path / "site"
    folder.mkdir()
    monkeypatch.syspath_prepend(folder)
    monkeypatch.delitem(sys.modules, "northern_lakes_rules", raising=False)
    return folder


def test_an_installed_package_adds_a_file(site: Path, league: Path) -> None:
    """An entry point can stand for the path of a ruleset file; its name is what the ruleset is called."""
    install(site, "lakes-10u = northern_lakes_rules:FILE", f"FILE = {os.fspath(league)!r}\n")
    rules = rulesets.load("lakes-10u")
    assert (rules.name, rules.lengths.minor) == ("lakes-10u", 600)
    assert rulesets.names()[-1] == "lakes-10u"


def test_an_installed_package_adds_a_ready_ruleset(site: Path) -> None:
    """An entry point can stand for a ruleset made in Python, and a league's file can extend it."""
    made = "RULES = Ruleset(name='lakes', lengths=Lengths(minor=600))"
    module = f"from rinkfold.timeline.rules import Lengths, Ruleset\n{made}\n"
    install(site, "lakes = northern_lakes_rules:RULES", module)
    assert rulesets.load("lakes").lengths.minor == 600
    own = site / "our-cup.toml"
    own.write_text('extends = "lakes"\n', encoding="utf-8")
    assert rulesets.load(own).lengths.minor == 600
    assert rulesets.check("lakes") == ()


def test_a_ready_ruleset_goes_by_the_name_under_which_it_is_found(site: Path) -> None:
    """A log that names it can be read again; a value that the package gives no source for says so."""
    module = (
        "from rinkfold.timeline.rules import Lengths, Ruleset\n"
        "RULES = Ruleset(lengths=Lengths(minor=600), sources={'lengths.minor': 'by-law 3'})\n"
    )
    install(site, "lakes = northern_lakes_rules:RULES", module)
    rules = rulesets.load("lakes")
    assert rules.name == "lakes"
    assert rules.sources["lengths.minor"] == "by-law 3"
    assert rules.sources["lengths.major"] == "not said by the package (northern_lakes_rules:RULES)"


@pytest.mark.parametrize(
    ("module", "why"),
    [
        ("1 / 0", "cannot be imported: ZeroDivisionError: division by zero"),
        ("import sys; sys.exit(3)", "cannot be imported: SystemExit: 3"),
        ("RULES = 7", "is a int"),
    ],
)
def test_a_broken_package_is_named(site: Path, module: str, why: str) -> None:
    """No traceback of somebody else's package reaches the table."""
    install(site, "lakes = northern_lakes_rules:RULES", module)
    with pytest.raises(ProblemsFound) as caught:
        rulesets.load("lakes")
    assert str(caught.value) == (
        f'ruleset: The ruleset "lakes" of an installed package (northern_lakes_rules:RULES) {why}. '
        "Expected a Ruleset or the path of a ruleset file; tell its author, or uninstall it (group rinkfold.rulesets)."
    )


def test_a_ready_ruleset_is_checked_like_a_file(site: Path) -> None:
    """Values that no file could have are told with the package that offers them; `check` tells the same."""
    module = (
        "from rinkfold.timeline.rules import Ejection, Lengths, Ruleset\n"
        "RULES = Ruleset(lengths=Lengths(minor='1:30'), ejection=Ejection(major='fourth'))\n"
    )
    install(site, "lakes = northern_lakes_rules:RULES", module)
    for ask in (rulesets.load, rulesets.check):
        with pytest.raises(ProblemsFound) as caught:
            ask("lakes")
        assert [(problem.file, problem.code, problem.field) for problem in caught.value.problems] == [
            ("lakes (northern_lakes_rules:RULES)", "wrong_type", "lengths.minor"),
            ("lakes (northern_lakes_rules:RULES)", "unknown_value", "ejection.major"),
        ]
        assert caught.value.problems[0].fix == "Write 900."


def test_what_is_shipped_needs_no_look_at_installed_packages() -> None:
    """The import adds nothing to what the engine imports, and a shipped name does not pay for what only others need."""
    code = """
import sys, rinkfold.timeline.game
before = set(sys.modules)
import rinkfold.rulesets
print(sorted(name for name in set(sys.modules) - before if not name.startswith("rinkfold.")))
rinkfold.rulesets.load("adult")
print("tomllib" in sys.modules, "importlib.metadata" in sys.modules)
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == ["[]", "True False"]
