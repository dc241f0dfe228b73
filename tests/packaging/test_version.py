"""The version stands in one place."""

import re
import tomllib
from importlib.metadata import version
from pathlib import Path

import pytest

import rinkfold
from rinkfold.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def test_it_is_told_as_the_installed_package_says_it(capsys: pytest.CaptureFixture[str]) -> None:
    """`rinkfold --version`, `rinkfold.__version__` and the metadata are one, and that of pyproject.toml."""
    with pytest.raises(SystemExit) as end:
        app(["--version"])
    assert end.value.code == 0
    assert capsys.readouterr().out == f"rinkfold {PROJECT['version']}\n"
    assert rinkfold.__version__ == version("rinkfold") == PROJECT["version"]


def test_an_unknown_attribute_is_refused() -> None:
    """Looking the version up late does not make other names appear."""
    assert not hasattr(rinkfold, "no_such_name")


def test_the_changes_speak_of_it() -> None:
    """The newest heading of CHANGELOG.md is of the version that is built."""
    changelog = ROOT / "CHANGELOG.md"
    if not changelog.exists():
        pytest.skip("CHANGELOG.md is not here: this is no checkout")
    headings = re.findall(r"^## (\d+\.\d+\.\d+)", changelog.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert headings[0] == PROJECT["version"]


def test_the_supported_pythons_are_named() -> None:
    """The classifiers name 3.11 to 3.14, and the oldest of them is the least that is asked for."""
    named = re.findall(r"Python :: (3\.\d+)$", "\n".join(PROJECT["classifiers"]), flags=re.MULTILINE)
    assert named == ["3.11", "3.12", "3.13", "3.14"]
    assert PROJECT["requires-python"] == f">={named[0]}"
