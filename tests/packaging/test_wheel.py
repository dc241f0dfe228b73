"""The package list in pyproject.toml is written by hand: what it forgets is missing from the wheel alone."""

import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest
from checkout import ONLY_IN_A_CHECKOUT, ROOT, copy_of_the_checkout, ships, tracked_files

LARGEST = 620_000
"""Bytes of the wheel."""

pytestmark = ONLY_IN_A_CHECKOUT


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the sdist, and the wheel made from it."""
    source = copy_of_the_checkout(tmp_path_factory.mktemp("source"))
    out = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out), str(source)]
    run = subprocess.run(command, cwd=out, capture_output=True, text=True)
    assert run.returncode == 0, run.stdout + run.stderr
    return out


@pytest.fixture(scope="module")
def wheel(built: Path) -> zipfile.ZipFile:
    (path,) = built.glob("*.whl")
    return zipfile.ZipFile(path)


@pytest.fixture(scope="module")
def sdist(built: Path) -> set[str]:
    """The files in the sdist, without the folder that they are all in."""
    (path,) = built.glob("*.tar.gz")
    with tarfile.open(path) as archive:
        return {name.partition("/")[2] for name in archive.getnames()}


def test_the_wheel_holds_what_git_tracks_and_nothing_else(wheel: zipfile.ZipFile) -> None:
    """Every module and data file of the package is in the wheel, and no other file."""
    in_wheel = {name for name in wheel.namelist() if ".dist-info/" not in name}
    expected = {f"rinkfold/{name}" for name in tracked_files() if ships(name)}
    missing, unexpected = sorted(expected - in_wheel), sorted(in_wheel - expected)
    assert not missing, f"add their package or data pattern to pyproject.toml: {missing}"
    assert not unexpected, f"in the wheel, but not meant to be shipped: {unexpected}"
    assert "rinkfold/timeline/__init__.py" in in_wheel


def test_the_wheel_carries_its_licence_and_its_command(wheel: zipfile.ZipFile) -> None:
    """The licence text travels with the wheel, and installing it makes the command `rinkfold`."""
    names = wheel.namelist()
    assert any(name.endswith(".dist-info/licenses/LICENSE") for name in names)
    (entry_points,) = [name for name in names if name.endswith(".dist-info/entry_points.txt")]
    assert "rinkfold = rinkfold.cli.main:app" in wheel.read(entry_points).decode()


def test_the_wheel_is_small(wheel: zipfile.ZipFile) -> None:
    """It is fetched at rinks, over telephones: what it weighs (docs/performance.md) does not grow unseen."""
    assert wheel.filename is not None
    assert Path(wheel.filename).stat().st_size < LARGEST


def test_the_sdist_holds_what_builds_and_explains_it(sdist: set[str]) -> None:
    """What a wheel is made of; and the tests, the examples and the texts, so that it can be tested and read."""
    beside = {"pyproject.toml", "README.md", "LICENSE", "CHANGELOG.md", "DEVELOPERS.md", "constraints.txt"}
    folders = ("tests/", "docs/", "examples/")
    needed = {name for name in tracked_files() if ships(name) or name.startswith(folders)} | beside
    assert sorted(needed - sdist) == []


def test_the_package_list_names_no_folder_that_is_not_there() -> None:
    """Each package in pyproject.toml is a folder with an `__init__.py` that git tracks."""
    config = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    packages = set(config["tool"]["setuptools"]["packages"])
    inits = [name for name in tracked_files() if ships(name) and name.endswith("__init__.py")]
    found = {".".join(("rinkfold", *Path(name).parent.parts)) for name in inits}
    assert packages == found
