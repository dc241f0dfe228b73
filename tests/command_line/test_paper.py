"""How answers reach a terminal, a pipe, an old code page, and a reader who has gone."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from rinkfold.cli import paper

ROOT = Path(__file__).resolve().parents[2]


class Terminal(io.StringIO):
    """A stream that is a terminal."""

    def isatty(self) -> bool:
        return True


def test_colour_and_rules_only_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """A pipe gets plain text; NO_COLOR and a dumb terminal get no colour."""
    for name in ("NO_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("WT_SESSION", "1")
    assert paper.style_of(Terminal()) == paper.Style(colour=True, rules=True)
    assert paper.style_of(io.StringIO()) == paper.Style()
    monkeypatch.setenv("NO_COLOR", "1")
    assert paper.style_of(Terminal()) == paper.Style(rules=True)
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "dumb")
    assert paper.style_of(Terminal()) == paper.Style(rules=True)


def test_headings() -> None:
    """Set off by colour and a line where the terminal has them."""
    assert paper.Style().ruled("Goals") == ["Goals"]
    assert paper.Style(colour=True, rules=True).ruled("Goals") == ["\x1b[1mGoals\x1b[0m", "─────"]


@pytest.mark.parametrize(("encoding", "shown"), [("cp437", "→ · ─".encode("ascii", "replace")), ("ascii", b"-> - -")])
def test_an_old_code_page_gets_plain_characters(encoding: str, shown: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the stream's encoding has not is written plainly, and never an error."""
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding=encoding, newline="\n"))
    paper.say(["out at 7:15 → home 4 on 5 · ─ Jörg 雪"])
    written = raw.getvalue().decode(encoding)
    assert written.startswith("out at 7:15 -> home 4 on 5 - - J")
    assert shown
    assert written.endswith(" ?\n")


def test_utf8_is_left_as_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    """Every character of our own texts has a plain form, and none is needed here."""
    paper.say(["→ · – … ─ Jörg"])
    assert capsys.readouterr().out == "→ · – … ─ Jörg\n"
    assert all(text.isascii() for text in paper.PLAIN.values())


def test_json_is_ascii(capsys: pytest.CaptureFixture[str]) -> None:
    """The same under every code page."""
    paper.say_json({"name": "Jörg"})
    assert capsys.readouterr().out == '{\n  "name": "J\\u00f6rg"\n}\n'


def test_a_closed_pipe_is_silent() -> None:
    """The reader takes one line and goes; nothing is said about it, and the command ends as it would have."""
    code = (
        "import sys\n"
        "from rinkfold.cli.main import app\n"
        "sys.stdin.read()\n"
        "app(['strength', 'examples/game.jsonl', '--every-second', '--json'])\n"
    )
    pipes: dict[str, Any] = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen([sys.executable, "-c", code], cwd=ROOT, **pipes) as program:
        program.stdout.close()  # type: ignore[union-attr]
        program.stdin.close()  # type: ignore[union-attr]
        errors = program.stderr.read()  # type: ignore[union-attr]
    assert (program.returncode, errors) == (0, b"")


def test_no_output_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    """A program started without standard output says nothing and goes on."""
    monkeypatch.setattr(sys, "stdout", None)
    paper.say(["x"])
    assert paper.style_of() == paper.Style()
