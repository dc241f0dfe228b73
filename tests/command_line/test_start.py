"""Starting quickly: only what the command needs is imported."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
IMPORTED = """
import json, sys
from rinkfold.cli.main import app
try:
    app(["box", "examples/game.jsonl", "--at", "2 7:42"])
except SystemExit as end:
    print(json.dumps([end.code, sorted(sys.modules)]), file=sys.stderr)
"""


def test_a_command_imports_what_it_needs_and_no_other_command() -> None:
    """No other command, no entries, nothing that draws help in colour, no checker of arguments."""
    program = subprocess.run([sys.executable, "-c", IMPORTED], cwd=ROOT, capture_output=True, text=True, check=True)
    code, modules = json.loads(program.stderr)
    assert code == 0
    commands = [name for name in modules if name.startswith("rinkfold.cli.commands.")]
    assert commands == ["rinkfold.cli.commands.box"]
    unwanted = ("rinkfold.cli.entries", "rinkfold.cli.effects", "rinkfold.cli.answers.summary", "rich", "pydantic")
    assert [name for name in modules if name.startswith(unwanted)] == []
