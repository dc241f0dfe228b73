"""The random games are legal, and worth adding up."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any, get_args

import pytest
from attrs import Factory, define

from rinkfold.timeline import parse_log, replay
from rinkfold.timeline.events import KINDS, PART_KINDS
from rinkfold.timeline.fold.changes import Fate
from rinkfold.timeline.record import log_bytes
from rinkfold.timeline.views.findings import findings

GAMES = 200


@define
class Reached:
    """What 200 games came to."""

    kinds: Counter[str] = Factory(Counter)
    parts: Counter[str] = Factory(Counter)
    fates: Counter[str] = Factory(Counter)
    ends: Counter[str] = Factory(Counter)
    lengths: list[int] = Factory(list)
    wrong: list[str] = Factory(list)


@pytest.fixture(scope="module")
def reached(generator: Any) -> Reached:
    """Each game written, read again, replayed and checked."""
    found = Reached()
    for number in range(GAMES):
        log = parse_log(log_bytes(generator.random_game(1, number).events))
        assert log.chained
        assert log.header.pinned is not None
        game = replay(log)
        found.lengths.append(len(log.events))
        found.kinds.update(event.kind for event in log.events)
        found.parts.update(part.kind for life in game.penalties for part in life.parts)
        found.fates.update(part.fate for life in game.penalties for part in life.parts)
        found.ends[game.summary.final.decided_in or "level"] += 1
        found.wrong += [f"game {number}: {one}" for one in findings(game) if one.severity != "note"]
    return found


def test_every_game_is_legal(reached: Reached) -> None:
    """No check finds an error or a warning."""
    assert reached.wrong == []


def test_every_kind_of_event_is_reached(reached: Reached) -> None:
    """All of the format."""
    assert set(reached.kinds) == set(KINDS)


def test_every_kind_of_part_is_reached(reached: Reached) -> None:
    """All of the format."""
    assert set(reached.parts) == set(PART_KINDS)


def test_every_fate_is_reached(reached: Reached) -> None:
    """All that a part can come to."""
    assert set(reached.fates) - {"waiting", "running", "suspended"} == {*get_args(Fate), "unserved"}


def test_every_end_is_reached(reached: Reached) -> None:
    """In regulation, in overtime, in a shootout, and ties."""
    assert set(reached.ends) == {"regulation", "overtime", "shootout", "level"}


def test_games_are_as_long_as_real_ones(reached: Reached) -> None:
    """150 to 320 events, most of them."""
    usual = sum(150 <= length <= 320 for length in reached.lengths)
    assert usual > GAMES * 0.8


def test_a_seed_gives_the_same_games(generator: Any) -> None:
    """Byte for byte; another seed gives others."""
    first, again, other = (log_bytes(generator.random_game(seed, 5).events) for seed in (3, 3, 4))
    assert first == again
    assert first != other


def test_the_command(
    generator: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It writes as many games as asked for and says how many events they have."""
    arguments = [str(tmp_path / "games"), "--games", "3", "--seed", "2", "--jobs", "1"]
    monkeypatch.setattr("sys.argv", ["random_games.py", *arguments])
    generator.main()
    written = sorted(tmp_path.joinpath("games").glob("*.jsonl"))
    events = sum(len(path.read_bytes().splitlines()) for path in written)
    assert len(written) == 3
    assert capsys.readouterr().out == f"3 games, {events} events, in {tmp_path / 'games'}\n"
