"""What is found in the example game, full and sparse: notes alone, each of them true."""

from __future__ import annotations

from pathlib import Path

import pytest

from rinkfold import rulesets
from rinkfold.timeline import read_log, replay
from rinkfold.timeline.views.findings import findings

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

REPORTED = "no_remark"
FOUND = {
    "game": [(REPORTED, 163), (REPORTED, 214), (REPORTED, 228), (REPORTED, 249), ("doors_not_written", None)],
    "sparse": [
        (REPORTED, 21), ("no_attempt", 26), (REPORTED, 28), (REPORTED, 29), (REPORTED, 31), ("whistles_not_kept", None),
    ],
}  # fmt: skip


@pytest.mark.parametrize("name", FOUND)
def test_the_example_game_has_notes_only(name: str) -> None:
    """Its four reports are not written in the log, some doors are not, and the sparse record leaves out an attempt."""
    log = read_log(EXAMPLES / f"{name}.jsonl")
    found = findings(replay(log, rulesets.of(log)))
    assert {finding.severity for finding in found} == {"note"}
    assert [(finding.code, finding.seq) for finding in found] == FOUND[name]
