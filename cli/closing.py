"""The head code, which is read out or written down when the record is signed."""

from __future__ import annotations

from ..timeline.events import GameClosed
from ..timeline.record import read_log
from .recording import Recording

__all__ = ["head_code_line"]


def head_code_line(recording: Recording) -> list[str]:
    """The head code, where the record has just been closed; read anew from the disk, where the last line is now."""
    if not any(isinstance(one.event, GameClosed) for one in recording.taken):
        return []
    log = read_log(recording.log.name)
    if not log.chained:
        return []
    return [f"Head code {log.head_code}: write it on the sheet. `rinkfold verify --against` compares it."]
