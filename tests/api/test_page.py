"""docs/api.md documents what is public, all of it and nothing else."""

from __future__ import annotations

import re

from .reference import MARK, PAGE, page
from .surface import INNER, SEASON, public

TEXT = PAGE.read_text(encoding="utf-8")


def test_every_public_name_has_its_entry_and_no_other() -> None:
    """Whoever looks a name up finds it, and what is documented is there."""
    documented = re.findall(r"^### `(\w+)`$", TEXT.partition(MARK)[2], flags=re.MULTILINE)
    assert documented == [*(each.name for each in public()), *SEASON]


def test_the_reference_is_what_the_docstrings_say() -> None:
    """The part below the mark is made by `python -m tests.api.reference`; run it after changing a docstring."""
    assert page() == TEXT


def test_what_the_ten_minutes_import_is_public() -> None:
    """The way that the page shows needs no name that is not promised."""
    names = {each.name for each in public()} | {"rulesets"}
    imported = re.findall(r"^>>> from (rinkfold[\w.]*) import (.+)$", TEXT.partition(MARK)[0], flags=re.MULTILINE)
    assert imported
    for package, listed in imported:
        assert package in ("rinkfold", "rinkfold.timeline", "rinkfold.rulesets")
        assert set(listed.split(", ")) <= names


def test_what_is_not_promised_is_named() -> None:
    """docs/stability.md names what can be reached and is the engine's own, and the two functions of the season."""
    stable = (PAGE.parent / "stability.md").read_text(encoding="utf-8")
    named = {name.replace("parse_log.formats", "formats") for name in INNER} | set(SEASON)
    assert {name for name in named if f"`{name}`" not in stable} == set()
