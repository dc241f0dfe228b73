"""The command: what it writes, and what it refuses to touch."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from report.conftest import Run


def test_it_says_what_it_wrote_and_whose_rules(run: Run, example: Path, tmp_path: Path) -> None:
    code, said = run("report", example, "-o", tmp_path / "game.html")
    assert code == 0
    assert "head code 757b-0390-4a1f-2608" in said
    assert "The league's own rules and the officials on the ice decide." in said
    assert [path.name for path in tmp_path.iterdir()] == ["game.html"]


def test_a_file_that_is_there_is_kept_without_force(run: Run, example: Path, tmp_path: Path) -> None:
    target = tmp_path / "game.html"
    target.write_text("mine", encoding="utf-8")
    code, said = run("report", example, "-o", target)
    assert (code, target.read_text(encoding="utf-8")) == (2, "mine")
    assert "--force" in said
    assert run("report", example, "-o", target, "--force")[0] == 0
    assert target.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_the_log_itself_is_never_overwritten(run: Run, example: Path, tmp_path: Path) -> None:
    """Not even one that is called like a page."""
    log = Path(shutil.copy(example, tmp_path / "log.html"))
    code, said = run("report", log, "-o", log, "--force")
    assert code == 2
    assert "is the log itself" in said
    assert log.read_bytes() == example.read_bytes()


@pytest.mark.parametrize("target", ["game.txt", "game", "no/such/folder/game.html", "folder.html"])
def test_a_target_that_cannot_be_is_refused(run: Run, example: Path, tmp_path: Path, target: str) -> None:
    (tmp_path / "folder.html").mkdir()
    code, said = run("report", example, "-o", tmp_path / target, "--force")
    assert code == 2
    assert "Traceback" not in said
    assert [path.name for path in tmp_path.iterdir()] == ["folder.html"]


def test_a_broken_log_writes_nothing(run: Run, tmp_path: Path) -> None:
    broken = tmp_path / "broken.jsonl"
    broken.write_text("{\n", encoding="utf-8")
    assert run("report", broken, "-o", tmp_path / "game.html")[0] == 2
    assert not (tmp_path / "game.html").exists()


def test_without_weasyprint_a_pdf_is_refused_with_what_to_do(
    run: Run, example: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    code, said = run("report", example, "-o", tmp_path / "game.pdf")
    assert code == 2
    assert "open that in a browser and print it" in said
    assert list(tmp_path.iterdir()) == []


def test_other_commands_do_not_import_the_template_library(example: Path) -> None:
    """It is paid for only by those who want a page."""
    asked = f"""
import sys
from rinkfold.cli.main import app
try:
    app(["summary", {str(example)!r}])
except SystemExit as end:
    sys.exit(end.code or ("jinja2" in sys.modules and 9))
"""
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
