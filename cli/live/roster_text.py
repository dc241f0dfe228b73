"""A roster as people paste or type it: a line a player, the number somewhere in it, the rest as it comes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from attrs import frozen

from ..roster_file import COLUMNS, VALUES, parse_roster

__all__ = ["Misread", "read_lines"]

MOST_LINES = 200
_ORDINAL = re.compile(r"^no\.?\s*(?=[0-9])", re.IGNORECASE)
_NUMBER = re.compile(r"#?([0-9]{1,3})[.):]?", re.ASCII)
_CELLS = re.compile(r"[,;\t]|\s+[-–|]\s+")


@frozen
class Misread:
    """A line that was not understood."""

    line: int
    text: str
    message: str
    fix: str


def read_lines(text: str) -> tuple[list[dict[str, str]], list[Misread]]:
    """The players in `text`, as objects of the log, and the lines that are none.

    >>> read_lines("31 Wren Castellow goalie")[0]
    [{'number': '31', 'name': 'Wren Castellow', 'position': 'goalkeeper'}]
    """
    lines = text.splitlines()[:MOST_LINES]
    if lines and "number" in re.split(r"[,;\t]", lines[0].lower()):
        return _table(lines)
    players: list[dict[str, str]] = []
    misread: list[Misread] = []
    seen: dict[str, int] = {}
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        player = _player(line)
        if player is None:
            misread.append(Misread(number, line, "There is no number in it.", "Write the number first: 12 Pia Holm C."))
        elif player["number"] in seen:
            first = seen[player["number"]]
            message = f"Number {player['number']} stands in line {first} too."
            misread.append(Misread(number, line, message, "Each number is one player's."))
        else:
            seen[player["number"]] = number
            players.append(player)
    return players, misread


def _table(lines: Sequence[str]) -> tuple[list[dict[str, str]], list[Misread]]:
    """A table with the heads that `rinkfold new` takes."""
    players, problems = parse_roster("\n".join(lines))
    texts = {number: line for number, line in enumerate(lines, 1)}
    return players, [Misread(one.line or 0, texts.get(one.line or 0, ""), one.message, one.fix) for one in problems]


def _player(line: str) -> dict[str, str] | None:
    """The player in a line; None where it has no number."""
    cells = [cell.strip() for cell in _CELLS.split(_ORDINAL.sub("", line.strip())) if cell and cell.strip()]
    words = [(place, word) for place, cell in enumerate(cells) for word in cell.split()]
    at = next((index for index, (_, word) in enumerate(words) if _NUMBER.fullmatch(word)), None)
    if at is None:
        return None
    match = _NUMBER.fullmatch(words[at][1])
    assert match is not None
    del words[at]
    player = {"number": match[1]}
    marks = _marks([word for _, word in words])
    name = " ".join(word for _, word in words[: len(words) - len(marks)])
    return {**player, **({"name": name} if name else {}), **dict(marks)}


def _marks(words: Sequence[str]) -> list[tuple[str, str]]:
    """What stands behind the name: position, letter and status; each once."""
    found: list[tuple[str, str]] = []
    for word in reversed(words):
        mark = _mark(word, taken=[column for column, _ in found])
        if mark is None:
            break
        found.insert(0, mark)
    return sorted(found, key=lambda mark: COLUMNS.index(mark[0]))


def _mark(word: str, taken: Sequence[str]) -> tuple[str, str] | None:
    bare = word.strip("()[].").lower()
    for column in ("letter", "position", "status"):
        values: Mapping[str, str] = VALUES[column]
        if bare in values and column not in taken:
            return column, values[bare]
    return None
