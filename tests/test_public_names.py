"""What `rinkfold.timeline` offers."""

import subprocess
import sys

import rinkfold.timeline
from rinkfold.timeline import record

LIBRARIES = {"rinkfold", "attr", "attrs", "cattr", "cattrs", "filelock", "jinja2", "typer"}


def test_every_public_name_is_there() -> None:
    """Each name in `__all__` can be had, is not a module, and is sorted in its list as ruff sorts."""
    for package in (rinkfold.timeline, record):
        for name in package.__all__:
            assert type(getattr(package, name)).__name__ != "module", name
    assert len(set(rinkfold.timeline.__all__)) == len(rinkfold.timeline.__all__)


def test_an_unknown_name_is_refused() -> None:
    """A name that is not public is an AttributeError, as of any module."""
    assert not hasattr(rinkfold.timeline, "no_such_name")


def test_importing_the_package_imports_nothing_else() -> None:
    """A program pays for a name when it asks for it: neither attrs nor cattrs nor a module of the engine is loaded."""
    assert modules_after("import rinkfold.timeline, rinkfold") == []


def test_reading_and_replaying_imports_no_answers_and_nothing_that_writes() -> None:
    """Views, findings, the file's lock, the command line and the ruleset files are loaded when they are first used."""
    loaded = modules_after("from rinkfold.timeline import read_log, replay")
    assert "rinkfold.timeline.game" in loaded
    unused = ("timeline.views.", "timeline.record.writer", "rulesets", "cli")
    needless = [name for name in loaded if name.removeprefix("rinkfold.").startswith(unused)]
    assert needless == ["rinkfold.timeline.views.strength"]
    assert {"filelock", "jinja2", "typer"}.isdisjoint(loaded)


def modules_after(code: str) -> list[str]:
    """The modules of rinkfold and its libraries that a fresh process has loaded after `code`, the packages apart."""
    told = f"import sys; before = set(sys.modules); {code}; print(*sorted(set(sys.modules) - before))"
    ran = subprocess.run([sys.executable, "-c", told], check=True, capture_output=True, text=True)
    own = {"rinkfold", "rinkfold.timeline"}
    return [name for name in ran.stdout.split() if name not in own and name.split(".")[0] in LIBRARIES]
