"""Programs that are killed while they append, at moments that nobody chose."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from strategies import header
from torture.games import remark, started, texts

from rinkfold.timeline.record import append, create, read_log

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are made by fork, which this system lacks")


@pytest.mark.parametrize("appends", [60, pytest.param(1000, marks=pytest.mark.full)])
def test_what_was_acknowledged_before_a_kill_is_there(appends: int, tmp_path: Path) -> None:
    """Every one of them, in its place, and nothing is damaged that was there before."""
    path = tmp_path / "game.jsonl"
    create(path, header())
    with started("killing", path, appends, 20260110 + appends) as killing:
        said, _ = killing.communicate(timeout=55)
    assert killing.returncode == 0
    seen = json.loads(said)
    assert seen["attempts"] >= appends
    assert seen["kills"] >= appends / 20
    append(path, [remark("the last")])

    log = read_log(path)
    there = {event.seq: getattr(event, "text", None) for event in log.events}
    assert log.notes == ()
    assert log.chained
    assert list(there) == list(range(1, len(there) + 1))
    assert {seq: text for seq, text in seen["acknowledged"]}.items() <= there.items()
    assert len(there) == 1 + len(seen["acknowledged"]) + seen["whole"] + 1
    assert len(list(tmp_path.glob("*.torn-*"))) >= seen["torn"]
    assert seen["torn"] >= appends / 100


def test_a_torn_tail_is_set_aside_by_the_next_append(path: Path) -> None:
    """Whatever part of a line was written when the program was killed."""
    whole = path.read_bytes()
    append(path, [remark("y")])
    line = path.read_bytes().removeprefix(whole)
    for length in range(1, len(line) - 1):
        path.write_bytes(whole + line[:length])
        append(path, [remark("z")])
        assert path.with_name(f"{path.name}.torn-{length}").read_bytes() == line[:length]
        assert texts(path)[-1:] == ["z"]
    assert path.read_bytes().startswith(whole)
