"""What the benchmark times is what the public way does."""

from __future__ import annotations

import runpy
from pathlib import Path

from rinkfold import rulesets
from rinkfold.timeline import LiveGame, parse_log, read_log, replay
from rinkfold.timeline.fold import step
from rinkfold.timeline.folded import fold
from rinkfold.timeline.script import Script

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"


def test_the_benchmark_folds_as_the_public_way_does() -> None:
    """`fold`, which is timed, gives the states and changes of `replay`, each with its reason; so does the live game."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    timed = fold(log.header, tuple(Script.build(log.events, rules).placed), rules)
    game = replay(log, rules)
    assert timed.changes == game.changes
    assert timed.states == game.folded.states
    assert all(change.rule.source for changes in timed.changes for change in changes)
    live = LiveGame([log.header], rules)
    for event in log.events[1:]:
        live.record(event)
    assert live.game.changes == game.changes


def test_the_short_way_is_the_full_way(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    """Whistles and faceoffs that take the short way make the states and changes of the full one."""
    log = read_log(EXAMPLE)
    rules = rulesets.of(log)
    short = replay(log, rules)
    monkeypatch.setattr(step, "QUICK", {})
    monkeypatch.setattr(step, "CHANGES_NOTHING", frozenset())
    full = replay(log, rules)
    assert short.changes == full.changes
    assert [state.now for state in short.folded.states] == [state.now for state in full.folded.states]


def test_the_log_that_is_read_for_the_benchmark_is_one_that_the_program_writes(tmp_path: Path) -> None:
    """It is chained and has its ruleset pinned, holds every event of the example game, and gives the same game."""
    path = Path(__file__).parents[1] / "benchmarks" / "bench_targets.py"
    benchmark = runpy.run_path(str(path), run_name="bench_targets")
    example = read_log(EXAMPLE)
    log = parse_log(benchmark["chained_example"](tmp_path))
    assert log.chained
    assert log.header.pinned is not None
    assert [event.kind for event in log.events] == [event.kind for event in example.events]
    assert replay(log).strength_segments == replay(example, rulesets.of(example)).strength_segments
