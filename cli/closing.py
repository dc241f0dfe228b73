"""The head code, which is read out or written down when the record is signed."""

from __future__ import annotations

from ..timeline.events import GameClosed
from ..timeline.record import read_log
from .recording import Recording

__all__ = ["head_code_line", "head_code_of"]


def head_code_of(recording: Recording) -> str | None:
    """The head code of a closed and chained record; read anew from the disk, where the last line is now."""
    if not recording.game.folded.last.ice.closed:
        return None
    log = read_log(recording.log.name)
    return log.head_code if log.chained else None


def head_code_line(recording: Recording) -> list[str]:
    """The head code, where the record has just been closed, or was added to after it had been."""
    code = head_code_of(recording)
    if code is None:
        return []
    is_new = any(isinstance(one.event, GameClosed) for one in recording.taken)
    lead = f"Head code {code}: " if is_new else f"The record was closed; its head code is now {code}: "
    return [f"{lead}write it on the sheet. `rinkfold verify --against` compares it."]
