"""The page of problems has every code that the sources write, and no other."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from problems.codes import codes_in, found_in, passed_on

from rinkfold.cli.roster_file import VALUES

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "problems.md").read_text(encoding="utf-8")
PACKAGES = ("timeline", "rulesets", "cli")
PASSED_ON = {
    "timeline/knobs/values.py: code",
    "timeline/record/checks.py: code",
    "timeline/record/faults.py: error.code",
    "timeline/record/files.py: code",
    "timeline/record/sequence.py: code",
    "timeline/views/findings/finding.py: self.code",
    "rulesets/oddities.py: code",
    "cli/entries/parse.py: wrong.code",
    "cli/entries/values.py: code",
    "cli/errors.py: code",
    "cli/interchange/csv_text.py: code",
    "cli/live/entering.py: problem.code",
    "cli/live/opening.py: problem.code",
    "cli/roster_file.py: code",
    "cli/typed_door.py: one.code",
    "cli/roster_file.py: f'roster_{field}'",
}
"""Where a code is handed on; that it is found where it is written was looked at by hand."""


def on_page() -> list[str]:
    rows = re.findall(r"^\| (`.*?`) \|", PAGE, flags=re.MULTILINE)
    return [code for row in rows for code in re.findall(r"`(\w+)`", row)]


def written() -> set[str]:
    """Every code in the sources; those of rosters are made of the heads of their columns."""
    found = {code for package in PACKAGES for code in found_in(package)}
    return found | {f"roster_{column}" for column in ("number", *VALUES)}


def test_the_page_has_every_code_and_no_other() -> None:
    """None is forgotten, none stands there that nothing tells any more, and each stands there once."""
    assert sorted(on_page()) == sorted(written())


def test_where_codes_are_passed_on_was_looked_at() -> None:
    """A new place whose code is no text of its own is noticed: look where it is written, and name it here."""
    assert {place for package in PACKAGES for place in passed_on(package)} - PASSED_ON == set()


@pytest.mark.parametrize(
    ("source", "codes"),
    [
        ('Problem(code="a", message="x")', ["a"]),
        ('Problem(code="a" if x else "b")', ["a", "b"]),
        ('raise WrongValue("a", "a string", value)', ["a"]),
        ('code, message = "a", "x"', ["a"]),
        ('def fail(expected, code="a"): ...', ["a"]),
        ('def fail(*, code="a"): ...', ["a"]),
        ('def _reason(error):\n    return "a", "x"', ["a"]),
        ('Refusal(400, "x", code="no problem")', []),
        ("Problem(code=code)", []),
    ],
)
def test_codes_are_found(source: str, codes: list[str]) -> None:
    """In each of the forms in which the sources write them."""
    assert list(codes_in(ast.parse(source))) == codes


def test_the_page_is_found() -> None:
    """From the README, from the log's format and from what is stable."""
    for name in ("README.md", "docs/log-format.md", "docs/stability.md"):
        assert "problems.md)" in (ROOT / name).read_text(encoding="utf-8"), name
