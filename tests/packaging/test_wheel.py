"""The package list in pyproject.toml is written by hand: what it forgets is missing from the wheel alone."""

import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE_FOLDERS = ("timeline", "rulesets", "cli")
SHIPPED_AT_THE_TOP = ("__init__.py", "py.typed")
LARGEST = 600_000
"""Bytes of the wheel."""
SHIPPED_EXAMPLES = (".jsonl", ".toml")

pytestmark = pytest.mark.skipif(
    not (ROOT / ".git").exists(), reason="the wheel is compared with what git tracks, and this is no checkout"
)


def tracked_files() -> list[str]:
    """Every file git tracks that is there, relative to the root, links left out."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True).stdout
    paths = [name for name in listed.split("\0") if name]
    return [name for name in paths if (ROOT / name).is_file() and not (ROOT / name).is_symlink()]


def ships(name: str) -> bool:
    """Whether a tracked file belongs in the wheel."""
    folder, _, rest = name.partition("/")
    if not rest:
        return name in SHIPPED_AT_THE_TOP
    if folder == "examples":
        return "/" not in rest and Path(name).suffix in SHIPPED_EXAMPLES
    return folder in PACKAGE_FOLDERS


def copy_of_the_checkout(target: Path) -> Path:
    """Copy the tracked files, so that neither leftovers of an earlier build nor untracked files reach the wheel."""
    for name in tracked_files():
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, target / name)
    return target


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
