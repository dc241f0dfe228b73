"""The page about seasons says what is so."""

from __future__ import annotations

import re
from pathlib import Path

from rinkfold.cli.group import program
from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.sheets import sheets
from rinkfold.cli.season.totals import Season, season_of

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "season.md").read_text(encoding="utf-8")


def test_the_tables_and_their_columns() -> None:
    """In the order in which they are written."""
    rows = re.findall(r"^\| `([a-z_]+)` \| [^|`]+ \| (`[^|]+) \|$|^\| `findings` \| .* \| (.*) \|$", PAGE, re.M)
    told = {name or "findings": re.findall(r"`([a-z_]+)`", columns or other) for name, columns, other in rows}
    made = {sheet.name: [column.name for column in sheet.columns] for sheet in sheets(Season(), names=True)}
    assert told == made
    assert list(told) == list(made)


def test_every_option_is_told() -> None:
    """And none that there is not."""
    command = program().get_command(None, "season")
    options = {name for parameter in command.params for name in parameter.opts if name.startswith("--")} - {"--help"}
    assert set(re.findall(r"^\| `(--[a-z-]+)[ `]", PAGE, re.M)) == options


def test_the_program_shown_works(tiny: Path) -> None:
    """Larks won three of their four games."""
    shown = re.findall(r"^```python\n(.*?)^```$", PAGE, re.M | re.S)[0]
    assert "season_of(game_row(path) for path in paths)" in shown
    known = {"paths": sorted(tiny.glob("game-?.jsonl"))}
    exec(shown, known)
    season = season_of(game_row(path) for path in known["paths"])
    assert season.teams["River league", "Elmside Larks"].wins == 3


def test_the_page_says_who_decides() -> None:
    """The league's own rules and the officials on the ice do."""
    assert "The league's own rules and the\nofficials on the ice decide" in PAGE
