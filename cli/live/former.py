"""Teams of former games in the folder of the log, whose rosters are taken over."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from attrs import evolve

from ...timeline.events import GameOpened, Player, TeamSheet
from ...timeline.problems import ProblemsFound
from ...timeline.record import event_from_line, event_to_dict, read_log
from ...timeline.script.corrections import effective
from ..people import people_of

__all__ = ["former_teams", "team_of"]

MOST_FILES = 100
LONGEST_LINE = 256 * 1024


def former_teams(log: str) -> list[dict[str, Any]]:
    """``[{"file", "date", "team", "players"}]``: each team of the folder once, as in its latest game."""
    found: dict[str, dict[str, Any]] = {}
    for path, header in sorted(_headers(log), key=lambda one: one[1].date or "", reverse=True):
        for sheet in (header.home, header.away):
            if sheet.roster:
                row = {"file": path.name, "date": header.date, "team": sheet.name, "players": len(sheet.roster)}
                found.setdefault(sheet.name, row)
    return sorted(found.values(), key=lambda row: str(row["team"]).casefold())


def _headers(log: str) -> Iterator[tuple[Path, GameOpened]]:
    """The first lines of the newest logs beside `log`; what is no log is passed over."""
    folder = Path(log).parent
    with contextlib.suppress(OSError):
        paths = [path for path in folder.glob("*.jsonl") if path.name != Path(log).name and path.is_file()]
        paths.sort(key=lambda path: path.stat().st_mtime, reverse=True)
        for path in paths[:MOST_FILES]:
            with contextlib.suppress(OSError, ValueError, ProblemsFound):
                header = _first_line(path)
                if isinstance(header, GameOpened):
                    yield path, header


def _first_line(path: Path) -> object:
    with path.open("rb") as file:
        return event_from_line(file.readline(LONGEST_LINE).rstrip(b"\n").decode())


def team_of(path: str | os.PathLike[str], name: str) -> dict[str, Any]:
    """The team called `name` as it stood at the end of the game at `path`; whoever was absent or hurt plays again.

    Raises:
        ProblemsFound: the file is no log.
    """
    log = read_log(path)
    header = effective(log.events, 1)
    assert isinstance(header, GameOpened)
    counting = (effective(log.events, one.seq) for one in log.events[1:] if one.kind == "roster_change")
    people = people_of(header, [one for one in counting if one is not None])
    at_home = header.home.name == name
    sheet = header.home if at_home else header.away
    players = tuple(_as_new(one) for one in (people.home if at_home else people.away).values())
    return _as_object(header, evolve(sheet, roster=players))


def _as_new(player: Player) -> Player:
    """`player` for another game: a suspension is for people to lift, and nothing else lasts."""
    return player if player.status == "suspended" else evolve(player, status=None)


def _as_object(header: GameOpened, sheet: TeamSheet) -> dict[str, Any]:
    fields: dict[str, Any] = event_to_dict(evolve(header, home=sheet))["home"]
    return fields
