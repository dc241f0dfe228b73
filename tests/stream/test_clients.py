"""The clients in examples/stream: each does what its README shows."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from stream.talking import ROOT

FOLDER = ROOT / "examples" / "stream"
RINKFOLD = (sys.executable, "-m", "rinkfold.cli.main")


def needed(*programs: str) -> pytest.MarkDecorator:
    """Left out where a program is not there; .ci/full installs them, and fails where a test is left out."""
    missing = [program for program in programs if shutil.which(program) is None]
    return pytest.mark.skipif(bool(missing), reason=f"needs {' and '.join(programs)}: apt-get install nodejs jq")


def shown(readme: Path) -> str:
    """What the README shows below its command."""
    block = readme.read_text(encoding="utf-8").partition("```console\n")[2].partition("```")[0]
    return block.partition("\n")[2]


def ran(*command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, encoding="utf-8", timeout=60)


@needed("node")
def test_the_client_for_node() -> None:
    """Word for word, the slip in it included, and exit code 0."""
    folder = FOLDER / "javascript"
    run = ran("node", "scoreboard.mjs", *RINKFOLD, folder=folder)
    assert (run.stdout, run.stderr, run.returncode) == (shown(folder / "README.md"), "", 0)


@needed("node")
def test_the_client_for_node_without_the_program() -> None:
    """It says so and ends; nobody waits for an answer that cannot come."""
    run = ran("node", "scoreboard.mjs", "./no-such-program", folder=FOLDER / "javascript")
    assert (run.stdout, run.returncode) == ("", 2)
    assert run.stderr.startswith("rinkfold could not be asked: ")
    assert len(run.stderr.splitlines()) == 1


HARD = """
import { Refused, Rinkfold } from './rinkfold.mjs'
const game = new Rinkfold({ command: process.argv.slice(2), log: process.env.LOG })
const header = { kind: 'game_opened', format: 1, game: 'g', ruleset: 'adult', home: { name: 'A' }, away: { name: 'B' } }
const first = await game.send(header)
const many = await Promise.all(Array.from({ length: 2000 }, (_, n) => game.send({ kind: 'remark', text: `${n}` })))
const inOrder = many.every((answer, n) => answer.event.text === `${n}` && answer.seq === n + 2)
let refused = 0
for (const line of [{ kind: 'gaol' }, header, { ask: 'x' }]) {
  try { await game.send(line) } catch (error) { refused += error instanceof Refused && error.problems.length }
}
const code = await game.end()
let after = ''
try { await game.send(header) } catch (error) { after = error.message }
console.log(JSON.stringify([first.seq, inOrder, refused, code, after]))
"""


@needed("node")
def test_the_client_for_node_under_load(tmp_path: Path) -> None:
    """Two thousand lines sent at once come back in order; what is refused throws; after the end nothing hangs."""
    shutil.copy(FOLDER / "javascript" / "rinkfold.mjs", tmp_path)
    (tmp_path / "hard.mjs").write_text(HARD, encoding="utf-8")
    run = ran("node", "hard.mjs", *RINKFOLD, folder=tmp_path)
    assert run.stdout == '[1,true,3,0,"rinkfold ended with 0"]\n', run.stderr


@needed("sh", "jq")
def test_the_client_for_the_shell() -> None:
    """Word for word, the slip in it included, and exit code 0."""
    folder = FOLDER / "shell"
    run = ran("sh", "watch.sh", "events.jsonl", *RINKFOLD, folder=folder)
    assert (run.stdout, run.stderr, run.returncode) == (shown(folder / "README.md"), "", 0)


@needed("sh", "jq")
def test_the_client_for_the_shell_with_the_example_game() -> None:
    """A whole log is followed to its end."""
    run = ran("sh", "watch.sh", "../../game.jsonl", *RINKFOLD, folder=FOLDER / "shell")
    assert (run.stderr, run.returncode) == ("", 0)
    lines = run.stdout.splitlines()
    assert [line for line in lines if line.startswith("#320 ")] == ["#320 closed, played → 5-4 · home 3 on 3"]
    assert lines[-1].startswith("power plays: home ")


@needed("sh", "jq")
def test_the_client_for_the_shell_without_a_log() -> None:
    """It ends with a word."""
    run = ran("sh", "watch.sh", folder=FOLDER / "shell")
    assert run.returncode != 0
    assert "name a log" in run.stderr
