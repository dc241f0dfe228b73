"""Every example in a docstring of the engine and of the rulesets, and every one on the API's page, is executed."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
import shutil
from pathlib import Path
from types import ModuleType

import pytest

import rinkfold.rulesets
import rinkfold.timeline

from .surface import public

ROOT = Path(__file__).resolve().parents[2]
PAGES = ["docs/api.md", *(f"examples/{name}/README.md" for name in ("web_app", "notebook", "cluster"))]


def modules() -> list[ModuleType]:
    """Every module of the two packages that has examples."""
    packages = (rinkfold.timeline, rinkfold.rulesets)
    names = [info.name for p in packages for info in pkgutil.walk_packages(p.__path__, f"{p.__name__}.")]
    loaded = [importlib.import_module(name) for name in names]
    return [module for module in loaded if any(test.examples for test in doctest.DocTestFinder().find(module))]


def test_there_are_examples() -> None:
    """They are found: those of clock, live game and rulesets among them."""
    names = {module.__name__ for module in modules()}
    assert {"rinkfold.timeline.clock", "rinkfold.timeline.live", "rinkfold.rulesets.library"} <= names


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.__name__.partition(".")[2])
def test_examples_in_docstrings_are_right(module: ModuleType) -> None:
    """What an example shows is what it gives."""
    assert doctest.testmod(module).failed == 0


@pytest.mark.parametrize("page", [name for name in PAGES if ">>> " in (ROOT / name).read_text(encoding="utf-8")])
def test_examples_on_pages_are_right(page: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same on a page, tried in a folder that holds the examples."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    known = {each.name: each.value for each in public()}  # examples of the reference do not import what they are about
    failed, tried = doctest.testfile(str(ROOT / page), module_relative=False, encoding="utf-8", globs=known)
    assert tried > 0
    assert failed == 0
