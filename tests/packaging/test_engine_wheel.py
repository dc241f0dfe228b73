"""`rinkfold-engine`: the same modules without the command line, small, and complete by themselves."""

from __future__ import annotations

import json
import subprocess
import sys
import sysconfig
import zipfile
from email import message_from_bytes
from pathlib import Path
from typing import Any

import pytest
from checkout import ONLY_IN_A_CHECKOUT, ROOT, copy_of_the_checkout, ships, tracked_files

LARGEST = 300_000
"""Bytes of the wheel."""

pytestmark = ONLY_IN_A_CHECKOUT


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the engine's wheel."""
    source = copy_of_the_checkout(tmp_path_factory.mktemp("source"))
    out = tmp_path_factory.mktemp("dist")
    command = [sys.executable, str(source / "distributions" / "engine.py"), str(out)]
    run = subprocess.run(command, cwd=out, capture_output=True, text=True)
    assert run.returncode == 0, run.stdout + run.stderr
    return out


@pytest.fixture(scope="module")
def wheel(built: Path) -> Path:
    (path,) = built.glob("rinkfold_engine-*.whl")
    return path


@pytest.fixture(scope="module")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel as an installation lays it out."""
    target = tmp_path_factory.mktemp("installed")
    zipfile.ZipFile(wheel).extractall(target)
    return target


def test_it_is_small(wheel: Path) -> None:
    """Under 300 kB (docs/performance.md): what embeds the engine carries nothing else along."""
    assert wheel.stat().st_size < LARGEST


def test_it_holds_the_engine_and_the_rulesets_and_nothing_else(wheel: Path) -> None:
    """Every module and data file of the two, byte for byte, and none of the command line."""
    archive = zipfile.ZipFile(wheel)
    held = {name: archive.read(name) for name in archive.namelist() if ".dist-info/" not in name}
    expected = [name for name in tracked_files() if ships(name) and not name.startswith(("cli/", "examples/"))]
    assert held == {f"rinkfold/{name}": (ROOT / name).read_bytes() for name in expected}


def test_it_depends_on_what_it_imports(unpacked: Path) -> None:
    """Everything public is imported, a game written and replayed, and nothing else was needed than what it names."""
    (metadata,) = unpacked.glob("*.dist-info/METADATA")
    required = message_from_bytes(metadata.read_bytes()).get_all("Requires-Dist") or []
    assert sorted(line.split(">=")[0] for line in required) == ["attrs", "cattrs", "filelock"]
    answer = _alone(unpacked, PROGRAM, str(ROOT / "examples" / "game.jsonl"))
    assert (answer["strength"], answer["kept"]) == ([5, 3], "Kept.")
    assert answer["from"] == str(unpacked / "rinkfold" / "__init__.py")
    assert answer["beside"] == ["attr", "attrs", "cattrs", "filelock", "typing_extensions"]  # the last for cattrs


def test_it_says_its_own_version(unpacked: Path) -> None:
    """`rinkfold.__version__` is that of the distribution that brought it, the same number as that of the whole."""
    version = _alone(unpacked, "import json, rinkfold; print(json.dumps(rinkfold.__version__))")
    (folder,) = unpacked.glob("*.dist-info")
    assert folder.name == f"rinkfold_engine-{version}.dist-info"
    assert f'\nversion = "{version}"\n' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")


PROGRAM = """
import json, sys
from pathlib import Path
import rinkfold
from rinkfold import rulesets, timeline

for module in (timeline, rulesets):
    for name in module.__all__:
        getattr(module, name)
game = Path("game.jsonl")
game.write_bytes(Path(sys.argv[1]).read_bytes())
timeline.append(game, [timeline.Remark(seq=1, text="Kept.")])
log = timeline.read_log(game)
strength = timeline.replay(log, rulesets.of(log)).at("2 6:30").strength
roots = {name.partition(".")[0] for name in sys.modules} - set(sys.stdlib_module_names) - {"rinkfold", "__main__"}
beside = sorted(name for name in roots if not name.startswith("_"))
kept = log.events[-1].text
answer = {"strength": [strength.home, strength.away], "kept": kept, "from": rinkfold.__file__, "beside": beside}
print(json.dumps(answer))
"""


def _alone(unpacked: Path, program: str, *arguments: str) -> Any:
    """What a program prints as JSON whose only installation of rinkfold is this one."""
    # -I and -S: neither the folder nor what the environment has installed in place gets onto the path
    places = [str(unpacked), sysconfig.get_path("purelib")]
    command = [sys.executable, "-I", "-S", "-c", f"import sys; sys.path += {places}\n{program}", *arguments]
    run = subprocess.run(command, capture_output=True, text=True, cwd=unpacked)
    assert run.returncode == 0, run.stderr
    return json.loads(run.stdout)
