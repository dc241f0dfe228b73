"""What git tracks of this checkout, and copies of it to build from."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE_FOLDERS = ("timeline", "rulesets", "cli")
SHIPPED_AT_THE_TOP = ("__init__.py", "py.typed")
SHIPPED_EXAMPLES = ("game.jsonl", "telling-moments.toml")

ONLY_IN_A_CHECKOUT = pytest.mark.skipif(
    not (ROOT / ".git").exists(), reason="what is built is compared with what git tracks, and this is no checkout"
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
        return rest in SHIPPED_EXAMPLES
    return folder in PACKAGE_FOLDERS


def copy_of_the_checkout(target: Path) -> Path:
    """Copy the tracked files, so that neither leftovers of an earlier build nor untracked files reach the wheel."""
    for name in tracked_files():
        (target / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, target / name)
    return target
