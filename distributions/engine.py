"""Build `rinkfold-engine`: the engine and its rulesets by themselves, for programs that bring a face of their own.

Usage: python distributions/engine.py [OUTDIR]

The same modules under the same names as in `rinkfold`, without the command line, the live page and what only they need.
Version, Pythons, licence, packages and the bounds of dependencies are those of `pyproject.toml` in the root.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
PARTS = ("timeline", "rulesets")
FILES = ("__init__.py", "py.typed", "LICENSE")
DEPENDENCIES = ("attrs", "cattrs", "filelock")
DESCRIPTION = "The replay engine of rinkfold by itself, for programs that bring a face of their own."


def main(outdir: Path) -> int:
    """Build sdist and wheel into `outdir`; the exit code of `build`."""
    with tempfile.TemporaryDirectory() as scratch:
        source = Path(scratch)
        gather(source)
        command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(outdir.resolve()), str(source)]
        return subprocess.run(command, cwd=scratch).returncode


def gather(source: Path) -> None:
    """Copy what the engine is made of, beside a `pyproject.toml` of its own."""
    whole = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    for part in PARTS:
        shutil.copytree(ROOT / part, source / part, ignore=shutil.ignore_patterns("__pycache__"))
    for name in FILES:
        shutil.copy(ROOT / name, source / name)
    shutil.copy(ROOT / "distributions" / "engine.md", source / "README.md")
    (source / "pyproject.toml").write_text(described(whole), encoding="utf-8")


def described(whole: dict[str, Any]) -> str:
    """The engine's `pyproject.toml`, from the parsed one of the whole.

    Texts and lists of texts are written as JSON, which TOML reads as the same.
    """
    project, setup = whole["project"], whole["tool"]["setuptools"]
    kept = {name: project[name] for name in ("version", "requires-python", "classifiers", "license", "license-files")}
    table = {
        "name": "rinkfold-engine",
        "description": DESCRIPTION,
        "readme": "README.md",
        **kept,
        "dependencies": [line for line in project["dependencies"] if line.split(">=")[0] in DEPENDENCIES],
    }
    packages = [name for name in setup["packages"] if name == "rinkfold" or name.split(".")[1] in PARTS]
    return "\n".join(
        [
            *_table("build-system", whole["build-system"]),
            *_table("project", table),
            *_table("tool.setuptools", {"packages": packages, "include-package-data": False}),
            *_table("tool.setuptools.package-dir", setup["package-dir"]),
            *_table(
                "tool.setuptools.package-data",
                {"rinkfold": ["py.typed"], "rinkfold.rulesets": setup["package-data"]["rinkfold.rulesets"]},
            ),
        ]
    )


def _table(name: str, values: dict[str, Any]) -> list[str]:
    return [f"[{name}]", *(f"{json.dumps(key)} = {json.dumps(value)}" for key, value in values.items()), ""]


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1] if len(sys.argv) > 1 else "dist")))
